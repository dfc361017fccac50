import { type Request, type Response, Router } from 'express';
import type { Message } from '../../lib/message/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { formatAt } from '../../lib/time/index.ts';
import { renderMessages } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { withForecasts } from '../forecast-choice.ts';
import { digestFileText } from '../message-text.ts';
import { reportEntries } from '../message-forms/index.ts';
import { textHash } from '../stores/index.ts';
import { storedName } from '../stores/passage-files.ts';
import { type Form, formOf, mailBody } from './form.ts';
import {
  type MessageDocument,
  messageAsked,
  messageDocument,
  messagePageWith,
  messagesPageWith,
} from './message-asked.ts';
import { PageError } from './page-error.ts';
import { expectedVersion } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

interface Asked {
  readonly request: Request;
  readonly response: Response;
}

/** Taking a message over: out of a text that was read, or out of the list. */
export function takeRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .post('/messages/take', mailBody, (request, response) => takeFound(deps, { request, response }))
    .post('/messages/:number/take', mailBody, (request, response) => takeKept(deps, { request, response }));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

/** The text is read again, for a form can hold anything; then it is taken over, and then kept. */
async function takeFound(deps: Deps, { request, response }: Asked): Promise<void> {
  const form = formOf(request);
  const from = await messageDocument(deps);
  const read = { text: form.text('text'), takesUnsigned: form.text('unsigned') === 'yes', isCapitals: false };
  const answer = deps.readText(read);
  const found = answer.ok
    ? answer.value.found.find(({ fingerprint }) => fingerprint === form.text('fingerprint'))
    : undefined;
  const refuse = async (problems: readonly Problem[]): Promise<void> => {
    response.status(statusOf(problems));
    const entered = { read, found: answer.ok ? answer.value : null, readProblems: problems };
    sendHtml(response, renderMessages(messagesPageWith(deps, from, entered), await shownFor(deps, request)));
  };
  if (!answer.ok) return refuse(answer.problems);
  if (found === undefined) throw new PageError(400, 'Not taken', 'The form does not say which message. Read it again.');
  if (!found.replay.ok) return refuse(found.replay.problems);
  const taken = await apply(deps, from, {
    form,
    message: found.message,
    text: found.text,
    fingerprint: found.fingerprint,
  });
  if (!taken.ok) return refuse(taken.problems);
  const kept = deps.keepReceived(found, expectedVersion(form).number);
  if (!kept.ok) return refuse(kept.problems);
  return response.redirect(303, takenPath(kept.value.number, taken.value));
}

async function takeKept(deps: Deps, { request, response }: Asked): Promise<void> {
  const kept = messageAsked(deps, request);
  const from = await messageDocument(deps);
  const form = formOf(request);
  if (kept.direction === 'sent')
    throw new PageError(400, 'Not taken', 'This message was written here, and there is nothing in it to take over.');
  const { message, text, fingerprint } = kept;
  const taken = await apply(deps, from, { form, message, text, fingerprint });
  if (taken.ok) return response.redirect(303, takenPath(kept.number, taken.value));
  response.status(statusOf(taken.problems));
  return sendHtml(response, renderMessages(messagePageWith(from, kept, taken.problems), await shownFor(deps, request)));
}

const takenPath = (number: number, { act, count }: Taken): string =>
  `/messages/${number}?taken=${act}${act === 'log' ? `&count=${count}` : ''}`;

const statusOf = (problems: readonly Problem[]): number =>
  problems.some(({ code }) => CONFLICTS.includes(code)) ? 409 : 422;

const CONFLICTS: readonly string[] = [
  'store.version-conflict',
  'log.other-passage',
  'message.other-passage',
  'message.replayed',
  'message.counter-used',
];

interface Taken {
  readonly act: 'log' | 'plan-with' | 'keep';
  /** Entries written. */
  readonly count: number;
}

interface ToApply {
  readonly form: Form;
  readonly message: Message;
  readonly text: string;
  readonly fingerprint: string;
}

/** What its button says, with what the message says. Doing it twice does it once. */
async function apply(deps: Deps, from: MessageDocument, of: ToApply): Promise<Result<Taken>> {
  const act = of.form.text('do');
  if (act === 'keep') return ok({ act, count: 0 });
  if (act === 'log' && of.message.kind === 'report') return intoLog(deps, from, { ...of, message: of.message });
  if (act === 'plan-with' && of.message.kind === 'digest') return planWith(deps, from, of);
  throw new PageError(400, 'Not taken', 'The form does not say what to do with the message. Read it again.');
}

async function intoLog(
  deps: Deps,
  { document, entries, nowEpochMs }: MessageDocument,
  { form, message, fingerprint }: ToApply & { readonly message: Message & { readonly kind: 'report' } },
): Promise<Result<Taken>> {
  const { number: passageNumber } = expectedVersion(form);
  const has = reportEntries(message, fingerprint, { passage: document.passage, entries, nowEpochMs });
  if (!has.ok) return has;
  const written = await deps.writeLogEntries(
    has.value.toWrite.map(({ entry, formToken }) => ({
      passageNumber,
      entry,
      atEpochMs: Date.parse(entry.atUtc),
      formToken,
    })),
  );
  return written.ok ? ok({ act: 'log', count: written.value.length }) : written;
}

async function planWith(
  deps: Deps,
  { document }: MessageDocument,
  { form, message, text }: ToApply,
): Promise<Result<Taken>> {
  const expected = expectedVersion(form);
  if (expected.number !== document.number) return failed(otherPassage(expected.number, document.number));
  const content = digestFileText(text);
  const name = storedName(textHash(content));
  const kept = await deps.keepFile({
    fileName: `digest-${formatAt(message.madeEpochMs, 0, "yyyy-MM-dd'T'HHmm'Z'")}.txt`,
    octets: new TextEncoder().encode(content),
  });
  if (!kept.ok) return kept;
  const isUsed = document.passage.forecasts.length === 1 && document.passage.forecasts[0] === name;
  if (isUsed) return ok({ act: 'plan-with', count: 0 });
  const saved = await deps.savePassage({
    expected,
    change: (file) => withForecasts(file, { references: [name], offered: [name] }),
  });
  return saved.ok ? ok({ act: 'plan-with', count: 0 }) : saved;
}

const otherPassage = (expected: number, found: number): Problem => ({
  code: 'message.other-passage',
  where: 'the messages',
  what: `Another passage is shown meanwhile: passage ${found}; this was meant for passage ${expected}.`,
  expected: `passage ${expected}`,
  remedy: 'Show that passage again, or do it anew for the one that is shown.',
});
