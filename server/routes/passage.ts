import { Router } from 'express';
import { renderPassage } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { passagePage } from '../presenters/passage-page.ts';
import { hourAsked } from './asked-hour.ts';
import { unitsOf } from './reader-units.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The passage page; `?job=ID` chooses a job, `?hour=UTC` an hour of its strip to read. */
export function passageRoutes(deps: Deps): Router {
  // oxlint-disable-next-line oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page
  return Router().get('/', async (request, response) => {
    const { job } = request.query;
    const page = passagePage(deps.planStanding(), {
      jobId: typeof job === 'string' ? job : null,
      nowEpochMs: deps.nowEpochMs(),
      units: unitsOf(request),
      hourEpochMs: hourAsked(request),
    });
    sendHtml(response, renderPassage(page, await shownFor(deps, request)));
  });
}
