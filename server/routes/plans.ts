import { type Request, Router } from 'express';
import { failed, type Problem, type Result } from '../../lib/result/index.ts';
import { renderPlans } from '../../views/render.tsx';
import type { Deps } from '../deps.ts';
import type { NumberedPlan, PlanOfNumber } from '../keep-plans.ts';
import { editedPaths } from '../presenters/edited-paths.ts';
import { type PlansPage, plansPage } from '../presenters/plans-page.ts';
import { shownDocument } from './entry.ts';
import { PageError } from './page-error.ts';
import { unitsOf } from './reader-units.ts';
import { sendHtml, shownFor } from './shown.ts';

/** Every plan of the passage by number; `?from=2&to=3` tells what changed between two, `/plans/3.json` is one of them. */
export function plansRoutes(deps: Deps): Router {
  /* oxlint-disable oxc/no-async-endpoint-handlers -- Express 5 hands a rejection to the error page */
  return Router()
    .get('/plans', async (request, response) => {
      const page = await pageOf(deps, request);
      if (page.problems.length > 0) response.status(404);
      sendHtml(response, renderPlans(page, await shownFor(deps, request)));
    })
    .get('/plans/:file', (request, response) => {
      const [, number] = /^(\d{1,9})\.json$/.exec(request.params.file) ?? [];
      const plan = number === undefined ? null : deps.planOfNumber(Number(number));
      if (plan === null || !plan.ok)
        throw new PageError(
          404,
          'No such plan',
          plan?.ok === false
            ? `${plan.problems[0].what} ${plan.problems[0].remedy}`
            : 'There is no plan under this name. Choose one from the list of plans.',
        );
      const name = `plan-${plan.value.number}.json`;
      response.set('Cache-Control', 'no-store').attachment(name).type('json').send(`${plan.value.json}\n`);
    });
  /* oxlint-enable oxc/no-async-endpoint-handlers */
}

async function pageOf(deps: Deps, request: Request): Promise<PlansPage> {
  const document = await shownDocument(deps);
  const history = deps.planHistory();
  const plans = history.ok ? history.value : [];
  const standing = deps.planStanding();
  const isReady = standing.kind === 'ready';
  const asked = askedIn(request);
  const [older, newer] =
    asked === null ? [null, null] : [asked.from, asked.to].map((text) => planAsked(deps, text, plans));
  const read = [older, newer].filter((plan) => plan !== null && plan !== undefined);
  const log = deps.passageLog();
  const compared = inOrder(read);
  return plansPage({
    document,
    nowEpochMs: deps.nowEpochMs(),
    units: unitsOf(request),
    plans,
    shownNumber: isReady ? standing.view.plan.planNumber : null,
    handlingNames: Object.fromEntries(document.passage.boat.handlings.map(({ id, name }) => [id, name])),
    asked,
    ...compared,
    log: log.ok ? log.value.entries : [],
    editedPaths: editedBetween(deps, document.number, compared),
    problems: [history, ...read].flatMap((one): readonly Problem[] => (one.ok ? [] : one.problems)),
  });
}

/** The older plan first, whichever was asked for first. */
function inOrder(read: readonly Result<PlanOfNumber>[]): {
  readonly older: PlanOfNumber | null;
  readonly newer: PlanOfNumber | null;
} {
  const [one, other] = read.flatMap((plan) => (plan.ok ? [plan.value] : []));
  if (one === undefined || other === undefined) return { older: null, newer: null };
  return one.number <= other.number ? { older: one, newer: other } : { older: other, newer: one };
}

/** Paths of the passage that differ between what two plans were made of. */
function editedBetween(deps: Deps, number: number, { older, newer }: ReturnType<typeof inOrder>): readonly string[] {
  const [from, to] = [older?.madeOf?.version, newer?.madeOf?.version].map((version) =>
    version === undefined ? null : deps.documentVersionText({ number, version }),
  );
  if (from?.ok !== true || to?.ok !== true || from.value === null || to.value === null) return [];
  return editedPaths(from.value, to.value);
}

function askedIn({ query: { from, to } }: Request): { readonly from: string; readonly to: string } | null {
  return typeof from === 'string' && typeof to === 'string' ? { from, to } : null;
}

function planAsked(deps: Deps, text: string, plans: readonly NumberedPlan[]): Result<PlanOfNumber> {
  if (/^\d{1,9}$/.test(text)) return deps.planOfNumber(Number(text));
  return failed({
    code: 'plan.no-such-number',
    where: 'the plans of this passage',
    what: `"${text}" is not the number of a plan.`,
    expected: plans.length === 0 ? 'nothing: there is no plan yet' : `1 to ${plans.at(-1)?.number ?? 1}`,
    remedy: 'Choose one of the list.',
  });
}
