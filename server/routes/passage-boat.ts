import { type Request, type Response, Router } from 'express';
import { parseSpeedTableCsv, type SpeedRow } from '../../lib/boat/index.ts';
import type { PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { renderPassageEdit } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import {
  type Texts,
  withBoatFigures,
  withHandling,
  withNewHandling,
  withoutHandling,
  withSpeedTable,
} from '../passage-forms/index.ts';
import { boatFiguresPage, handlingPage, newHandlingPage } from '../presenters/boat-entry-pages.ts';
import { boatPage, speedsPage } from '../presenters/boat-page.ts';
import type { Entered, EntryPage } from '../presenters/entry-page.ts';
import { savingEntry, shownDocument } from './entry.ts';
import { type Form, formBody, formOf } from './form.ts';
import { PageError } from './page-error.ts';
import { saving } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

const BOAT = '/passage/boat';

interface Asked {
  readonly request: Request;
  readonly response: Response;
}

/** The boat: figures, speed tables, handlings. */
export function passageBoatRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get(BOAT, async (request, response) => {
      const page = boatPage(await shownDocument(deps), deps.nowEpochMs());
      sendHtml(response, renderPassageEdit(page, await shownFor(deps, request)));
    })
    .get(`${BOAT}/speeds/:state`, async (request, response) => {
      const stateId = await stateAsked(deps, request);
      const page = speedsPage(await shownDocument(deps), deps.nowEpochMs(), { stateId });
      sendHtml(response, renderPassageEdit(page, await shownFor(deps, request)));
    })
    .post(`${BOAT}/speeds/:state`, formBody, (request, response) => postSpeeds(deps, { request, response }))
    .use(
      entryRoutes(deps, `${BOAT}/figures`, () => ({ page: boatFiguresPage, save: withBoatFigures, remove: ok })),
      entryRoutes(deps, `${BOAT}/handlings/:id`, (id) => (id === 'new' ? NEW_HANDLING : handlingForm(id))),
    );
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

/** One form, and what it changes. */
interface EntryRoute {
  readonly page: (entered: Entered) => EntryPage;
  readonly save: (file: PassageFile, texts: Texts) => Result<PassageFile>;
  readonly remove: (file: PassageFile) => Result<PassageFile>;
}

const NEW_HANDLING: EntryRoute = { page: newHandlingPage, save: withNewHandling, remove: ok };

const handlingForm = (id: string): EntryRoute => ({
  page: (entered) => handlingPage(id, entered),
  save: (file, texts) => withHandling(file, id, texts),
  remove: (file) => withoutHandling(file, id),
});

function entryRoutes(deps: Deps, path: string, formOfId: (id: string) => EntryRoute): Router {
  const idOf = ({ params }: Request): string => (typeof params['id'] === 'string' ? params['id'] : '');
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get(path, async (request: Request, response: Response) => {
      const document = await shownDocument(deps);
      const id = idOf(request);
      const { handlings } = document.passage.boat;
      if (id !== '' && id !== 'new' && !handlings.some((handling) => handling.id === id)) throw noSuch();
      const page = formOfId(id).page({ document, nowEpochMs: deps.nowEpochMs(), refused: null });
      sendHtml(response, renderPassageEdit(page, await shownFor(deps, request)));
    })
    .post(path, formBody, (request: Request, response: Response) => {
      const { page, save, remove } = formOfId(idOf(request));
      return savingEntry(
        deps,
        { request, response },
        {
          to: idOf(request) === '' ? BOAT : `${BOAT}#handlings`,
          save,
          remove,
          page: (refused, document, shown) =>
            renderPassageEdit(page({ document, nowEpochMs: deps.nowEpochMs(), refused }), shown),
        },
      );
    });
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

const noSuch = (): PageError =>
  new PageError(404, 'Not there', 'This is not in the passage. Look at the page of the boat.');

async function stateAsked(deps: Deps, { params }: Request): Promise<string> {
  const { passage } = await shownDocument(deps);
  const state = passage.boat.sailStates.find(({ id }) => id === params['state']);
  if (state === undefined) throw noSuch();
  return state.id;
}

/** The table of the text; commas or semicolons or tabs between, as a spreadsheet writes or copies it. */
function rowsIn(form: Form): Result<readonly SpeedRow[]> {
  return parseSpeedTableCsv(form.text('table').trim().replaceAll(/[;\t]/g, ','), 'the table');
}

/** A table typed or pasted: shown with what it would change, and saved with the second button. */
async function postSpeeds(deps: Deps, asked: Asked): Promise<void> {
  const { request, response } = asked;
  const form = formOf(request);
  const stateId = await stateAsked(deps, request);
  const text = form.text('table');
  const button = form.text('do');
  const read = rowsIn(form);
  const html = async (shown: Awaited<ReturnType<typeof shownFor>>): Promise<string> => {
    const entered = read.ok ? { text, rows: read.value } : { text, problems: read.problems };
    const page = speedsPage(await shownDocument(deps), deps.nowEpochMs(), { stateId, entered });
    return renderPassageEdit(page, shown);
  };
  if (button === 'look') {
    response.status(read.ok ? 200 : 422);
    return sendHtml(response, await html(await shownFor(deps, request)));
  }
  return saving(deps, asked, {
    to: BOAT,
    change: (file) => {
      if (button === 'remove') return withSpeedTable(file, stateId, []);
      return read.ok ? withSpeedTable(file, stateId, read.value) : failed(...read.problems);
    },
    page: (_, shown) => html(shown),
  });
}
