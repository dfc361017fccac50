import type { RestModel, ScheduleProblem } from './problem.ts';
import { f64, i32, item } from './typed-reads.ts';

/** Steps of the grid for each slot awake. */
export const STEPS_PER_SLOT = 1;
/** Steps kept at most; S below the lowest counts as the lowest. */
const MOST_STEPS = 1000;
/** Look-up cells over the whole range of S. */
const LOOKUP_COUNT = 2048;
/** S that differ by less are the same: more than rounding can add up to. */
export const S_TOLERANCE = 1e-7;

/**
 * A ladder of S, highest first, on which a slot awake is exactly `STEPS_PER_SLOT` steps down, so that no rounding adds up
 * over the hours. Any S is rounded up to a step: what is found on the ladder is never worse than the truth.
 */
export interface RestGrid {
  readonly stepCount: number;
  readonly sOfStep: Float64Array;
  /** By sleep length: step after the sleep and the look round, from each step. */
  readonly afterSleep: readonly Int32Array[];
  /** Lowest step that is not below an S. */
  stepOf(s: number): number;
}

/** null: staying awake twice is not staying awake for the sum of both, so that no such ladder exists. */
export function buildRestGrid(problem: ScheduleProblem, rest: RestModel): RestGrid | null {
  const sOfStep = ladder(problem.slotCount, rest);
  if (!isAdditive(rest, sOfStep, problem.slotCount)) return null;
  const stepOf = stepFinder(sOfStep);
  return {
    stepCount: sOfStep.length,
    sOfStep,
    afterSleep: rest.sleepSlots.map((slots) =>
      Int32Array.from(sOfStep, (s) => stepOf(rest.awakeS(rest.asleepS(s, slots), rest.lookoutSlots))),
    ),
    stepOf,
  };
}

function ladder(slotCount: number, rest: RestModel): Float64Array {
  const top = highestS(slotCount, rest);
  const below = rest.awakeS(top, 1);
  const steps = Array.from({ length: STEPS_PER_SLOT }, (_, k) => top + ((below - top) * k) / STEPS_PER_SLOT);
  const most = Math.min(MOST_STEPS, (slotCount + 1) * STEPS_PER_SLOT);
  while (steps.length < most) steps.push(rest.awakeS(item(steps, steps.length - STEPS_PER_SLOT), 1));
  return Float64Array.from(steps);
}

/** More than any plan can reach. */
function highestS(slotCount: number, rest: RestModel): number {
  let highest = rest.startS;
  const shortest = rest.sleepSlots.reduce((least, slots) => Math.min(least, slots), Infinity);
  for (let count = 0; count * shortest <= slotCount; count++) {
    const before = highest;
    for (const slots of rest.sleepSlots) highest = Math.max(highest, rest.asleepS(before, slots));
    if (highest - before < S_TOLERANCE) break;
  }
  return highest + S_TOLERANCE;
}

/** Asked where it matters: from a sample of steps, for a sample of lengths. */
function isAdditive(rest: RestModel, sOfStep: Float64Array, slotCount: number): boolean {
  for (let step = 0; step < sOfStep.length; step += 7)
    for (let slots = 2; slots <= slotCount; slots = Math.ceil(slots * 1.6)) {
      const below = step + slots * STEPS_PER_SLOT;
      if (below >= sOfStep.length) break;
      if (rest.awakeS(f64(sOfStep, step), slots) > f64(sOfStep, below) + S_TOLERANCE / 4) return false;
    }
  return true;
}

function stepFinder(sOfStep: Float64Array): (s: number) => number {
  const last = sOfStep.length - 1;
  const lowest = f64(sOfStep, last);
  const width = (f64(sOfStep, 0) - lowest) / LOOKUP_COUNT;
  if (!(width > 0)) return () => 0;
  const lookup = new Int32Array(LOOKUP_COUNT + 1);
  for (let k = 0, step = last; k <= LOOKUP_COUNT; k++) {
    // The lowest step that is not below the upper end of the cell.
    while (step > 0 && f64(sOfStep, step) < lowest + (k + 1) * width) step--;
    lookup[k] = step;
  }
  return (s) => {
    const k = (s - lowest) / width;
    let step = k <= 0 ? last : i32(lookup, Math.min(LOOKUP_COUNT, Math.floor(k)));
    while (step < last && f64(sOfStep, step + 1) >= s) step++;
    return step;
  };
}
