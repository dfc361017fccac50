import { type Request, type Response, Router } from 'express';
import type { Job } from '../../lib/jobs/index.ts';
import { appendProblems, type LogEntryFile, type StatementFile } from '../../lib/log/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { formatUtc, MS_PER_MIN, parseUtc } from '../../lib/time/index.ts';
import { renderLog } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { carriedTexts } from '../entry-forms/index.ts';
import { ENTRY, inEntry, isLogKind, type LogKind, statementOf, WHERE } from '../log-forms/index.ts';
import { logEntryPage } from '../presenters/log-entry-page.ts';
import { logPicksPage } from '../presenters/log-page.ts';
import { entryMoved, notWritten } from '../presenters/log-notices.ts';
import { prefilledTexts } from '../presenters/log-prefilled.ts';
import { textsOfForm, type Texts } from './entry.ts';
import { type Form, formBody, formOf } from './form.ts';
import { entryAsked, jobAsked, type LogDocument, logDocument, shownLog } from './log-asked.ts';
import { PageError } from './page-error.ts';
import { expectedVersion } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

interface Asked {
  readonly request: Request;
  readonly response: Response;
}

/** Forms of the log: of a new entry, and of one that is corrected. */
export function logEntryRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/log/new/:kind', async (request, response) => {
      const log = await logDocument(deps);
      const [kind, job] = kindAsked(request, log);
      const html =
        kind === 'job' && job === null
          ? renderLog(logPicksPage(shownLog(deps, log)), await shownFor(deps, request))
          : await formPage(deps, request, { log, kind, job, refused: null });
      sendHtml(response, html);
    })
    .post('/log/new/:kind', formBody, (request, response) => addEntry(deps, { request, response }))
    .get('/log/:number', async (request, response) => {
      const log = await logDocument(deps);
      const corrected = entryAsked(request, log);
      const { kind } = corrected.shown;
      const job = jobOf(corrected.shown, log);
      sendHtml(response, await formPage(deps, request, { log, kind, job, corrected, refused: null }));
    })
    .post('/log/:number', formBody, (request, response) => correctEntry(deps, { request, response }));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

function kindAsked(request: Request, log: LogDocument): readonly [LogKind, Job | null] {
  const { kind } = request.params;
  if (typeof kind === 'string' && isLogKind(kind)) return [kind, kind === 'job' ? jobAsked(request, log) : null];
  throw new PageError(
    404,
    'No such entry',
    'The log takes observations, sleeps, jobs and notes. Choose one on the page Log.',
  );
}

/** The job of an entry; one that is no longer in the passage has a name and no steps. */
function jobOf(statement: StatementFile, { document }: LogDocument): Job | null {
  if (statement.kind !== 'job') return null;
  return document.passage.jobs.find(({ id }) => id === statement.jobId) ?? null;
}

interface FormAsked {
  readonly log: LogDocument;
  readonly kind: LogKind;
  readonly job: Job | null;
  readonly corrected?: ReturnType<typeof entryAsked>;
  readonly refused: { readonly texts: Texts; readonly problems: readonly Problem[]; readonly was: Texts | null } | null;
}

async function formPage(deps: Deps, request: Request, asked: FormAsked, token?: string): Promise<string> {
  const { log, kind, job, corrected = null, refused } = asked;
  const { event } = request.query;
  const page = logEntryPage(
    {
      kind,
      corrected,
      prefilled: prefilledTexts(kind, log.rows, typeof event === 'string' ? event : null),
    },
    {
      document: log.document,
      around: log.aroundOf(job),
      nowEpochMs: deps.nowEpochMs(),
      formToken: token ?? deps.formToken(),
      refused,
    },
  );
  const first = refused === null ? [] : [refused.was === null ? notWritten(refused.problems) : entryMoved];
  return renderLog(page, await shownFor(deps, request, first));
}

async function addEntry(deps: Deps, { request, response }: Asked): Promise<void> {
  const log = await logDocument(deps);
  const [kind, job] = kindAsked(request, log);
  const form = formOf(request);
  const { number: passageNumber } = expectedVersion(form);
  const texts = textsOfForm(form);
  const statement = statementOf({ kind, texts, before: null }, log.aroundOf(job));
  const written = statement.ok
    ? await writeEntry(deps, { log, passageNumber, entry: statement.value, formToken: tokenOf(form) })
    : statement;
  if (written.ok) return response.redirect(303, `/log?logged=${written.value}`);
  const refused = { texts, problems: written.problems, was: null };
  response.status(isOther(written.problems) ? 409 : 422);
  return sendHtml(response, await formPage(deps, request, { log, kind, job, refused }, tokenOf(form)));
}

