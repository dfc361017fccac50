/** Small problems as the search sees them. */
import type { Job } from '../../../lib/jobs/index.ts';
import type { Passage } from '../../../lib/passage/index.ts';
import { scheduleProblem } from '../../../lib/planner/model/schedule-problem.ts';
import type { Model } from '../../../lib/planner/model/schedule-problem.ts';
import { prepare, problemOf } from '../../../lib/planner/prepare.ts';
import type { PlanningProblem } from '../../../lib/planner/problem.ts';
import type { LittleWeather } from '../little-world.ts';
import { littlePassage, littleWeather } from '../little-world.ts';
import { atHour } from '../orders.ts';

const calm: LittleWeather = { windKn: () => 8, windFromDegTrue: () => 180, seaHeightM: () => 0.5 };

/** A plan from hour 12 to the horizon. */
export function problemFor(
  jobs: readonly Job[],
  rest: { scenarios?: readonly LittleWeather[]; horizonH?: number; change?: (passage: Passage) => Passage } = {},
): PlanningProblem {
  const passage = littlePassage(jobs);
  const weather = littleWeather(rest.scenarios ?? [calm], rest.horizonH ?? 36);
  return problemOf(prepare(rest.change?.(passage) ?? passage, weather, atHour(12)), 1);
}

export const modelOf = (problem: PlanningProblem): Model =>
  scheduleProblem(problem, { conditionalIds: new Set(), mostLagCount: 13 });
