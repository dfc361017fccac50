import { type Request, type Response, Router } from 'express';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { formatUtc, parseUtc } from '../../lib/time/index.ts';
import { renderTrial } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { AskedTrial } from '../keep-trial.ts';
import { lockTexts, withOrders } from '../order-forms/index.ts';
import { startLock } from '../presenters/job-orders.ts';
import { lookOf, type NoTrialPage, trialPage } from '../presenters/trial-page.ts';
import { noPlanToTryIn, noSuchStart } from '../trial-problems.ts';
import { hourAsked } from './asked-hour.ts';
import { type Form, formBody, formOf } from './form.ts';
import { unitsOf } from './reader-units.ts';
import { expectedVersion, isConflictAmong, savedPath } from './saving.ts';
import { sendHtml, shownFor } from './shown.ts';

/**
 * A start tried in the plan: `POST /trial` begins it, `/trial` shows it, and its buttons stop, take and leave it. Only
 * what is taken is saved.
 */
export function trialRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/trial', async (request, response) => {
      sendHtml(response, await pageOf(deps, request, null));
    })
    .post('/trial', formBody, async (request, response) => {
      const asked = await askedIn(deps, formOf(request));
      const begun = asked.ok ? await deps.beginTrial(asked.value) : asked;
      if (begun.ok) response.redirect(303, '/trial');
      else await refuse(deps, { request, response }, { title: 'This start was not tried', problems: begun.problems });
    })
    .post('/trial/stop', formBody, (request, response) => {
      deps.stopTrial(numberIn(formOf(request)));
      response.redirect(303, '/trial');
    })
    .post('/trial/leave', formBody, (request, response) => {
      const trial = deps.trial();
      deps.leaveTrial(numberIn(formOf(request)));
      response.redirect(303, trial !== null && deps.trial() === null ? lookOf(trial) : '/trial');
    })
    .post('/trial/take', formBody, async (request, response) => {
      const trial = deps.trial();
      const taken = await deps.takeTrial(numberIn(formOf(request)));
      const place = `/plan#job-${trial?.tried.jobId ?? ''}`;
      if (taken.ok) response.redirect(303, savedPath(place, taken.value));
      else await refuse(deps, { request, response }, { title: 'The trial was not taken', problems: taken.problems });
    });
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

/** The number of the trial a form was made for; 0, which none has, where it holds none. */
function numberIn(form: Form): number {
  const text = form.text('trial');
  return /^\d{1,9}$/.test(text) ? Number(text) : 0;
}

/** The start a form asks for, where it is one that can be fixed. */
async function askedIn(deps: Deps, form: Form): Promise<Result<AskedTrial>> {
  const expected = expectedVersion(form);
  const standing = deps.planStanding();
  if (standing.kind !== 'ready') return failed(noPlanToTryIn);
  const document = await deps.passageDocument();
  if (!document.ok) return document;
  const start = parseUtc(form.text('startUtc'), 'startUtc');
  if (!start.ok) return start;
  const [jobId, handlingId] = [form.text('job'), form.text('handling')];
  const [partIndex, startUtc] = [Number(form.text('part')) - 1, formatUtc(start.value)];
  const lock = startLock({ document: document.value, view: standing.view, jobId, partIndex, handlingId, startUtc });
  if (lock === null) return failed(noSuchStart);
  const { button } = lock;
  return ok({
    expected,
    tried: { jobId, partIndex, shownHandlingId: handlingId, startUtc },
    change: (file) => withOrders(file, jobId, lockTexts(button, file.settings?.shipTimeOffsetMin ?? 0)),
  });
}

async function refuse(
  deps: Deps,
  { request, response }: { readonly request: Request; readonly response: Response },
  refused: { readonly title: string; readonly problems: readonly Problem[] },
): Promise<void> {
  const html = await pageOf(deps, request, refused);
  response.status(isConflict(refused.problems) ? 409 : 422);
  sendHtml(response, html);
}

/** Something has changed since the page was made. */
const isConflict = (problems: readonly Problem[]): boolean =>
  isConflictAmong(problems) || problems.some(({ code }) => CHANGED_SINCE.includes(code));

const CHANGED_SINCE = ['trial.gone', 'trial.outdated', 'trial.plan-outdated', 'trial.plan-in-the-making'];

async function pageOf(deps: Deps, request: Request, refused: NoTrialPage['refused']): Promise<string> {
  const document = await deps.passageDocument();
  const page = trialPage(
    {
      trial: deps.trial(),
      standing: deps.planStanding(),
      nowEpochMs: deps.nowEpochMs(),
      document: document.ok ? document.value : null,
      units: unitsOf(request),
      hourEpochMs: hourAsked(request),
    },
    refused,
  );
  return renderTrial(page, await shownFor(deps, request));
}
