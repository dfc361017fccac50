import { type Request, type Response, Router } from 'express';
import type { PassageFile } from '../../lib/passage/index.ts';
import type { Result } from '../../lib/result/index.ts';
import { renderLocker } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { PassageDocument } from '../documents/index.ts';
import { ITEM_FIELDS, withItem, withoutItem, withoutPiece, withPiece } from '../locker-forms/index.ts';
import { type AskedEntry, itemPage, piecePage } from '../presenters/locker-entry-pages.ts';
import { indexOf, savingEntry, shownDocument, type Texts } from './entry.ts';
import { formBody } from './form.ts';
import { sendHtml, shownFor } from './shown.ts';

/** One list of entries: where its forms are, and what they change. */
interface EntryList {
  readonly path: string;
  readonly to: string;
  readonly countOf: (document: PassageDocument) => number;
  readonly page: typeof itemPage;
  readonly save: (file: PassageFile, index: number, texts: Texts) => Result<PassageFile>;
  readonly remove: (file: PassageFile, index: number) => Result<PassageFile>;
}

const LINES: EntryList = {
  path: '/locker/items/:index',
  to: '/locker',
  countOf: ({ file }) => file.locker?.length ?? 0,
  page: itemPage,
  save: withItem,
  remove: withoutItem,
};

const PIECES: EntryList = {
  path: '/locker/pieces/:index',
  to: '/locker#cutting',
  countOf: ({ file }) => file.cutting?.pieces.length ?? 0,
  page: piecePage,
  save: withPiece,
  remove: withoutPiece,
};

/** Forms of the lines of the locker and of the pieces to cut; `?item=&unit=&kind=` fills in a new line. */
export const lockerEntryRoutes = (deps: Deps): Router => Router().use(routesOf(deps, LINES), routesOf(deps, PIECES));

function routesOf(deps: Deps, list: EntryList): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get(list.path, async (request, response) => {
      const document = await shownDocument(deps);
      const asked = { ...askedIn(request, list.countOf(document)), prefilled: prefilledBy(request) };
      const page = list.page(asked, { document, nowEpochMs: deps.nowEpochMs(), refused: null });
      sendHtml(response, renderLocker(page, await shownFor(deps, request)));
    })
    .post(list.path, formBody, async (request: Request, response: Response) => {
      const asked = sentTo(request, list.countOf(await shownDocument(deps)));
      await savingEntry(
        deps,
        { request, response },
        {
          to: list.to,
          save: (file, texts) => list.save(file, asked.index, texts),
          remove: (file) => list.remove(file, asked.index),
          page: (refused, document, shown) =>
            renderLocker(list.page(asked, { document, nowEpochMs: deps.nowEpochMs(), refused }), shown),
        },
      );
    });
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

const askedIn = (request: Request, count: number): AskedEntry => ({
  index: indexOf(request, 'index', count),
  isNew: request.params['index'] === 'new',
});

/** An entry that was there when its form was made may be gone: what was entered is offered anew then. */
function sentTo(request: Request, count: number): AskedEntry {
  const { index: text } = request.params;
  const index = typeof text === 'string' && /^\d{1,4}$/.test(text) ? Number(text) : -1;
  return index > count ? { index, isNew: false } : askedIn(request, count);
}

const prefilledBy = ({ query, params }: Request): Texts =>
  new Map(
    params['index'] === 'new'
      ? ITEM_FIELDS.flatMap(({ name }): [string, string][] => {
          const text = query[name];
          return typeof text === 'string' ? [[name, text]] : [];
        })
      : [],
  );
