import type { PlanningProblem, Unit } from './problem.ts';
import type { Placed } from './state.ts';

/** Consecutive start slots, both ends included, that are fair for an entry as it is planned. */
export interface StartRun {
  readonly first: number;
  readonly last: number;
  readonly best: number;
  readonly bestWeight: number;
}

/** All runs of fair starts of an entry at the lag, tiredness and handling it is planned with, in order of time. */
export function startRuns(problem: PlanningProblem, unit: Unit, placed: Placed): StartRun[] {
  const handling = unit.handlings[placed.handling];
  if (handling === undefined) return [];
  const table = problem.tableFor(unit, { ...placed, handling });
  const runs: StartRun[] = [];
  for (let i = problem.fromSlot; i < problem.grid.slotCount; i++) {
    const weight = table.weight[i] ?? 0;
    if ((table.referenceSlots[i] ?? 0) === 0 || weight < problem.neededWeight - 1e-6) continue;
    const last = runs.at(-1);
    if (last !== undefined && last.last === i - 1) {
      const best = weight > last.bestWeight ? { best: i, bestWeight: weight } : {};
      runs[runs.length - 1] = { ...last, last: i, ...best };
    } else runs.push({ first: i, last: i, best: i, bestWeight: weight });
  }
  return runs;
}
