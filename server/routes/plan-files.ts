import { type Response, Router } from 'express';
import { exportNames, planCalendar, planCsv, planGpx, watchBillText } from '../../lib/brief/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import type { Deps, PassageView } from '../deps.ts';
import { shownDocument } from './entry.ts';
import { PageError } from './page-error.ts';

/** The plan that is shown as files: calendar (RFC 5545), GPX 1.1, CSV, the watch bill as text. */
export function planFileRoutes(deps: Deps): Router {
  const file =
    (ending: string, type: string, write: (view: PassageView, passage: Passage) => string) =>
    async (_: unknown, response: Response): Promise<void> => {
      const view = shownPlan(deps);
      const { passage } = await shownDocument(deps);
      const { planNumber } = view.plan;
      const name = `plan${planNumber === null ? '' : `-${planNumber}`}.${ending}`;
      response.set('Cache-Control', 'no-store').attachment(name).type(type).send(write(view, passage));
    };
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get(
      '/plan.ics',
      file('ics', 'text/calendar; charset=utf-8', ({ plan, before }, passage) =>
        planCalendar(plan, {
          nowEpochMs: deps.nowEpochMs(),
          names: exportNames(passage),
          ...(before === null ? {} : { before }),
        }),
      ),
    )
    .get(
      '/plan.gpx',
      file('gpx', 'application/gpx+xml; charset=utf-8', ({ plan }, passage) =>
        planGpx(plan, { names: exportNames(passage), track: passage.track }),
      ),
    )
    .get(
      '/plan.csv',
      file('csv', 'text/csv; charset=utf-8', ({ plan }, passage) => planCsv(plan, exportNames(passage))),
    )
    .get(
      '/plan.txt',
      file('txt', 'text/plain; charset=utf-8', ({ plan }, passage) => watchBillText(plan, exportNames(passage))),
    );
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

function shownPlan(deps: Deps): PassageView {
  const standing = deps.planStanding();
  if (standing.kind === 'ready') return standing.view;
  throw new PageError(404, 'No plan yet', 'There is no plan to take along. Wait until it is made, or make it.');
}
