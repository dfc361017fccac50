import type { Space } from './aim.ts';
import type { LabelStore } from './label-store.ts';
import { chainOf, sleepOf } from './label-store.ts';
import type { ScheduleEntry, ScheduleWorth } from './solution.ts';
import { i16, i32, item, u16 } from './typed-reads.ts';

/** A plan with what it is worth. */
export interface FoundPlan {
  readonly entries: readonly ScheduleEntry[];
  readonly worth: ScheduleWorth;
  readonly mask: Int32Array;
}

/** The plan that ends with a label, as its chain tells it. */
export function planOfLabel(space: Space, store: LabelStore, label: number): FoundPlan {
  const node = i32(store.node, label);
  return {
    entries: chainOf(store, label).flatMap((x) => entryOf(space, store, x) ?? []),
    worth: {
      priorityWeight: i32(space.nodes.priorityDone, node),
      jointWeight: i32(store.weight, label),
      conditionalWeight: i32(space.nodes.conditionalDone, node),
      costPoints: leastCostOfEnd(space, store, label),
    },
    mask: store.masks.slice(label * store.wordCount, (label + 1) * store.wordCount),
  };
}

/** Least cost of ending with a label or at any instant of waiting after it. */
function leastCostOfEnd({ model, nodes }: Space, store: LabelStore, label: number): number {
  const { endCostPoints, slotCount, configs, rest, costPerQuantum } = model.problem;
  let config = i16(nodes.config, i32(store.node, label));
  let cost = i32(store.cost, label);
  let s = store.sOf(label);
  let least = Infinity;
  for (let t = i32(store.at, label); t <= slotCount; t++) {
    const base = config * (slotCount + 1) + t;
    if (rest === null || s >= rest.leastEndS)
      least = Math.min(least, cost + (endCostPoints === null ? 0 : i32(endCostPoints, base)));
    if (t === slotCount) break;
    cost += (i32(configs.waitQuanta, base + 1) - i32(configs.waitQuanta, base)) * costPerQuantum;
    s = rest?.awakeS(s, 1) ?? s;
    config = i32(configs.afterWait, config);
  }
  return least;
}

/** What was done to come to a label; null: waiting, or the start. */
function entryOf(space: Space, store: LabelStore, label: number): ScheduleEntry | null {
  const act = i32(store.act, label);
  const before = i32(store.previous, label);
  if (before < 0) return null;
  const startSlot = i32(store.at, before);
  const endSlot = i32(store.at, label);
  if (act >= 0) return workOf(space, store, label);
  const { rest } = space.model.problem;
  if (sleepOf(act) < 0 || rest === null) return null;
  return { kind: 'sleep', startSlot, wokeSlot: startSlot + item(rest.sleepSlots, sleepOf(act)), endSlot };
}

function workOf({ model, nodes }: Space, store: LabelStore, label: number): ScheduleEntry {
  const { problem, choices } = model;
  const before = i32(store.previous, label);
  const { task, choiceIndex, choice } = item(choices, i32(store.act, label));
  const config = i16(nodes.config, i32(store.node, before));
  const startSlot = i32(store.at, before);
  const beginSlot = startSlot + i16(choice.changeSlots, config);
  const base = config * (problem.slotCount + 1);
  const { waitQuanta } = problem.configs;
  const lag = i32(store.lag, before) + i32(waitQuanta, base + beginSlot) - i32(waitQuanta, base + startSlot);
  return {
    kind: 'work',
    task,
    choice: choiceIndex,
    startSlot,
    beginSlot,
    endSlot: i32(store.at, label),
    lag: Math.min(problem.lagCount - 1, Math.max(0, lag)),
    finishes: u16(nodes.unitsLeft, i32(store.node, label) * nodes.taskCount + task) === 0,
  };
}
