import { type Request, type Response, Router } from 'express';
import { formatLogEntry, logCsv, type LogEntryFile } from '../../lib/log/index.ts';
import { renderLog } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { entryMoved, notWritten, writtenDown } from '../presenters/log-notices.ts';
import { logPage } from '../presenters/log-page.ts';
import { statementWords } from '../presenters/log-words.ts';
import type { ShownUnits } from '../presenters/units/shown-units.ts';
import type { Notice } from '../presenters/notices.ts';
import { formBody, formOf } from './form.ts';
import { entryAsked, type LogDocument, logDocument, shownLog } from './log-asked.ts';
import { logEntryRoutes, minuteOf, tokenOf, type ToWrite, writeEntry } from './log-entry.ts';
import { PageError } from './page-error.ts';
import { expectedVersion } from './saving.ts';
import { unitsOf } from './reader-units.ts';
import { sendHtml, shownFor } from './shown.ts';

interface Asked {
  readonly request: Request;
  readonly response: Response;
}

/** The log: what happened, as a page, as files, and the buttons that write what happens now. */
export function logRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/log', (request, response) => listPage(deps, { request, response }, []))
    .get('/log.jsonl', async (_, response) => {
      const { entries } = await logDocument(deps);
      const lines = entries.map(({ entry }) => `${formatLogEntry(entry)}\n`).join('');
      response.set('Cache-Control', 'no-store').attachment('log.jsonl').type('application/jsonl').send(lines);
    })
    .get('/log.csv', async (_, response) => {
      const { entries } = await logDocument(deps);
      response.set('Cache-Control', 'no-store').attachment('log.csv').type('text/csv').send(logCsv(entries));
    })
    .post('/log/tap', formBody, (request, response) => tapped(deps, { request, response }))
    .post('/log/:number/withdraw', formBody, (request, response) => withdraw(deps, { request, response }))
    .use(logEntryRoutes(deps));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

async function listPage(deps: Deps, { request, response }: Asked, first: readonly Notice[]): Promise<void> {
  const log = await logDocument(deps);
  const { from, logged } = request.query;
  const firstIndex = typeof from === 'string' && /^\d{1,6}$/.test(from) ? Number(from) : 0;
  const notices = [
    ...first,
    ...(typeof logged === 'string' ? loggedNotices(log, Number(logged), unitsOf(request)) : []),
  ];
  sendHtml(
    response,
    renderLog(
      logPage({ ...shownLog(deps, log), units: unitsOf(request) }, firstIndex),
      await shownFor(deps, request, notices),
    ),
  );
}

/** What has just been written, and the button that takes it back. */
function loggedNotices({ rows, document }: LogDocument, number: number, units: ShownUnits): readonly Notice[] {
  const row = rows.find((one) => one.number === number);
  if (row === undefined) return [];
  const { entry } = row;
  if (entry.kind !== 'correction') {
    const isAsWritten = row.correctedBy === null;
    const version = `${document.number}.0`;
    const words = statementWords(entry, document.passage, units);
    return [writtenDown({ number, words, withdraw: isAsWritten ? { number, version } : null })];
  }
  const words = entry.by === null ? 'it did not happen.' : statementWords(entry.by, document.passage, units);
  return [writtenDown({ number, words: `of entry ${entry.corrects}: ${words}`, withdraw: null })];
}

/** What became of a job just now. */
async function tapped(deps: Deps, asked: Asked): Promise<void> {
  const log = await logDocument(deps);
  const form = formOf(asked.request);
  const event = eventOf(form.text('event'));
  if (event === null)
    throw new PageError(400, 'Not written', 'The form does not say what became of the job. Load its page again.');
  await write(deps, asked, {
    log,
    passageNumber: expectedVersion(form).number,
    entry: { kind: 'job', atUtc: minuteOf(log.nowEpochMs), jobId: form.text('job'), event },
    formToken: tokenOf(form),
  });
}

const EVENTS = ['started', 'safe-point', 'stopped', 'done'] as const;

const eventOf = (text: string): (typeof EVENTS)[number] | null => EVENTS.find((event) => event === text) ?? null;

/** It did not happen. An entry that somebody has corrected meanwhile is looked at first. */
async function withdraw(deps: Deps, asked: Asked): Promise<void> {
  const log = await logDocument(deps);
  const { number, seenNumber, statement } = entryAsked(asked.request, log);
  const expected = expectedVersion(formOf(asked.request));
  if (statement === null) return asked.response.redirect(303, `/log#e${number}`);
  if (expected.version !== seenNumber) {
    asked.response.status(409);
    return listPage(deps, asked, [entryMoved]);
  }
  const entry: LogEntryFile = { kind: 'correction', atUtc: minuteOf(log.nowEpochMs), corrects: number, by: null };
  return write(deps, asked, {
    log,
    passageNumber: expected.number,
    entry,
    formToken: `withdraw.${number}.${seenNumber}`,
  });
}

/** Written, and then to the log (303), so that loading it again writes nothing; or the log with what stands against it. */
async function write(deps: Deps, asked: Asked, entry: ToWrite): Promise<void> {
  const written = await writeEntry(deps, entry);
  if (written.ok) return asked.response.redirect(303, `/log?logged=${written.value}`);
  const { problems } = written;
  asked.response.status(problems.some(({ code }) => code === 'log.other-passage') ? 409 : 422);
  return listPage(deps, asked, [{ ...notWritten(problems), problems }]);
}
