import type { Block } from '../jobs/index.ts';
import { blockMinutes } from '../jobs/index.ts';
import type { Conditions } from '../voyage/index.ts';
import { judgeStart } from './judge-start.ts';
import { maskWordCount } from './scenario-mask.ts';
import { stepFactorsAt, type StepFactors } from './step-factors.ts';
import { tableContext } from './table-context.ts';
import type { BlockTable, BlockWork, SlotSpan, TableSettings } from './window-table.ts';

/**
 * Judges every start slot of a block.
 *
 * A period is tested at its slot instants, both ends included. Each step must hold from its planned start to its planned
 * end plus the contingency, since every delay before it may push it that far. A scenario also fails when its own pace
 * outruns the reference period.
 */
export function blockTable(work: BlockWork, conditions: Conditions, settings: TableSettings): BlockTable {
  return sparseTable(work, conditions, settings).whole();
}

/** A block table whose start slots are judged when they are asked for. */
export interface SparseTable {
  /** The table, judged at this start slot (and perhaps at others). */
  at(slotIndex: number): BlockTable;
  /** The table, judged at every start slot. */
  whole(): BlockTable;
  /** What slows each step of the block when begun in this slot. */
  factorsAt(slotIndex: number): readonly StepFactors[];
}

/** As {@link blockTable}, slot by slot on demand. */
export function sparseTable(work: BlockWork, conditions: Conditions, settings: TableSettings): SparseTable {
  const table = emptyTable(conditions);
  const context = tableContext(work, conditions, settings);
  const judged = new Uint8Array(conditions.weather.pointCount);
  const at = (slotIndex: number): BlockTable => {
    if (judged[slotIndex] === 0) judgeStart(context, table, slotIndex);
    judged[slotIndex] = 1;
    return table;
  };
  let isWhole = false;
  const whole = (): BlockTable => {
    if (!isWhole) for (let i = 0; i < judged.length; i++) at(i);
    isWhole = true;
    return table;
  };
  return { at, whole, factorsAt: (slotIndex) => stepFactorsAt(context, slotIndex) };
}

const NO_SPANS: readonly SlotSpan[] = [];

function emptyTable(conditions: Conditions): BlockTable {
  const { pointCount, scenarioCount } = conditions.weather;
  const wordCount = maskWordCount(scenarioCount);
  return {
    plannedMin: new Float32Array(pointCount).fill(Number.NaN),
    referenceSlots: new Int32Array(pointCount),
    masks: new Uint32Array(pointCount * wordCount),
    wordCount,
    weight: new Int32Array(pointCount),
    unknownBits: new Uint32Array(pointCount),
    spans: Array.from({ length: pointCount }, () => NO_SPANS),
  };
}

/** Minutes at pace 1 of a whole block: the P50 of its steps' sum. */
export const wholeBlockMin = (block: Block): number => blockMinutes(block).p50Min;

/**
 * Slots before a start that the limits of a block look back on (a drying spell): conditions cut out of a course must
 * begin so much earlier to judge a start as the whole course does.
 */
export function lookBackSlots(block: Block, slotMin: number): number {
  const hoursH = block.steps.map((step) => step.limits.dryBeforeH ?? 0);
  return Math.max(0, Math.ceil((Math.max(...hoursH) * 60) / slotMin - 1e-6));
}
