import type { Request, Response } from 'express';
import type { Result } from '../../lib/result/index.ts';
import { renderMessageCount, renderMessages } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { readWriteForm, type WriteAsked, type WriteTexts, writeTextsOf } from '../message-forms/index.ts';
import { type CountView, countView, DIGEST_NOT_COUNTED, LONGEST_SENDER } from '../presenters/message-count.ts';
import { formOf } from './form.ts';
import { tokenOf } from './log-entry.ts';
import { type MessageDocument, messageDocument, messagesPageWith } from './message-asked.ts';
import { composedNow } from './message-write.ts';
import { sendHtml, shownFor } from './shown.ts';

/** How much the message of the form would fill: the count alone while it is written, the page with it for the button. */
export async function countAsked(deps: Deps, request: Request, response: Response): Promise<void> {
  const form = formOf(request);
  const texts = writeTextsOf(form.text);
  const isLive = request.get('HX-Request-Type') === 'partial';
  const from = await messageDocument(deps);
  const count = isLive && texts.kind === 'digest' ? DIGEST_NOT_COUNTED : await counted(deps, from, texts);
  if (isLive) return sendHtml(response, renderMessageCount(count));
  const page = messagesPageWith(deps, from, { written: texts, count, formToken: tokenOf(form) });
  return sendHtml(response, renderMessages(page, await shownFor(deps, request)));
}

async function counted(deps: Deps, from: MessageDocument, texts: WriteTexts): Promise<CountView> {
  const isSenderMissing = texts.sender.trim() === '';
  const asked = readWriteForm(isSenderMissing ? { ...texts, sender: LONGEST_SENDER } : texts);
  if (!asked.ok) return countView({ text: asked, limitCount: 0, isSenderMissing });
  return countView({
    text: await partsAsked(deps, from, asked.value),
    limitCount: asked.value.limitCount,
    isSenderMissing,
  });
}

async function partsAsked(deps: Deps, from: MessageDocument, asked: WriteAsked): Promise<Result<string>> {
  const composed = await composedNow(deps, from, asked);
  if (!composed.ok) return composed;
  const { message, counterNumber } = composed.value;
  return deps.partsOfMessage({ message, sender: asked.sender, limitCount: asked.limitCount, counterNumber });
}
