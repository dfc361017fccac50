import { hasBit } from '../windows/index.ts';
import type { UnitOutlook } from './unit-outlook.ts';
import type { PlanningProblem } from './problem.ts';
import type { PlanState } from './state.ts';

/** One unit still to be done in daylight, in one scenario. */
interface Due {
  readonly neededSlots: number;
  /** Latest slot it can be finished by. */
  readonly bySlot: number;
}

/**
 * Scenarios of an unfinished plan in which the daylight left is enough for everything that needs it.
 *
 * One person does one thing at a time: whatever must be finished by a slot must fit, all together, into the daylight
 * before it. Latest finishes follow from the last fair hour of each unit and of all that comes after it.
 */
export function scenariosWithRoom(
  problem: PlanningProblem,
  state: PlanState,
  of: { outlooks: readonly UnitOutlook[]; lost: ReadonlySet<string> },
): Uint32Array {
  const open = problem.units.filter((unit) => !of.lost.has(unit.job.id) && (state.finishedSlot[unit.index] ?? -1) < 0);
  const mask = state.mask.slice();
  for (let w = 0; w < problem.weights.length; w++) {
    if (!hasBit(mask, w)) continue;
    const latest = latestFinishes(problem, open, { outlooks: of.outlooks, w });
    const due: Due[] = open.flatMap((unit) => {
      const outlook = of.outlooks[unit.index];
      if (outlook === undefined || !outlook.needsLight) return [];
      const share = (state.leftMin[unit.index] ?? 0) / unit.totalWorkMin;
      return [{ neededSlots: Math.floor(outlook.neededSlots * share), bySlot: latest.get(unit.index) ?? 0 }];
    });
    if (!fits(problem, due, state.slot)) mask[w >>> 5] = ((mask[w >>> 5] ?? 0) & ~(1 << (w & 31))) >>> 0;
  }
  return mask;
}

function latestFinishes(
  problem: PlanningProblem,
  open: readonly PlanningProblem['units'][number][],
  of: { outlooks: readonly UnitOutlook[]; w: number },
): Map<number, number> {
  const latest = new Map<number, number>();
  for (const unit of open.toReversed()) {
    const own = Math.min(latest.get(unit.index) ?? problem.untilSlot, of.outlooks[unit.index]?.goodUntil[of.w] ?? 0);
    latest.set(unit.index, own);
    for (const { unit: before, waitSlots } of unit.predecessors) {
      const mustEnd = own - (of.outlooks[unit.index]?.neededSlots ?? 0) - waitSlots;
      latest.set(before, Math.min(latest.get(before) ?? problem.untilSlot, mustEnd));
    }
  }
  return latest;
}

function fits(problem: PlanningProblem, due: readonly Due[], fromSlot: number): boolean {
  let sumSlots = 0;
  for (const { neededSlots, bySlot } of due.toSorted((a, b) => a.bySlot - b.bySlot)) {
    sumSlots += neededSlots;
    if (sumSlots > lightSlots(problem, fromSlot, bySlot)) return false;
  }
  return true;
}

/** Slots of day or civil twilight between two slots. */
function lightSlots(problem: PlanningProblem, fromSlot: number, toSlot: number): number {
  return toSlot <= fromSlot ? 0 : (problem.lightBefore[toSlot] ?? 0) - (problem.lightBefore[fromSlot] ?? 0);
}
