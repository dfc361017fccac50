import { type Request, type Response, Router } from 'express';
import { failed, ok, type Problem } from '../../lib/result/index.ts';
import { lockerCsv, readLockerCsv } from '../../lib/stock/index.ts';
import { renderLocker } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { PassageDocument } from '../documents/index.ts';
import {
  cutPlanOf,
  lockerAfterCut,
  withItem,
  withKerf,
  withLocker,
  withoutCutting,
  withoutItem,
  withoutPiece,
  withPiece,
} from '../locker-forms/index.ts';
import { changeTexts, itemPage, lockerPage, piecePage, type TableView } from '../presenters/locker-page.ts';
import { indexOf, savingEntry, shownDocument } from './entry.ts';
import { formBody, formOf } from './form.ts';
import { saving } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The locker: what is on board, as a page and as a table; and what is cut from its bars. */
export function lockerRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/locker', async (request, response) => {
      const page = lockerPage(await shownDocument(deps), deps.nowEpochMs());
      sendHtml(response, renderLocker(page, await shownFor(deps, request)));
    })
    .get('/locker.csv', async (_, response) => {
      const { passage } = await shownDocument(deps);
      response.attachment('locker.csv').type('text/csv').send(lockerCsv(passage.locker));
    })
    .post('/locker/table', formBody, (request, response) => readTable(deps, request, response))
    .post('/locker/kerf', formBody, (request, response) =>
      saving(
        deps,
        { request, response },
        {
          to: '/locker#cutting',
          change: (file, form) => withKerf(file, form.text('kerf')),
          page: async (_, shown) => renderLocker(lockerPage(await shownDocument(deps), deps.nowEpochMs()), shown),
        },
      ),
    )
    .post('/locker/sawn', formBody, (request, response) => takeOffCuts(deps, request, response))
    .use(entryRoutes(deps));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

/** Forms of a line and of a piece. */
function entryRoutes(deps: Deps): Router {
  const itemAt = (request: Request, { file }: PassageDocument): number =>
    indexOf(request, 'index', file.locker?.length ?? 0);
  const pieceAt = (request: Request, { file }: PassageDocument): number =>
    indexOf(request, 'index', file.cutting?.pieces.length ?? 0);
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/locker/items/:index', async (request, response) => {
      const document = await shownDocument(deps);
      const page = itemPage(itemAt(request, document), { document, nowEpochMs: deps.nowEpochMs(), refused: null });
      sendHtml(response, renderLocker(page, await shownFor(deps, request)));
    })
    .post('/locker/items/:index', formBody, async (request, response) => {
      const index = itemAt(request, await shownDocument(deps));
      await savingEntry(
        deps,
        { request, response },
        {
          to: '/locker',
          save: (file, texts) => withItem(file, index, texts),
          remove: (file) => withoutItem(file, index),
          page: (refused, document, shown) =>
            renderLocker(itemPage(index, { document, nowEpochMs: deps.nowEpochMs(), refused }), shown),
        },
      );
    })
    .get('/locker/pieces/:index', async (request, response) => {
      const document = await shownDocument(deps);
      const page = piecePage(pieceAt(request, document), { document, nowEpochMs: deps.nowEpochMs(), refused: null });
      sendHtml(response, renderLocker(page, await shownFor(deps, request)));
    })
    .post('/locker/pieces/:index', formBody, async (request, response) => {
      const index = pieceAt(request, await shownDocument(deps));
      await savingEntry(
        deps,
        { request, response },
        {
          to: '/locker#cutting',
          save: (file, texts) => withPiece(file, index, texts),
          remove: (file) => withoutPiece(file, index),
          page: (refused, document, shown) =>
            renderLocker(piecePage(index, { document, nowEpochMs: deps.nowEpochMs(), refused }), shown),
        },
      );
    });
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

/** A table pasted: shown with what it would change, and saved with the second button. */
async function readTable(deps: Deps, request: Request, response: Response): Promise<void> {
  const form = formOf(request);
  const text = form.text('table');
  const read = readLockerCsv(text, 'the table');
  const pageWith = async (problems: readonly Problem[]) => {
    const document = await shownDocument(deps);
    const changes = read.ok ? changeTexts(document.passage.locker, read.value) : null;
    const table: TableView = { text, changes, problems: read.ok ? problems : read.problems };
    return lockerPage(document, deps.nowEpochMs(), table);
  };
  if (form.text('do') !== 'save') {
    response.status(read.ok ? 200 : 422);
    sendHtml(response, renderLocker(await pageWith([]), await shownFor(deps, request)));
    return;
  }
  await saving(
    deps,
    { request, response },
    {
      to: '/locker',
      change: (file) => (read.ok ? ok(withLocker(file, read.value)) : failed(...read.problems)),
      page: async ({ problems }, shown) => renderLocker(await pageWith(problems), shown),
    },
  );
}

/** Bars that are cut go out of the locker, left-overs worth keeping come in, and the pieces are no longer wanted. */
async function takeOffCuts(deps: Deps, request: Request, response: Response): Promise<void> {
  const { passage } = await shownDocument(deps);
  const { cutting, locker } = passage;
  const after = cutting === null ? locker : lockerAfterCut(locker, cutPlanOf(cutting, locker));
  await saving(
    deps,
    { request, response },
    {
      to: '/locker',
      change: (file) => ok(withoutCutting(withLocker(file, after))),
      page: async (_, shown) => renderLocker(lockerPage(await shownDocument(deps), deps.nowEpochMs()), shown),
    },
  );
}
