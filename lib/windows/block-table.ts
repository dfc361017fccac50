import type { Handling } from '../boat/index.ts';
import type { Block } from '../jobs/index.ts';
import { blockMinutes } from '../jobs/index.ts';
import type { Gloves } from '../person/index.ts';
import { coldFactorRatio, combinedFactorRatio } from '../person/index.ts';
import type { Conditions, DeckWind } from '../voyage/index.ts';
import { deckWindUnder } from '../voyage/index.ts';
import { scenarioMedians } from './scenario-medians.ts';
import { maskWordCount, setBit, weightOfBoth } from './scenario-mask.ts';
import type { StepScan } from './step-scan.ts';
import { scanStep } from './step-scan.ts';
import { paceRatio } from './work-factors.ts';

/** A block of a job worked under a handling in one set of conditions. */
export interface BlockWork {
  readonly block: Block;
  readonly handling: Handling;
  /** What is set while it is worked. */
  readonly sailStateId: string;
  /** Minutes of work at pace 1 to be done in one go; for a block that is no session, all of it. */
  readonly workMin: number;
  /** Fixed minutes before the work of a session (getting it out again). */
  readonly resumeMin: number;
  /** Time factor of tiredness, >= 1. */
  readonly tiredRatio: number;
}

export interface TableSettings {
  readonly weights: Int32Array;
  readonly baseEpochMs: number;
  readonly limitRatio: number;
  readonly contingencyShare: number;
  readonly contingencyLeastMin: number;
  readonly steadyingWindRule: boolean;
  /** The watchkeeper's own pace. */
  readonly ownPaceRatio: number;
  readonly gloves: Gloves;
}

/** For every start slot: how long the block takes there, and in which scenarios it stays inside every known limit. */
export interface BlockTable {
  /** Planned minutes when started here; NaN: refused (slowed more than threefold, or past the horizon). */
  readonly plannedMin: Float32Array;
  /** Slots the weather must hold for, planned + contingency rounded up. */
  readonly referenceSlots: Int32Array;
  /** Scenarios in which it does: `wordCount` words per slot. */
  readonly masks: Uint32Array;
  readonly wordCount: number;
  /** Summed weight of those scenarios. */
  readonly weight: Int32Array;
  /** Bits (LIMIT_IDS order) of limits unknown somewhere in the reference period. */
  readonly unknownBits: Uint32Array;
  /** Slots each step must hold, from this start: `[slot][step]`; empty where refused. */
  readonly spans: (readonly SlotSpan[])[];
}

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
}

/** As {@link blockTable}, slot by slot on demand. */
export function sparseTable(work: BlockWork, conditions: Conditions, settings: TableSettings): SparseTable {
  const { table, context } = emptyTable(work, conditions, settings);
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
  return { at, whole };
}

function emptyTable(
  work: BlockWork,
  conditions: Conditions,
  settings: TableSettings,
): { table: BlockTable; context: TableContext } {
  const { pointCount, scenarioCount } = conditions.weather;
  const wordCount = maskWordCount(scenarioCount);
  const table: BlockTable = {
    plannedMin: new Float32Array(pointCount).fill(Number.NaN),
    referenceSlots: new Int32Array(pointCount),
    masks: new Uint32Array(pointCount * wordCount),
    wordCount,
    weight: new Int32Array(pointCount),
    unknownBits: new Uint32Array(pointCount),
    spans: Array.from({ length: pointCount }, () => []),
  };
  return { table, context: tableContext(work, conditions, settings) };
}

interface TableContext {
  readonly work: BlockWork;
  readonly conditions: Conditions;
  readonly settings: TableSettings;
  readonly scans: readonly StepScan[];
  /** Share of the block's work that lies in each step. */
  readonly shares: readonly number[];
  readonly deck: DeckWind;
  readonly medianDeckKn: Float32Array;
  readonly medianSeaM: Float32Array;
  readonly medianWindKn: Float32Array;
  readonly totalWorkMin: number;
}

