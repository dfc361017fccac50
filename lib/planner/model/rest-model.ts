import { asleepS, awakeS, inertiaGateMin, type Gate } from '../../person/index.ts';
import type { Choice, RestModel } from '../../schedule/index.ts';
import type { PlanningProblem } from '../problem.ts';
import { leastAwakeMin, LOOKOUT_MIN } from '../rest.ts';
import { sleepHistoryRule } from './sleep-history.ts';

/** Lengths of sleep that may be placed [min]: naps that are easily woken from, and whole sleep cycles; common practice, no source. */
const SLEEP_MIN = [20, 30, 60, 90, 180] as const;
/** S to be left when the work is over: enough to keep a look-out and handle the boat; our default, no source. */
const LEAST_END_S = 9;
/** A minute asleep is a minute nobody watches; by day, and in the dark, when there is less to see. Our weights. */
const UNWATCHED_POINTS_PER_H = 3;

/** Sleep and alertness as the search sees them; slots count from the beginning of the plan. */
export function restModel(
  problem: PlanningProblem,
  of: { inertiaMultipliers: readonly number[]; historyGates: ReadonlyMap<Choice, Gate> },
): RestModel {
  const { person, grid, fromSlot, start } = problem;
  const slotCount = problem.untilSlot - fromSlot;
  const slotH = grid.slotMin / 60;
  const sleepSlots = sleepLengths(problem);
  const efficiency = person.watchkeeper.sleepEfficiencyRatio;
  const awake = affineTable(slotCount, (s, slots) => awakeS({ s, elapsedH: slots * slotH }));
  return {
    startS: start.s,
    startWokeSlot: start.awakeSinceSlot - fromSlot,
    startClearSlots: Int32Array.from(
      of.inertiaMultipliers,
      (multiplier) =>
        start.awakeSinceSlot - fromSlot + slotsOf(leastAwakeMin(inertiaGateMin(start), multiplier), grid.slotMin),
    ),
    awakeS: (s, slots) => (awake.offsets[slots] ?? 0) + s * (awake.ratios[slots] ?? 1),
    asleepS: (s, slots) => asleepS({ s, elapsedH: slots * slotH * efficiency }),
    rhythmPoints: person.rhythm.slice(fromSlot, fromSlot + slotCount + 1),
    sleepSlots,
    lookoutSlots: slotsOf(LOOKOUT_MIN, grid.slotMin),
    sleepAllowed: new Uint8Array(slotCount).fill(1),
    sleepCostPoints: new Int32Array(slotCount).fill(Math.max(1, Math.round(UNWATCHED_POINTS_PER_H * slotH))),
    leastEndS: LEAST_END_S,
    inertiaSlots: of.inertiaMultipliers.map((multiplier) =>
      inertiaTable(problem, { multiplierRatio: multiplier, sleepSlots, slotCount }),
    ),
    refusesHistory: sleepHistoryRule(problem, of.historyGates),
  };
}

const slotsOf = (lengthMin: number, slotMin: number): number => Math.ceil(lengthMin / slotMin - 1e-9);

function sleepLengths({ grid, person }: PlanningProblem): number[] {
  const longest = person.longestSleepSlots;
  const lengths = SLEEP_MIN.map((min) => slotsOf(min, grid.slotMin)).filter((slots) => slots <= longest);
  return [...new Set([...lengths, Math.max(1, longest)])].toSorted((a, b) => a - b);
}

/** S after some slots awake is a line in S: two numbers per length. */
function affineTable(
  mostSlots: number,
  after: (s: number, slots: number) => number,
): { offsets: Float64Array; ratios: Float64Array } {
  const offsets = Float64Array.from({ length: mostSlots + 1 }, (_, slots) => after(0, slots));
  const ratios = Float64Array.from({ length: mostSlots + 1 }, (_, slots) => after(1, slots) - (offsets[slots] ?? 0));
  return { offsets, ratios };
}

function inertiaTable(
  { grid, person, fromSlot }: PlanningProblem,
  of: { multiplierRatio: number; sleepSlots: readonly number[]; slotCount: number },
): Int16Array {
  const table = new Int16Array(of.sleepSlots.length * (of.slotCount + 1));
  for (const [index, slots] of of.sleepSlots.entries()) {
    for (let woke = 0; woke <= of.slotCount; woke++) {
      const wokeTodH = person.todH[fromSlot + woke] ?? 0;
      const awakeMin = leastAwakeMin(
        inertiaGateMin({ lastSleepMin: slots * grid.slotMin, wokeTodH }),
        of.multiplierRatio,
      );
      table[index * (of.slotCount + 1) + woke] = slotsOf(awakeMin, grid.slotMin);
    }
  }
  return table;
}
