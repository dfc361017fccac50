import { Router, type Request } from 'express';
import type { Result } from '../../lib/result/index.ts';
import { renderWindows } from '../../views/render.tsx';
import type { Deps, PassageView } from '../deps.ts';
import { statePage } from '../presenters/state-page.ts';
import { trialNotices } from '../presenters/trial-notice.ts';
import { chosenWindows, chosenStart } from '../presenters/windows-choice.ts';
import { windowsPage, type WindowsPage } from '../presenters/windows-page.ts';
import { PageError } from './page-error.ts';
import { unitsOf } from './reader-units.ts';
import { sendHtml, shownFor } from './shown.ts';

/**
 * The windows of a job: `?job=ID&part=N&handling=ID`, and with `&start=UTC` (or `&ship=` ship's time without an offset)
 * a look at one start. What is left out is chosen from the plan; what does not exist is refused with what does.
 */
export function windowsRoutes(deps: Deps): Router {
  // oxlint-disable-next-line oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page
  return Router().get('/windows', async (request, response) => {
    const page = await pageOf(deps, request);
    sendHtml(response, renderWindows(page, await shownFor(deps, request, trialNotices(deps.trial()))));
  });
}

async function pageOf(deps: Deps, request: Request): Promise<WindowsPage> {
  const standing = deps.planStanding();
  const state = { href: request.originalUrl, nowEpochMs: deps.nowEpochMs() };
  if (standing.kind !== 'ready') return statePage(standing, state);
  // A plan from before this start can be shown, but its windows are with the thread that makes the next one.
  if (standing.unasked !== undefined) return statePage(standing.unasked, state);
  return windowsOf(deps, standing.view, request);
}

async function windowsOf(deps: Deps, view: PassageView, request: Request): Promise<WindowsPage> {
  const asked = { job: textOf(request, 'job'), part: textOf(request, 'part'), handling: textOf(request, 'handling') };
  const chosen = view.names.jobs.length === 0 ? null : wanted(chosenWindows(view, asked), 404, 'No such windows');
  const shown = { view, nowEpochMs: deps.nowEpochMs(), units: unitsOf(request) };
  if (chosen === null) return windowsPage({ ...shown, chosen: null, answer: null, look: null });
  if (chosen.handlingId === null) return windowsPage({ ...shown, chosen, answer: null, look: null });
  const block = { jobId: chosen.jobId, blockIndex: chosen.partIndex, handlingId: chosen.handlingId };
  const answer = wanted(await deps.askWindows(block), 404, 'No such windows');
  const start = { utc: textOf(request, 'start'), ship: textOf(request, 'ship') };
  const startEpochMs = wanted(chosenStart(view, start), 400, 'No such start');
  const look =
    startEpochMs === null ? null : wanted(await deps.askLook({ ...block, startEpochMs }), 400, 'No such start').look;
  const document = look === null ? null : await deps.passageDocument();
  return windowsPage({ ...shown, chosen, answer, look, document: document?.ok === true ? document.value : null });
}

/** A text of the query; empty, absent or given twice: null. */
function textOf({ query }: Request, name: string): string | null {
  const value = query[name];
  return typeof value === 'string' && value !== '' ? value : null;
}

/** The value, or the page that says what was expected. */
function wanted<T>(result: Result<T>, status: number, title: string): T {
  if (result.ok) return result.value;
  const sentences = result.problems.map(({ what, expected, remedy }) => `${what} Expected: ${expected}. ${remedy}`);
  throw new PageError(status, title, sentences.join(' '));
}