function tableContext(work: BlockWork, conditions: Conditions, settings: TableSettings): TableContext {
  const means = work.block.steps.map((step) => (step.work.leastMin + 4 * step.work.likelyMin + step.work.mostMin) / 6);
  const sum = means.reduce((total, mean) => total + mean, 0);
  const deck = deckWindUnder(conditions, work.handling, work.sailStateId);
  const worked = {
    ...work,
    conditions,
    baseEpochMs: settings.baseEpochMs,
    steadyingWindRule: settings.steadyingWindRule,
  };
  return {
    work,
    conditions,
    settings,
    scans: work.block.steps.map((step) => scanStep({ ...worked, step }, settings.limitRatio)),
    shares: means.map((mean) => mean / sum),
    deck,
    medianDeckKn: scenarioMedians(deck.meanKn, conditions.weather),
    medianSeaM: scenarioMedians(conditions.weather.seaHeightM, conditions.weather),
    medianWindKn: scenarioMedians(conditions.weather.windKn, conditions.weather),
    totalWorkMin: work.workMin,
  };
}

/** Minutes at pace 1 of a whole block: the P50 of its steps' sum. */
export const wholeBlockMin = (block: Block): number => blockMinutes(block).p50Min;

function judgeStart(context: TableContext, table: BlockTable, i: number): void {
  const { work, conditions, settings } = context;
  const median = {
    deckWindKn: context.medianDeckKn[i] ?? Number.NaN,
    seaHeightM: context.medianSeaM[i] ?? Number.NaN,
    trueWindKn: context.medianWindKn[i] ?? Number.NaN,
  };
  const steadyFactors = context.work.block.steps.map((step) => otherRatio(context, step, i));
  const paces = work.block.steps.map((step) => paceRatio(step, median, settings.steadyingWindRule));
  const product = sumOf(context.shares, (share, k) => share * (paces[k] ?? 1) * (steadyFactors[k] ?? 1));
  if (combinedFactorRatio([product]) === null) return;
  const plannedMin = work.resumeMin + context.totalWorkMin * product;
  const contingencyMin = contingency(context, plannedMin);
  const { slotMin, slotCount } = conditions.course.grid;
  const referenceSlots = Math.ceil((plannedMin + contingencyMin) / slotMin - 1e-6);
  if (i + referenceSlots > slotCount - 1) return;
  table.plannedMin[i] = plannedMin;
  table.referenceSlots[i] = referenceSlots;
  const spans = stepSpans(context, { paces, steadyFactors, plannedMin, contingencyMin }, i);
  table.spans[i] = spans;
  markScenarios(context, table, { i, spans, steadyFactors, allowedMin: plannedMin + contingencyMin });
}

/** Cold hands, darkness, tiredness and own pace; the weather's own pace stands apart because scenarios differ in it. */
function otherRatio(context: TableContext, step: Block['steps'][number], i: number): number {
  const { conditions, work, settings } = context;
  const dark = (conditions.light[i] ?? 0) > 1 ? step.darkFactorRatio : 1;
  return dark * coldRatio(context, step, i) * work.tiredRatio * settings.ownPaceRatio;
}

/** Below, hands are warm; where the forecast holds no temperature nothing is assumed of it. */
function coldRatio(context: TableContext, step: Block['steps'][number], i: number): number {
  const airC = context.conditions.weather.airC[i] ?? Number.NaN;
  const deckWindKn = context.medianDeckKn[i] ?? Number.NaN;
  if (step.place === 'below' || Number.isNaN(airC) || Number.isNaN(deckWindKn)) return 1;
  return coldFactorRatio({
    airC,
    deckWindKn,
    hands: step.hands,
    exposureMin: context.totalWorkMin,
    gloves: context.settings.gloves,
    wet: false,
  });
}

function contingency(context: TableContext, plannedMin: number): number {
  const { session } = context.work.block;
  if (session !== null) return session.makeSafeMin;
  return Math.max(context.settings.contingencyShare * plannedMin, context.settings.contingencyLeastMin);
}

