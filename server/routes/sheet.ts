import { type Request, Router } from 'express';
import { deckSheetText } from '../../lib/brief/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { renderSheet } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { type SheetPage, sheetPage } from '../presenters/sheet-page.ts';
import { askedJob, idOf } from './job-asked.ts';
import { PageError } from './page-error.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The page of one job that is taken on deck, and the same as plain text. */
export function sheetRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/jobs/:id/sheet', async (request, response) => {
      const page = await askedSheet(deps, request);
      sendHtml(response, renderSheet(page, await shownFor(deps, request)));
    })
    .get('/jobs/:id/sheet.txt', async (request, response) => {
      const { sheet } = await askedSheet(deps, request);
      response.set('Cache-Control', 'no-store').attachment(`sheet-${sheet.jobId}.txt`);
      response.type('text/plain; charset=utf-8').send(deckSheetText(sheet));
    });
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

async function askedSheet(deps: Deps, request: Request): Promise<SheetPage> {
  const { document } = await askedJob(deps, request);
  const standing = deps.planStanding();
  if (standing.kind !== 'ready')
    throw new PageError(409, 'No plan yet', 'A deck sheet needs a plan. Wait until it is made, or make it.');
  const log = deps.passageLog();
  if (!log.ok) throw refusal(log.problems);
  const text = deps.passageText();
  const itemsCountedAt = text.ok ? text.value.itemsCountedAt : undefined;
  const page = sheetPage({
    view: standing.view,
    passage: document.passage,
    log: log.value.entries,
    ...(itemsCountedAt === undefined ? {} : { itemsCountedAt }),
    jobId: idOf(request),
    nowEpochMs: deps.nowEpochMs(),
  });
  if (!page.ok) throw refusal(page.problems);
  return page.value;
}

const refusal = (problems: readonly Problem[]): PageError =>
  new PageError(409, 'No deck sheet', problems.map(({ what, remedy }) => `${what} ${remedy}`).join(' '));
