import { type Request, type Response, Router } from 'express';
import { renderMessages } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { messageKeyPage } from '../presenters/message-page.ts';
import type { Notice } from '../presenters/notices.ts';
import type { ReadTexts } from '../presenters/messages-page.ts';
import { takenNotice, writtenNotice } from '../presenters/message-notices.ts';
import { shownDocument } from './entry.ts';
import { type Form, formBody, formOf, mailBody } from './form.ts';
import { messageAsked, messageDocument, messagePageWith, messagesPageWith } from './message-asked.ts';
import { countAsked } from './message-count.ts';
import { takeRoutes } from './message-take.ts';
import { writeAsked } from './message-write.ts';
import { sendHtml, shownFor } from './shown.ts';

/** Messages to and from the shore: written, read, taken over, and the list of them. */
export function messagesRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/messages', async (request, response) => {
      const { from } = request.query;
      const firstIndex = typeof from === 'string' && /^\d{1,6}$/.test(from) ? Number(from) : 0;
      const page = messagesPageWith(deps, await messageDocument(deps), {}, firstIndex);
      sendHtml(response, renderMessages(page, await shownFor(deps, request)));
    })
    .get('/messages/key', async (request, response) => {
      const page = messageKeyPage(await shownDocument(deps), deps.nowEpochMs());
      sendHtml(response, renderMessages(page, await shownFor(deps, request)));
    })
    .get('/messages/:number', async (request, response) => {
      const kept = messageAsked(deps, request);
      const page = messagePageWith(await messageDocument(deps), kept, []);
      sendHtml(response, renderMessages(page, await shownFor(deps, request, noticesOf(request, kept.number))));
    })
    .post('/messages/write', formBody, (request, response) => writeAsked(deps, request, response))
    .post('/messages/count', formBody, (request, response) => countAsked(deps, request, response))
    .post('/messages/read', mailBody, (request, response) => readAsked(deps, request, response))
    .use(takeRoutes(deps));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

function noticesOf({ query: { written, taken, count } }: Request, number: number): readonly Notice[] {
  if (written === 'yes') return [writtenNotice(number)];
  if (taken !== 'log' && taken !== 'plan-with' && taken !== 'keep') return [];
  return [takenNotice(number, taken, typeof count === 'string' && /^\d{1,4}$/.test(count) ? Number(count) : 0)];
}

/** What the text holds. Nothing is kept of it, so it is answered at once, and may be sent again. */
async function readAsked(deps: Deps, request: Request, response: Response): Promise<void> {
  const read = readTextsOf(formOf(request));
  const from = await messageDocument(deps);
  const { text, takesUnsigned, isCapitals } = read;
  const answer = deps.readText({ text: isCapitals ? text.toUpperCase() : text, takesUnsigned });
  if (!answer.ok) response.status(422);
  const entered = answer.ok ? { read, found: answer.value } : { read, readProblems: answer.problems };
  const page = messagesPageWith(deps, from, entered);
  sendHtml(response, renderMessages(page, await shownFor(deps, request)));
}

const readTextsOf = (form: Form): ReadTexts => ({
  text: form.text('text'),
  takesUnsigned: form.text('unsigned') === 'yes',
  isCapitals: form.text('capitals') === 'yes',
});