/** Slot instants, both included. */
export interface SlotSpan {
  readonly fromSlot: number;
  readonly toSlot: number;
}

function stepSpans(
  context: TableContext,
  pace: { paces: readonly number[]; steadyFactors: readonly number[]; plannedMin: number; contingencyMin: number },
  i: number,
): SlotSpan[] {
  const { slotMin } = context.conditions.course.grid;
  let fromMin = 0;
  return context.shares.map((share, k) => {
    const lengthMin = context.totalWorkMin * share * (pace.paces[k] ?? 1) * (pace.steadyFactors[k] ?? 1);
    const toMin = fromMin + lengthMin + (k === 0 ? context.work.resumeMin : 0);
    const span = {
      fromSlot: i + Math.floor(fromMin / slotMin + 1e-6),
      toSlot: i + Math.ceil((toMin + pace.contingencyMin) / slotMin - 1e-6),
    };
    fromMin = toMin;
    return span;
  });
}

function markScenarios(
  context: TableContext,
  table: BlockTable,
  start: { i: number; spans: readonly SlotSpan[]; steadyFactors: readonly number[]; allowedMin: number },
): void {
  const { pointCount, scenarioCount } = context.conditions.weather;
  const wordOffsetIndex = start.i * table.wordCount;
  for (let w = 0; w < scenarioCount; w++) {
    const holds = start.spans.every(
      (span, k) => (context.scans[k]?.nextBroken[w * pointCount + span.fromSlot] ?? 0) > span.toSlot,
    );
    if (holds && ownMinutes(context, start, w) <= start.allowedMin + 1e-6) setBit(table.masks, w, wordOffsetIndex);
  }
  const all = table.masks.subarray(wordOffsetIndex, wordOffsetIndex + table.wordCount);
  table.weight[start.i] = weightOfBoth(all, all, { wordOffsetIndex: 0, weights: context.settings.weights });
  table.unknownBits[start.i] = unknownIn(context, start.spans);
}

/**
 * How long scenario w would take at its own pace. Work in sessions has no core to outrun: slower stitching means fewer
 * stitches, which the sum of sessions provides for, so the same share of delay is allowed as for a core.
 */
function ownMinutes(
  context: TableContext,
  start: { i: number; steadyFactors: readonly number[]; allowedMin: number },
  w: number,
): number {
  const { weather } = context.conditions;
  const k = w * weather.pointCount + start.i;
  const own = {
    deckWindKn: context.deck.meanKn[k] ?? Number.NaN,
    seaHeightM: weather.seaHeightM[k] ?? Number.NaN,
    trueWindKn: weather.windKn[k] ?? Number.NaN,
  };
  const ratio = sumOf(
    context.shares,
    (share, index) => share * ownPace(context, index, own) * (start.steadyFactors[index] ?? 1),
  );
  const minutesMin = context.work.resumeMin + context.totalWorkMin * ratio;
  return context.work.block.session === null ? minutesMin : minutesMin / (1 + context.settings.contingencyShare);
}

function ownPace(context: TableContext, index: number, own: Parameters<typeof paceRatio>[1]): number {
  const step = context.work.block.steps[index];
  return step === undefined ? 1 : paceRatio(step, own, context.settings.steadyingWindRule);
}

function unknownIn(context: TableContext, spans: readonly SlotSpan[]): number {
  let bits = 0;
  for (const [k, span] of spans.entries()) {
    const scan = context.scans[k];
    if (!scan) continue;
    for (let i = scan.nextUnknown[span.fromSlot] ?? span.toSlot + 1; i <= span.toSlot;) {
      bits |= scan.unknownBits[i] ?? 0;
      i = scan.nextUnknown[i + 1] ?? span.toSlot + 1;
    }
  }
  return bits >>> 0;
}

function sumOf(values: readonly number[], term: (value: number, index: number) => number): number {
  return values.reduce((total, value, index) => total + term(value, index), 0);
}
