import { type Request, type Response, Router } from 'express';
import type { PassageFile } from '../../lib/passage/index.ts';
import { ok, type Result } from '../../lib/result/index.ts';
import { renderPassageEdit } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { type Texts, withSettings, withStart, withWatchkeeper } from '../passage-forms/index.ts';
import type { Entered, EntryPage } from '../presenters/entry-page.ts';
import { settingsPage, startPage, watchkeeperPage } from '../presenters/passage-entry-pages.ts';
import { savingEntry, shownDocument } from './entry.ts';
import { formBody } from './form.ts';
import { passageBoatRoutes } from './passage-boat.ts';
import { passageTrackRoutes } from './passage-track.ts';
import { sendHtml, shownFor } from './shown.ts';

/** A part of the passage that is one form. */
interface PartForm {
  readonly path: string;
  readonly page: (entered: Entered) => EntryPage;
  readonly save: (file: PassageFile, texts: Texts) => Result<PassageFile>;
}

const PARTS: readonly PartForm[] = [
  { path: '/passage/start', page: startPage, save: withStart },
  { path: '/passage/watchkeeper', page: watchkeeperPage, save: withWatchkeeper },
  { path: '/passage/settings', page: settingsPage, save: withSettings },
];

/** Forms of what a passage is besides jobs, locker, sails and forecasts: start, track, boat, watchkeeper, settings. */
export const passageEditRoutes = (deps: Deps): Router =>
  Router().use(...PARTS.map((part) => partRoutes(deps, part)), passageTrackRoutes(deps), passageBoatRoutes(deps));

function partRoutes(deps: Deps, { path, page, save }: PartForm): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get(path, async (request, response) => {
      const document = await shownDocument(deps);
      const form = page({ document, nowEpochMs: deps.nowEpochMs(), refused: null });
      sendHtml(response, renderPassageEdit(form, await shownFor(deps, request)));
    })
    .post(path, formBody, (request: Request, response: Response) =>
      savingEntry(
        deps,
        { request, response },
        {
          to: '/',
          save,
          remove: (file) => ok(file),
          page: (refused, document, shown) =>
            renderPassageEdit(page({ document, nowEpochMs: deps.nowEpochMs(), refused }), shown),
        },
      ),
    );
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}
