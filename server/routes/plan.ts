import { Router } from 'express';
import { renderPlan } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { planPage } from '../presenters/plan-page.ts';
import { pageBefore } from './page-before.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The plan page, and the two buttons that stop the making of a plan and make it again. */
export function planRoutes(deps: Deps): Router {
  return Router()
    .get('/plan', (request, response) => {
      sendHtml(response, renderPlan(planPage(deps.planStanding(), deps.nowEpochMs()), shownFor(request)));
    })
    .post('/plan/stop', (request, response) => {
      deps.stopPlan();
      response.redirect(303, pageBefore(request));
    })
    .post('/plan/again', (request, response) => {
      deps.makePlan();
      response.redirect(303, pageBefore(request));
    });
}
