import type { Model, ModelChoice } from './model.ts';
import { i16, i32, item, u16, u8 } from './typed-reads.ts';

/** Instants at which the work of a task may begin, both included, and the one by which it ends, if any. */
export interface StartRange {
  readonly fromSlot: number;
  readonly toSlot: number;
  readonly endBySlot?: number;
}

/** Numbers kept for a start: see `OpenStarts`. */
export const START_STRIDE = 3;
export const START_LOSS = 1;
export const START_COST = 2;

/** By choice: which beginnings are worth trying when every start must keep a given weight by itself. */
export interface OpenStarts {
  /**
   * From `((t − firstSlot) * rowCount + row) * START_STRIDE`: slots of work (0: not open), quanta lost, and the cost of
   * both. One after the other, since the search asks for all three at once, and for all rows of an instant.
   */
  readonly starts: readonly Int32Array[];
  readonly firstSlot: Int32Array;
  /** 1 where some row is open. */
  readonly isOpen: readonly Uint8Array[];
}

/**
 * Starts that keep `leastWeight` by themselves (conditional ones: the needed weight) and end within the horizon.
 *
 * @param ranges one for each task; null: anywhere
 */
export function findOpenStarts(model: Model, leastWeight: number, ranges: readonly StartRange[] | null): OpenStarts {
  const found = model.choices.map((choice) =>
    openStartsOf(model, choice, { leastWeight, range: ranges === null ? null : item(ranges, choice.task) }),
  );
  return {
    starts: found.map(({ starts }) => starts),
    firstSlot: Int32Array.from(found, ({ fromSlot }) => fromSlot),
    isOpen: found.map(({ isOpen }) => isOpen),
  };
}

function openStartsOf(
  { problem }: Model,
  { choice, narrows, marginalWeight }: ModelChoice,
  asked: { readonly leastWeight: number; readonly range: StartRange | null },
): { readonly starts: Int32Array; readonly fromSlot: number; readonly isOpen: Uint8Array } {
  const { rowCount, slotCount, costPerQuantum } = problem;
  const { durationSlots, lossQuanta, costPoints } = choice.table;
  const leastWeight = narrows ? Math.max(asked.leastWeight, problem.neededWeight) : problem.neededWeight;
  const from = Math.max(0, asked.range?.fromSlot ?? 0);
  const to = Math.min(slotCount - 1, asked.range?.toSlot ?? slotCount);
  const endBy = Math.min(slotCount, asked.range?.endBySlot ?? slotCount);
  const starts = new Int32Array(rowCount * Math.max(0, to - from + 1) * START_STRIDE);
  const isOpen = new Uint8Array(slotCount);
  for (let row = 0; row < rowCount; row++) {
    for (let t = from; t <= to; t++) {
      const cell = row * slotCount + t;
      const duration = u16(durationSlots, cell);
      if (duration === 0 || i32(marginalWeight, cell) < leastWeight || t + duration > endBy) continue;
      const at = ((t - from) * rowCount + row) * START_STRIDE;
      starts[at] = duration;
      starts[at + START_LOSS] = i16(lossQuanta, cell);
      starts[at + START_COST] = i32(costPoints, cell) + i16(lossQuanta, cell) * costPerQuantum;
      isOpen[t] = 1;
    }
  }
  return { starts, fromSlot: from, isOpen };
}

/** Closes starts outside the ranges, one for each task. Changes `open`. */
export function closeOutside(model: Model, open: OpenStarts, ranges: readonly Required<StartRange>[]): void {
  const { rowCount, slotCount } = model.problem;
  model.choices.forEach(({ task }, choice) => {
    const { fromSlot, toSlot, endBySlot } = item(ranges, task);
    const isOpen = item(open.isOpen, choice);
    const starts = item(open.starts, choice);
    for (let t = i32(open.firstSlot, choice); t < slotCount; t++) {
      if (u8(isOpen, t) === 0) continue;
      const first = (t - i32(open.firstSlot, choice)) * rowCount * START_STRIDE;
      let isAnyOpen = false;
      for (let at = first; at < first + rowCount * START_STRIDE; at += START_STRIDE) {
        if (t < fromSlot || t > toSlot || t + i32(starts, at) > endBySlot) starts[at] = 0;
        if (i32(starts, at) > 0) isAnyOpen = true;
      }
      if (!isAnyOpen) isOpen[t] = 0;
    }
  });
}

