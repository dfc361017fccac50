import { Router } from 'express';
import { renderMaking, renderPlan, renderWatch } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import { makingState } from '../presenters/notices.ts';
import { planPage } from '../presenters/plan-page.ts';
import { WATCH_HREF, watchPage } from '../presenters/watch-page.ts';
import { trialNotices } from '../presenters/trial-notice.ts';
import { hourAsked } from './asked-hour.ts';
import { formBody } from './form.ts';
import { pageBefore } from './page-before.ts';
import { planFileRoutes } from './plan-files.ts';
import { unitsOf } from './reader-units.ts';
import { sendHtml, shownFor } from './shown.ts';

/** The plan page, its watchkeeper, the plan as files, and the two buttons that stop the making of a plan and make it again. */
export function planRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/plan', async (request, response) => {
      const shown = await shownFor(deps, request, trialNotices(deps.trial()));
      const document = await deps.passageDocument();
      const page = planPage(deps.planStanding(), deps.nowEpochMs(), document.ok ? document.value : null, {
        units: unitsOf(request),
        hourEpochMs: hourAsked(request),
      });
      sendHtml(response, renderPlan(page, shown));
    })
    .get(WATCH_HREF, async (request, response) => {
      const shown = await shownFor(deps, request);
      sendHtml(response, renderWatch(watchPage(deps.planStanding(), deps.nowEpochMs()), shown));
    })
    .use(planFileRoutes(deps))
    .get('/plan/making', (_request, response) => {
      sendHtml(response, renderMaking(makingState(deps.planStanding(), deps.nowEpochMs())));
    })
    .post('/plan/stop', formBody, (request, response) => {
      deps.stopPlan();
      response.redirect(303, pageBefore(request));
    })
    .post('/plan/again', formBody, async (request, response) => {
      await deps.makePlan();
      response.redirect(303, pageBefore(request));
    });
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}
