import { intersect, isSubset, setOfTable, weightOf } from '../windows/index.ts';
import type { PlanningProblem, Unit } from './problem.ts';
import { scenariosWithRoom } from './room.ts';
import type { PlanState } from './state.ts';

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
        markGood({ mask, good, slotCount }, { from: i, length: table.referenceSlots[i] ?? 0 });
        if ((problem.untilSlot - 1 - i) % START_STRIDE === 0) keepOffer(offers, { mask, lastSlot: i });
      }
    }
  }
  for (let w = 0; w < scenarioCount; w++) sumFromEnd(good, goodSlots, { from: w * slotCount, count: slotCount });
  const goodUntil = Int32Array.from({ length: scenarioCount }, (_, w) => good.subarray(w * slotCount, (w + 1) * slotCount).lastIndexOf(1) + 1);
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
  span: { from: number; length: number },
): void {
  for (let k = 0; k < into.mask.length; k++) {
    let word = into.mask[k] ?? 0;
    while (word !== 0) {
      const bit = 31 - Math.clz32(word);
      const start = (k * 32 + bit) * into.slotCount + span.from;
      into.good.fill(1, start, start + span.length);
      word = (word & ~(1 << bit)) >>> 0;
    }
  }
}

function sumFromEnd(good: Uint8Array, sums: Int16Array, row: { from: number; count: number }): void {
  let sum = 0;
  for (let i = row.count - 1; i >= 0; i--) {
    sum += good[row.from + i] ?? 0;
    sums[row.from + i] = sum;
  }
}

/** Keeps the set unless one offered later holds it already. Called from the last slot backwards. */
function keepOffer(offers: { mask: Uint32Array; lastSlot: number }[], offer: { mask: Uint32Array; lastSlot: number }): void {
  if (offers.length >= MOST_OFFERS || offer.mask.every((word) => word === 0)) return;
  if (!offers.some((later) => isSubset(offer.mask, later.mask))) offers.push(offer);
}

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

function isOpenInLight(problem: PlanningProblem, state: PlanState, of: { jobId: string; outlooks: readonly UnitOutlook[] }): boolean {
  return problem.units.some(
    (unit) => unit.job.id === of.jobId && (state.finishedSlot[unit.index] ?? -1) < 0 && of.outlooks[unit.index]?.needsLight === true,
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
  for (let before = -1; before !== lost.size; ) {
    before = lost.size;
    for (const { job } of problem.units) if (job.after.some((id) => lost.has(id))) lost.add(job.id);
  }
}

function priorityBut(problem: PlanningProblem, lost: ReadonlySet<string>): number {
  let sum = 0;
  for (const job of problem.jobs) if (!lost.has(job.id)) sum += job.priorityWeight;
  return sum;
}
