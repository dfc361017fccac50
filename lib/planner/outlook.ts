import { intersect, weightOf } from '../windows/index.ts';
import type { PlanningProblem, Unit } from './problem.ts';
import { scenariosWithRoom } from './room.ts';
import type { UnitOutlook } from './unit-outlook.ts';
import type { PlanState } from './state.ts';

export interface Outlook {
  /** Priority weight of the jobs done and of those that can still hold with the wanted probability. */
  readonly priorityWeight: number;
  /** Least weight any of them can still keep. */
  readonly jointWeight: number;
}

/** The best that may still become of an unfinished plan, each remaining unit taken by itself. */
export function outlookOf(problem: PlanningProblem, state: PlanState, outlooks: readonly UnitOutlook[]): Outlook {
  let jointWeight = weightOf(state.mask, problem.weights);
  const lost = new Set<string>();
  for (const unit of problem.units) {
    if ((state.finishedSlot[unit.index] ?? -1) >= 0) continue;
    const outlook = outlooks[unit.index];
    const weight = outlook === undefined ? 0 : bestWeight(problem, state, { unit, outlook });
    if (weight < problem.neededWeight - 1e-6) lost.add(unit.job.id);
    else jointWeight = Math.min(jointWeight, weight);
  }
  loseFollowers(problem, lost);
  const roomWeight = loseWithoutRoom(problem, state, { outlooks, lost });
  return { priorityWeight: priorityBut(problem, lost), jointWeight: Math.min(jointWeight, roomWeight) };
}

/**
 * Gives up the jobs of least priority until what is left has room enough in enough scenarios.
 *
 * @returns weight of the scenarios with room for all that is left
 */
function loseWithoutRoom(
  problem: PlanningProblem,
  state: PlanState,
  of: { outlooks: readonly UnitOutlook[]; lost: Set<string> },
): number {
  for (;;) {
    const weight = weightOf(scenariosWithRoom(problem, state, of), problem.weights);
    if (weight >= problem.neededWeight - 1e-6) return weight;
    const next = problem.jobs
      .filter((job) => !of.lost.has(job.id) && isOpenInLight(problem, state, { jobId: job.id, outlooks: of.outlooks }))
      .toSorted((a, b) => a.priorityWeight - b.priorityWeight)[0];
    if (next === undefined) return weight;
    of.lost.add(next.id);
    loseFollowers(problem, of.lost);
  }
}

function isOpenInLight(
  problem: PlanningProblem,
  state: PlanState,
  of: { jobId: string; outlooks: readonly UnitOutlook[] },
): boolean {
  return problem.units.some(
    (unit) =>
      unit.job.id === of.jobId &&
      (state.finishedSlot[unit.index] ?? -1) < 0 &&
      of.outlooks[unit.index]?.needsLight === true,
  );
}

function bestWeight(problem: PlanningProblem, state: PlanState, of: { unit: Unit; outlook: UnitOutlook }): number {
  const { offers, goodSlots, neededSlots } = of.outlook;
  let roomMask = state.mask;
  const share = (state.leftMin[of.unit.index] ?? 0) / of.unit.totalWorkMin;
  roomMask = withRoom(problem, state, { goodSlots, neededSlots: Math.floor(neededSlots * share) });
  let best = 0;
  for (const offer of offers) {
    if (offer.lastSlot < state.slot) break;
    best = Math.max(best, weightOf(intersect(roomMask, offer.mask), problem.weights));
  }
  return best;
}

/** Scenarios of the plan in which enough good slots are left. */
function withRoom(
  problem: PlanningProblem,
  state: PlanState,
  of: { goodSlots: Int16Array; neededSlots: number },
): Uint32Array {
  const mask = state.mask.slice();
  for (let w = 0; w < problem.weights.length; w++) {
    const left = of.goodSlots[w * problem.grid.slotCount + state.slot] ?? 0;
    if (left < of.neededSlots) mask[w >>> 5] = ((mask[w >>> 5] ?? 0) & ~(1 << (w & 31))) >>> 0;
  }
  return mask;
}

function loseFollowers(problem: PlanningProblem, lost: Set<string>): void {
  for (let before = -1; before !== lost.size;) {
    before = lost.size;
    for (const { job } of problem.units) if (job.after.some((id) => lost.has(id))) lost.add(job.id);
  }
}

function priorityBut(problem: PlanningProblem, lost: ReadonlySet<string>): number {
  let sum = 0;
  for (const job of problem.jobs) if (!lost.has(job.id)) sum += job.priorityWeight;
  return sum;
}
