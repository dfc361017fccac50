import type { Request, Response } from 'express';
import type { Result } from '../../lib/result/index.ts';
import { renderMessages } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { KeptMessage } from '../keep-messages.ts';
import { type Composed, composeMessage, readWriteForm, type WriteAsked, writeTextsOf } from '../message-forms/index.ts';
import { textHash } from '../stores/index.ts';
import { formOf } from './form.ts';
import { tokenOf } from './log-entry.ts';
import { type MessageDocument, messageDocument, messagesPageWith } from './message-asked.ts';
import { expectedVersion } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/** Writes a message with the next counter, and then to its page (303); or the form again with every problem. */
export async function writeAsked(deps: Deps, request: Request, response: Response): Promise<void> {
  const form = formOf(request);
  const texts = writeTextsOf(form.text);
  const from = await messageDocument(deps);
  const { number: passageNumber } = expectedVersion(form);
  // What comes twice from one form is one message; the form changed and sent again, out of the browser's store, is another.
  const formToken = `${tokenOf(form)}.${textHash(JSON.stringify(texts)).slice(0, 16)}`;
  const asked = readWriteForm(texts);
  const written = asked.ok ? await compose(deps, from, { asked: asked.value, passageNumber, formToken }) : asked;
  if (written.ok) return response.redirect(303, `/messages/${written.value.number}?written=yes`);
  const { problems } = written;
  response.status(problems.some(({ code }) => code === 'message.other-passage') ? 409 : 422);
  const page = messagesPageWith(deps, from, { written: texts, writeProblems: problems, formToken: tokenOf(form) });
  return sendHtml(response, renderMessages(page, await shownFor(deps, request)));
}

interface ToWrite {
  readonly asked: WriteAsked;
  readonly passageNumber: number;
  readonly formToken: string;
}

async function compose(
  deps: Deps,
  from: MessageDocument,
  { asked, passageNumber, formToken }: ToWrite,
): Promise<Result<KeptMessage>> {
  const earlier = deps.messageOfForm(formToken);
  if (!earlier.ok) return earlier;
  if (earlier.value !== null) return { ok: true, value: earlier.value };
  const composed = await composedNow(deps, from, asked);
  if (!composed.ok) return composed;
  const { sender, limitCount, counterNumber } = asked;
  return deps.keepSent({
    message: composed.value.message,
    of: composed.value.of,
    passageNumber,
    sender,
    limitCount,
    formToken,
    leastCounterNumber: counterNumber,
  });
}

/** The message asked for, as plan, forecast and log stand now, and the counter it would get. */
export async function composedNow(
  deps: Deps,
  { document, entries, nowEpochMs, plan }: MessageDocument,
  asked: WriteAsked,
): Promise<Result<Composed & { readonly counterNumber: number }>> {
  const [messages, next] = [deps.messages(), deps.nextCounter(asked.kind, asked.sender)];
  if (!messages.ok) return messages;
  if (!next.ok) return next;
  const composed = await composeMessage(asked, {
    passage: document.passage,
    plan,
    entries,
    messages: messages.value,
    nowEpochMs,
    nextCounterNumber: next.value,
    isSigned: deps.hasMessageKey,
    askDigest: deps.askDigest,
  });
  if (!composed.ok) return composed;
  const counterNumber = Math.max(next.value, asked.counterNumber ?? next.value);
  return { ok: true, value: { ...composed.value, counterNumber } };
}
