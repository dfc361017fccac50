/** Random small problems for properties: a few tasks, some lags, configs, scenarios, with or without a tired worker. */
import fc from 'fast-check';
import type { ScheduleProblem, WaitSlots } from '../../../lib/schedule/index.ts';
import type { LittleTask } from './little-problem.ts';
import { littleProblem, littleRest } from './little-problem.ts';

export const SEED = 20_261;

export interface DrawnTask {
  readonly slots: number;
  readonly units: number;
  readonly afterOther: boolean;
  readonly waitSlots: number;
  /** The wait is longer from some instants than from others. */
  readonly isWaitByInstant: boolean;
  readonly restSlots: number;
  /** Slots for which it keeps the tool of the task before it, in number. */
  readonly heldSlots: number;
  readonly conditional: boolean;
  readonly priorityWeight: number;
  readonly leastEndPoints: number;
  readonly changeSlots: number;
  readonly loss: number;
  readonly finishCost: number;
  /** Bits that shape weather and cost. */
  readonly noise: readonly number[];
}

export interface DrawnWorld {
  readonly slots: number;
  readonly lags: number;
  readonly weights: readonly number[];
  readonly needed: number;
  readonly step: number;
  readonly isTired: boolean;
  readonly tasks: readonly DrawnTask[];
}

const drawnTask: fc.Arbitrary<DrawnTask> = fc.record({
  slots: fc.integer({ min: 1, max: 3 }),
  units: fc.integer({ min: 1, max: 2 }),
  afterOther: fc.boolean(),
  waitSlots: fc.integer({ min: 0, max: 3 }),
  isWaitByInstant: fc.boolean(),
  restSlots: fc.integer({ min: 0, max: 2 }),
  heldSlots: fc.integer({ min: 0, max: 4 }),
  conditional: fc.boolean(),
  priorityWeight: fc.integer({ min: 1, max: 4 }),
  leastEndPoints: fc.integer({ min: 0, max: 8 }),
  changeSlots: fc.integer({ min: 0, max: 2 }),
  loss: fc.integer({ min: -1, max: 2 }),
  finishCost: fc.integer({ min: 0, max: 2 }),
  noise: fc.array(fc.nat(0xffff), { minLength: 16, maxLength: 16 }),
});

export const drawnWorld: fc.Arbitrary<DrawnWorld> = fc.record({
  slots: fc.integer({ min: 5, max: 16 }),
  lags: fc.integer({ min: 1, max: 3 }),
  weights: fc.array(fc.integer({ min: 1, max: 5 }), { minLength: 1, maxLength: 6 }),
  needed: fc.integer({ min: 1, max: 6 }),
  step: fc.integer({ min: 1, max: 3 }),
  isTired: fc.boolean(),
  tasks: fc.array(drawnTask, { minLength: 1, maxLength: 4 }),
});

/** `locked` holds a task to the instant it may begin; all scenarios of `moreHolding` hold everywhere. */
export function problemOf(
  world: DrawnWorld,
  change: {
    readonly locked?: { readonly task: number; readonly beginSlot: number };
    readonly moreHolding?: number;
  } = {},
): ScheduleProblem {
  const rest = littleRest(world.slots, {
    startS: 7,
    leastEndS: 3,
    sleepCostPoints: new Int32Array(world.slots).fill(1),
    sleepSlots: [1, 3],
  });
  return littleProblem({
    slots: world.slots,
    lags: world.lags,
    weights: world.weights,
    needed: world.needed,
    step: world.step,
    configCount: 2,
    afterWait: [0, 0],
    waitLoss: (_config, t) => (t % 4 === 3 ? 1 : 0),
    costPerQuantum: 2,
    endCost: (config, t) => config + (t % 3),
    jobs: world.tasks.map(({ priorityWeight, conditional }, task) => ({ tasks: [task], priorityWeight, conditional })),
    tasks: world.tasks.map((task, index) => littleTask(world, task, index, change)),
    ...(world.isTired ? { rest } : {}),
  });
}

function littleTask(
  { weights }: DrawnWorld,
  task: DrawnTask,
  index: number,
  change: { readonly locked?: { readonly task: number; readonly beginSlot: number }; readonly moreHolding?: number },
): LittleTask {
  const noise = (t: number, row: number): number => ((task.noise[(t + 5 * row) % 16] ?? 0) >> (t >> 4)) & 0xffff;
  const mayBegin = (t: number): boolean => change.locked?.task !== index || change.locked.beginSlot === t;
  const choice = (config: number) => ({
    slots: task.slots + config,
    opens: (t: number, row: number) => mayBegin(t) && (noise(t, row) & 7) !== 0,
    cost: (t: number, row: number) => noise(t, row) % 9,
    loss: (_t: number, row: number) => task.loss + (row & config),
    holds: (t: number, row: number) =>
      weights.flatMap((_, w) => (((noise(t, row) >> (w + 3)) & 1) === 1 || w === change.moreHolding ? [w] : [])),
    changeSlots: config === 0 ? [0, -1] : [task.changeSlots, 0],
    configAfter: config,
    gate: { leastEndPoints: task.leastEndPoints, longestAwakeSlots: 9 },
  });
  return {
    units: task.units,
    after: task.afterOther && index > 0 ? [{ task: index - 1, waitSlots: waitOf(task) }] : [],
    restSlots: task.restSlots,
    ...(index > 0 && !task.afterOther ? { holdsTools: [{ task: index - 1, slots: task.heldSlots }] } : {}),
    choices: [choice(0), choice(1)],
    finishCost: (t) => task.finishCost * t,
  };
}

/** A wait as drawn; one by the instant is never over earlier for who begins later. */
function waitOf({ waitSlots, isWaitByInstant, noise }: DrawnTask): WaitSlots {
  if (!isWaitByInstant) return waitSlots;
  let readySlot = 0;
  return Int32Array.from({ length: 24 }, (_, t) => {
    readySlot = Math.max(readySlot, t + waitSlots + ((noise[t % 16] ?? 0) & 3));
    return readySlot - t;
  });
}
