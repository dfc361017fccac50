import { Router } from 'express';
import { renderMaking, renderPlan } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { makingState } from '../presenters/notices.ts';
import { planPage } from '../presenters/plan-page.ts';
import { pageBefore } from './page-before.ts';
import { planFileRoutes } from './plan-files.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The plan page, the plan as files, and the two buttons that stop the making of a plan and make it again. */
export function planRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/plan', async (request, response) => {
      const shown = await shownFor(deps, request);
      const document = await deps.passageDocument();
      const page = planPage(deps.planStanding(), deps.nowEpochMs(), document.ok ? document.value : null);
      sendHtml(response, renderPlan(page, shown));
    })
    .use(planFileRoutes(deps))
    .get('/plan/making', (_request, response) => {
      sendHtml(response, renderMaking(makingState(deps.planStanding(), deps.nowEpochMs())));
    })
    .post('/plan/stop', (request, response) => {
      deps.stopPlan();
      response.redirect(303, pageBefore(request));
    })
    .post('/plan/again', async (request, response) => {
      await deps.makePlan();
      response.redirect(303, pageBefore(request));
    });
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}
