/** Plans a little world from end to end, as the published plan comes about from a forecast. */
import type { Passage } from '../../lib/passage/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import type { PlanningWeather, Preparation } from '../../lib/planner/prepare.ts';
import { prepare, tableSettings } from '../../lib/planner/prepare.ts';
import { publish } from '../../lib/planner/publish.ts';
import type { Solution, SolveSettings } from '../../lib/planner/solve.ts';
import { solve } from '../../lib/planner/solve.ts';
import { findWindows } from '../../lib/windows/index.ts';

/** Little worlds need little searching. */
export const LITTLE_SOLVE: SolveSettings = {
  search: { beamWidths: [40, 300, Infinity], extensionBudget: 60_000 },
};

/** For one or two jobs over days: a plan at once, whatever its cost. */
export const QUICK: SolveSettings = { search: { beamWidths: [40], extensionBudget: 6_000 } };

export interface LittlePlan {
  readonly plan: Plan;
  readonly solution: Solution;
  readonly preparation: Preparation;
}

/**
 * `reporting`: other draws of the same weather to judge on; the planning ones where left out. `standing`: the plan that
 * stands.
 */
export function planLittle(
  passage: Passage,
  weather: PlanningWeather,
  rest: { reporting?: PlanningWeather; solve?: SolveSettings; standing?: Plan } = {},
): LittlePlan {
  const nowEpochMs = passage.fixedNowEpochMs ?? passage.start.epochMs;
  const preparation = prepare(passage, weather, nowEpochMs);
  const judged = rest.reporting ?? weather;
  const reporting = { ...judged, memberIndex: Int32Array.from(judged.weights, (_, w) => w) };
  const solution = solve(preparation, reporting, rest.solve ?? LITTLE_SOLVE, rest.standing);
  const search = {
    handlings: passage.boat.handlings,
    sailStateId: passage.start.sailStateId,
    conditions: preparation.lag.conditionsAt(0),
    settings: tableSettings(passage, weather, 1),
    wantedProbability: passage.settings.wantedProbability,
    fromSlot: preparation.fromSlot,
  };
  const windows = new Map(passage.jobs.map((job) => [job.id, findWindows(job, search)]));
  const forecast = { memberCount: weather.weights.length, missing: [], notes: [] };
  return {
    plan: publish({ preparation, solution, windows, forecast, nowEpochMs, isHurried: false }),
    solution,
    preparation,
  };
}
