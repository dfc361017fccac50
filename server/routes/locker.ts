import { type Request, type Response, Router } from 'express';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { type Locker, lockerChanges, lockerCsv, readLockerCsv } from '../../lib/stock/index.ts';
import { readLocker, toLockerFile } from '../../lib/passage/index.ts';
import { renderLocker } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { PassageDocument } from '../documents/index.ts';
import { keptCutPlan } from '../kept-cut-plan.ts';
import { withKerf, withLocker } from '../locker-forms/index.ts';
import { lockerPage, type LockerPages } from '../presenters/locker-page.ts';
import { changeViews } from '../presenters/locker-words.ts';
import { timeTexts } from '../presenters/time-texts.ts';
import { shownDocument } from './entry.ts';
import { type Form, formBody, formOf } from './form.ts';
import { lockerCutRoutes } from './locker-cut.ts';
import { lockerEntryRoutes } from './locker-entries.ts';
import { saving } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The locker: what is on board, as a page and as a table; and what is cut from its bars. */
export function lockerRoutes(deps: Deps): Router {
  const cutOf = keptCutPlan();
  const pageWith = async (entered: Parameters<typeof lockerPage>[1] = {}): Promise<LockerPages> => {
    const document = await deps.passageDocument();
    if (!document.ok) return { kind: 'failed', problems: document.problems };
    const { passage } = document.value;
    return lockerPage({ document: document.value, nowEpochMs: deps.nowEpochMs(), cut: cutOf(passage) }, entered);
  };
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/locker', async (request, response) => {
      sendHtml(response, renderLocker(await pageWith(), await shownFor(deps, request)));
    })
    .get('/locker.csv', async (_, response) => {
      const { passage } = await shownDocument(deps);
      const table = lockerCsv(passage.locker);
      response.set('Cache-Control', 'no-store').attachment('locker.csv').type('text/csv').send(table);
    })
    .post('/locker/table', formBody, (request, response) => readTable(deps, { request, response }, pageWith))
    .post('/locker/kerf', formBody, (request, response) =>
      saving(
        deps,
        { request, response },
        {
          to: '/locker#cutting',
          change: (file, form) => withKerf(file, form.text('kerf')),
          page: async ({ problems, isConflict, form }, shown) => {
            const own = isConflict ? [] : problems;
            return renderLocker(await pageWith({ kerf: { text: form.text('kerf'), problems: own } }), shown);
          },
        },
      ),
    )
    .use(lockerCutRoutes(deps, cutOf), lockerEntryRoutes(deps));
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

type PageWith = (entered: Parameters<typeof lockerPage>[1]) => Promise<LockerPages>;

/** A table pasted: shown with what it would change, and saved with the second button. */
async function readTable(
  deps: Deps,
  asked: { readonly request: Request; readonly response: Response },
  pageWith: PageWith,
): Promise<void> {
  const { request, response } = asked;
  const form = formOf(request);
  if (form.text('do') !== 'save') {
    const { table, isRead } = tableIn(form, await shownDocument(deps));
    response.status(isRead ? 200 : 422);
    return sendHtml(response, renderLocker(await pageWith({ table }), await shownFor(deps, request)));
  }
  const document = await shownDocument(deps);
  const read = lockerIn(form, document);
  return saving(deps, asked, {
    to: '/locker',
    change: (file) => (read.ok ? ok(withLocker(file, document.passage.locker, read.value)) : failed(...read.problems)),
    page: async (_, shown) => {
      const { table } = tableIn(form, await shownDocument(deps));
      return renderLocker(await pageWith({ table }), shown);
    },
  });
}

interface ReadTable {
  readonly isRead: boolean;
  readonly table: { text: string; changes: ReturnType<typeof changeViews> | null; problems: readonly Problem[] };
}

/** The table, and what it changes of the locker as it is now. */
function tableIn(form: Form, document: PassageDocument): ReadTable {
  const text = form.text('table');
  const { locker, settings } = document.passage;
  const read = lockerIn(form, document);
  if (!read.ok) return { isRead: false, table: { text, changes: null, problems: read.problems } };
  const changes = changeViews(lockerChanges(locker, read.value), timeTexts(settings.shipTimeOffsetMin));
  return { isRead: true, table: { text, changes, problems: [] } };
}

/** The locker of the table, in the units the jobs take; lines that do not change are those of the locker there is. */
function lockerIn(form: Form, { passage }: PassageDocument): Result<Locker> {
  const read = readLockerCsv(form.text('table'), 'the table');
  if (!read.ok) return read;
  const checked = readLocker(toLockerFile(read.value), 'the table', passage.jobs);
  if (!checked.ok) return checked;
  return ok({
    items: checked.value.items.map(
      (line) =>
        passage.locker.items.find((before) => lockerChanges({ items: [before] }, { items: [line] }).length === 0) ??
        line,
    ),
  });
}
