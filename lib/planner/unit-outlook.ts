import { isSubset, setOfTable } from '../windows/index.ts';
import type { PlanningProblem, Unit } from './problem.ts';

/** What is still possible for a unit, on the nominal voyage: used to rank unfinished plans, never to judge a finished one. */
export interface UnitOutlook {
  /** Largest sets of scenarios some start serves, with the last slot they are offered at; latest first. */
  readonly offers: readonly { readonly mask: Uint32Array; readonly lastSlot: number }[];
  /** Slots from i on in which scenario w lets this work go on: `[w * slotCount + i]`. */
  readonly goodSlots: Int16Array;
  /** First slot after the last good one, per scenario; 0: there is none. */
  readonly goodUntil: Int32Array;
  /** Slots its work takes at best, sessions and rests included. */
  readonly neededSlots: number;
  readonly needsLight: boolean;
}

/** Only every third start is looked at, and at most so many sets are kept: a ranking need not be exact. */
const START_STRIDE = 3;
const MOST_OFFERS = 48;

export function unitOutlook(problem: PlanningProblem, unit: Unit): UnitOutlook {
  const offers: { mask: Uint32Array; lastSlot: number }[] = [];
  const scenarioCount = problem.weights.length;
  const { slotCount, slotMin } = problem.grid;
  const goodSlots = new Int16Array(scenarioCount * slotCount);
  const good = new Uint8Array(scenarioCount * slotCount);
  let leastPlannedMin = Infinity;
  for (const handling of unit.handlings) {
    for (const sailStateId of workableStates(problem, unit, handling.sailStates)) {
      const workMin = Math.min(unit.totalWorkMin, unit.block.session?.longestMin ?? Infinity);
      const table = problem.tableFor(unit, { handling, sailStateId, workMin, resumeMin: 0, tiredRatio: 1, lagNm: 0 });
      for (let i = problem.untilSlot - 1; i >= problem.fromSlot; i--) {
        const mask = setOfTable(table, i);
        if ((table.weight[i] ?? 0) > 0) leastPlannedMin = Math.min(leastPlannedMin, table.plannedMin[i] ?? Infinity);
        markGood({ mask, good, slotCount }, { fromSlot: i, slotCount: table.referenceSlots[i] ?? 0 });
        if ((problem.untilSlot - 1 - i) % START_STRIDE === 0) keepOffer(offers, { mask, lastSlot: i });
      }
    }
  }
  for (let w = 0; w < scenarioCount; w++) sumFromEnd(good, goodSlots, { firstIndex: w * slotCount, slotCount });
  const goodUntil = Int32Array.from(
    { length: scenarioCount },
    (_, w) => good.subarray(w * slotCount, (w + 1) * slotCount).lastIndexOf(1) + 1,
  );
  const needsLight = unit.block.steps.some((step) => step.limits.daylight === 'required');
  return { offers, goodSlots, goodUntil, needsLight, neededSlots: neededSlots(unit, leastPlannedMin, slotMin) };
}

/** Slots for all the work of a unit when each go takes so many minutes at best. */
function neededSlots(unit: Unit, plannedMin: number, slotMin: number): number {
  const { session } = unit.block;
  if (session === null) return Math.ceil(plannedMin / slotMin - 1e-6);
  const goMin = Math.min(unit.totalWorkMin, session.longestMin);
  const goes = Math.ceil(unit.totalWorkMin / goMin);
  const workMin = (unit.totalWorkMin / goMin) * plannedMin + (goes - 1) * (session.resumeMin + session.restMin);
  return Math.ceil(workMin / slotMin - 1e-6);
}

function workableStates(problem: PlanningProblem, unit: Unit, handlingStates: readonly string[]): readonly string[] {
  const states = unit.sailStates.length === 0 ? [problem.startSailStateId] : unit.sailStates;
  return states.filter((state) => handlingStates.includes(state));
}

function markGood(
  into: { mask: Uint32Array; good: Uint8Array; slotCount: number },
  span: { fromSlot: number; slotCount: number },
): void {
  for (let k = 0; k < into.mask.length; k++) {
    let word = into.mask[k] ?? 0;
    while (word !== 0) {
      const bit = 31 - Math.clz32(word);
      const start = (k * 32 + bit) * into.slotCount + span.fromSlot;
      into.good.fill(1, start, start + span.slotCount);
      word = (word & ~(1 << bit)) >>> 0;
    }
  }
}

function sumFromEnd(good: Uint8Array, sums: Int16Array, row: { firstIndex: number; slotCount: number }): void {
  let sum = 0;
  for (let i = row.slotCount - 1; i >= 0; i--) {
    sum += good[row.firstIndex + i] ?? 0;
    sums[row.firstIndex + i] = sum;
  }
}

/** Keeps the set unless one offered later holds it already. Called from the last slot backwards. */
function keepOffer(
  offers: { mask: Uint32Array; lastSlot: number }[],
  offer: { mask: Uint32Array; lastSlot: number },
): void {
  if (offers.length >= MOST_OFFERS || offer.mask.every((word) => word === 0)) return;
  if (!offers.some((later) => isSubset(offer.mask, later.mask))) offers.push(offer);
}