async function correctEntry(deps: Deps, { request, response }: Asked): Promise<void> {
  const log = await logDocument(deps);
  const corrected = entryAsked(request, log);
  const { kind } = corrected.shown;
  const job = jobOf(corrected.shown, log);
  const form = formOf(request);
  const { number: passageNumber, version: seenNumber } = expectedVersion(form);
  const texts = textsOfForm(form);
  const statement = statementOf({ kind, texts, before: corrected.shown }, aroundCorrected(log, corrected.shown, job));
  if (statement.ok && isSame(statement.value, corrected.statement))
    return response.redirect(303, `/log#e${corrected.number}`);
  const refuse = async (status: number, problems: readonly Problem[], was: Texts | null): Promise<void> => {
    response.status(status);
    sendHtml(response, await formPage(deps, request, { log, kind, job, corrected, refused: { texts, problems, was } }));
  };
  if (seenNumber !== corrected.seenNumber) return refuse(409, [], carriedTexts(form.text('was')) ?? new Map());
  const written = statement.ok
    ? await writeEntry(deps, {
        log,
        passageNumber,
        entry: { kind: 'correction', atUtc: minuteOf(log.nowEpochMs), corrects: corrected.number, by: statement.value },
        formToken: `correct.${corrected.number}.${seenNumber}`,
      })
    : statement;
  if (written.ok) return response.redirect(303, `/log?logged=${written.value}#e${corrected.number}`);
  return refuse(isOther(written.problems) ? 409 : 422, written.problems, null);
}

/** A job that is no longer in the passage is still the job of its entries. */
const aroundCorrected = (
  log: LogDocument,
  statement: StatementFile,
  job: Job | null,
): ReturnType<LogDocument['aroundOf']> =>
  job === null && statement.kind === 'job' ? { ...log.aroundOf(null), jobId: statement.jobId } : log.aroundOf(job);

export interface ToWrite {
  readonly log: LogDocument;
  /** The passage the form was made for. */
  readonly passageNumber: number;
  readonly entry: LogEntryFile;
  readonly formToken: string;
}

/** Writes an entry that may be added; its number, or every problem at its input. */
export async function writeEntry(
  deps: Deps,
  { log, passageNumber, entry, formToken }: ToWrite,
): Promise<Result<number>> {
  const { document, entries, nowEpochMs } = log;
  const [first, ...rest] =
    document.number === passageNumber
      ? appendProblems({ entry, entries, jobs: document.passage.jobs, nowEpochMs }, WHERE).map((problem) =>
          atInput(problem, entry, nowEpochMs),
        )
      : [];
  if (first !== undefined) return failed(first, ...rest);
  const at = parseUtc(entry.atUtc, WHERE);
  if (!at.ok) return at;
  const written = await deps.writeLog({ passageNumber, entry, atEpochMs: at.value, formToken });
  return written.ok ? ok(written.value.number) : written;
}

/** What lies ahead is told at the input of its time. */
function atInput(problem: Problem, entry: LogEntryFile, nowEpochMs: number): Problem {
  if (problem.code !== 'log.future') return inEntry(problem);
  const statement = entry.kind === 'correction' ? entry.by : entry;
  const start = parseUtc(statement?.atUtc ?? '', '');
  const isEnd = statement?.kind === 'sleep' && start.ok && start.value <= nowEpochMs;
  return { ...problem, where: `${WHERE}, ${ENTRY}.${isEnd ? 'endUtc' : 'atUtc'}` };
}

/** Hidden field of a form; one without it is not one of ours. */
export function tokenOf(form: Form): string {
  const token = form.text('token');
  if (/^[\w.-]{1,64}$/.test(token)) return token;
  throw new PageError(400, 'Not written', 'The form is not one of ours. Load its page again.');
}

export const minuteOf = (epochMs: number): string => formatUtc(Math.floor(epochMs / MS_PER_MIN) * MS_PER_MIN);

const isOther = (problems: readonly Problem[]): boolean => problems.some(({ code }) => code === 'log.other-passage');

/** Both were read by the same shape, so their keys stand in the same order. */
const isSame = (one: StatementFile, other: StatementFile | null): boolean =>
  JSON.stringify(one) === JSON.stringify(other);