/** Whether a choice has a start that keeps the needed weight by itself. */
export function hasOpenStart(
  { problem }: Model,
  { choice, marginalWeight }: ModelChoice,
  range: StartRange | null,
): boolean {
  const { slotCount, rowCount, neededWeight } = problem;
  const from = Math.max(0, range?.fromSlot ?? 0);
  const to = Math.min(slotCount - 1, range?.toSlot ?? slotCount);
  const endBy = Math.min(slotCount, range?.endBySlot ?? slotCount);
  for (let row = 0; row < rowCount; row++)
    for (let cell = row * slotCount + from; cell <= row * slotCount + to; cell++) {
      const slots = u16(choice.table.durationSlots, cell);
      if (slots > 0 && cell - row * slotCount + slots <= endBy && i32(marginalWeight, cell) >= neededWeight)
        return true;
    }
  return false;
}

/** Ends of work that may begin at an instant, over all rows: durations that differ, with the least and greatest loss. */
export interface StartOutcomes {
  /** Outcomes of instant t are `from[t]` … `from[t + 1] − 1`. */
  readonly from: Int32Array;
  readonly durationSlots: readonly number[];
  readonly leastLoss: readonly number[];
  readonly greatestLoss: readonly number[];
  /** Earliest end of work that begins at t or later; above `slotCount`: none. */
  readonly soonestEndSlot: Int32Array;
  /** Last beginning open; −1: none. */
  readonly lastBeginSlot: number;
}

export function startOutcomes(model: Model, open: OpenStarts, choiceIndex: number): StartOutcomes {
  const { slotCount } = model.problem;
  const from = new Int32Array(slotCount + 1);
  const lists = {
    durationSlots: new Array<number>(),
    leastLoss: new Array<number>(),
    greatestLoss: new Array<number>(),
  };
  const isOpen = item(open.isOpen, choiceIndex);
  for (let t = 0; t < slotCount; t++) {
    from[t] = lists.durationSlots.length;
    if (u8(isOpen, t) === 1) addOutcomes(model, { open, choiceIndex, t }, lists);
  }
  from[slotCount] = lists.durationSlots.length;
  const soonestEndSlot = new Int32Array(slotCount + 1).fill(slotCount + 1);
  for (let t = slotCount - 1; t >= 0; t--) {
    let soonest = i32(soonestEndSlot, t + 1);
    for (let k = i32(from, t); k < i32(from, t + 1); k++) soonest = Math.min(soonest, t + item(lists.durationSlots, k));
    soonestEndSlot[t] = soonest;
  }
  return { from, ...lists, soonestEndSlot, lastBeginSlot: isOpen.lastIndexOf(1) };
}

function addOutcomes(
  { problem }: Model,
  at: { readonly open: OpenStarts; readonly choiceIndex: number; readonly t: number },
  lists: { durationSlots: number[]; leastLoss: number[]; greatestLoss: number[] },
): void {
  const starts = item(at.open.starts, at.choiceIndex);
  const firstRow = (at.t - i32(at.open.firstSlot, at.choiceIndex)) * problem.rowCount;
  const first = lists.durationSlots.length;
  for (let row = 0; row < problem.rowCount; row++) {
    const start = (firstRow + row) * START_STRIDE;
    const duration = i32(starts, start);
    if (duration === 0) continue;
    const loss = i32(starts, start + START_LOSS);
    const found = lists.durationSlots.indexOf(duration, first);
    const k = found < 0 ? lists.durationSlots.push(duration) - 1 : found;
    lists.leastLoss[k] = Math.min(loss, lists.leastLoss[k] ?? loss);
    lists.greatestLoss[k] = Math.max(loss, lists.greatestLoss[k] ?? loss);
  }
}
