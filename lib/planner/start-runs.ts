import type { PlanningProblem, Unit } from './problem.ts';
import type { Placed } from './state.ts';

/** Consecutive start slots, both ends included, that are fair for an entry as it is planned. */
export interface StartRun {
  readonly firstSlot: number;
  readonly lastSlot: number;
  readonly bestSlot: number;
  readonly bestWeight: number;
}

/**
 * All runs of fair starts of an entry at the lag, tiredness and handling it is planned with, in order of time.
 *
 * A start whose unknown limits differ from the planned one's is not fair in the same sense and belongs to no run.
 */
export function startRuns(problem: PlanningProblem, unit: Unit, placed: Placed): StartRun[] {
  const handling = unit.handlings[placed.handling];
  if (handling === undefined) return [];
  const late = problem.tableFor(unit, { ...placed, handling });
  // A boat that is late is reckoned only a day beyond the plan; farther ahead the nominal voyage stands in for it.
  const nominal = problem.tableFor(unit, { ...placed, handling, lagNm: 0 });
  const runs: StartRun[] = [];
  for (let i = problem.fromSlot; i < problem.grid.slotCount; i++) {
    const table = i < late.weight.length ? late : nominal;
    const weight = table.weight[i] ?? 0;
    const isKnown = (table.unknownBits[i] ?? 0) === placed.unknownBits;
    if (!isKnown || (table.referenceSlots[i] ?? 0) === 0 || weight < problem.neededWeight - 1e-6) continue;
    const last = runs.at(-1);
    if (last !== undefined && last.lastSlot === i - 1) {
      const best = weight > last.bestWeight ? { bestSlot: i, bestWeight: weight } : {};
      runs[runs.length - 1] = { ...last, lastSlot: i, ...best };
    } else runs.push({ firstSlot: i, lastSlot: i, bestSlot: i, bestWeight: weight });
  }
  return runs;
}
