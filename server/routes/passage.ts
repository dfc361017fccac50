import { Router } from 'express';
import { renderPassage } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { passagePage } from '../presenters/passage-page.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The passage page; `?job=ID` chooses a job. */
export function passageRoutes(deps: Deps): Router {
  return Router().get('/', (request, response) => {
    const { job } = request.query;
    const page = passagePage(deps.planStanding(), {
      jobId: typeof job === 'string' ? job : null,
      nowEpochMs: deps.nowEpochMs(),
    });
    sendHtml(response, renderPassage(page, shownFor(request)));
  });
}
