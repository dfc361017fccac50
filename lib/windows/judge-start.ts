import type { BlockTable, SlotSpan } from './window-table.ts';
import { medianWeather, stepFactorRatio } from './step-factors.ts';
import type { TableContext } from './table-context.ts';
import { MOST_PACE_RATIO, paceRatio } from './work-factors.ts';

/** Judges one start slot of a block and writes what it finds into the table. */
export function judgeStart(context: TableContext, table: BlockTable, i: number): void {
  const { work, conditions } = context;
  fillFactors(context, i);
  const productRatio = slownessRatio(context);
  // NaN, where a step is refused, is not within it either.
  if (!(productRatio <= context.settings.timeFactors.productCapRatio)) return;
  const plannedMin = work.resumeMin + work.workMin * productRatio;
  const contingencyMin = contingency(context, plannedMin);
  const { slotMin, slotCount } = conditions.course.grid;
  const referenceSlots = Math.ceil((plannedMin + contingencyMin) / slotMin - 1e-6);
  if (i + referenceSlots > slotCount - 1) return;
  table.plannedMin[i] = plannedMin;
  table.referenceSlots[i] = referenceSlots;
  table.spans[i] = fillSpans(context, contingencyMin, i);
  markScenarios(context, table, { i, allowedMin: plannedMin + contingencyMin });
  table.unknownBits[i] = unknownIn(context);
}

/** Time factors of every step at a start: the pace of the median scenario, and the rest, in which scenarios agree. */
function fillFactors(context: TableContext, i: number): void {
  const median = medianWeather(context, i);
  for (let k = 0; k < context.steps.length; k++) {
    const step = context.steps[k];
    if (step === undefined) continue;
    context.paces[k] = paceRatio(step.pace, median);
    context.factors[k] = stepFactorRatio(context, step, i);
  }
}

/** Time factor of the whole block: of its steps, each by its share of the work. */
function slownessRatio({ steps, paces, factors }: TableContext): number {
  let ratio = 0;
  for (let k = 0; k < steps.length; k++) ratio += (steps[k]?.workShare ?? 0) * (paces[k] ?? 1) * (factors[k] ?? 1);
  return ratio;
}

function contingency(context: TableContext, plannedMin: number): number {
  const { session } = context.work.block;
  if (session !== null) return session.makeSafeMin;
  return Math.max(context.settings.contingencyShare * plannedMin, context.settings.contingencyLeastMin);
}

function fillSpans(context: TableContext, contingencyMin: number, i: number): SlotSpan[] {
  const { slotMin } = context.conditions.course.grid;
  const { work, paces, factors, fromSlots, toSlots } = context;
  let fromMin = 0;
  return context.steps.map(({ workShare }, k) => {
    const lengthMin = work.workMin * workShare * (paces[k] ?? 1) * (factors[k] ?? 1);
    const toMin = fromMin + lengthMin + (k === 0 ? work.resumeMin : 0);
    const fromSlot = i + Math.floor(fromMin / slotMin + 1e-6);
    const toSlot = i + Math.ceil((toMin + contingencyMin) / slotMin - 1e-6);
    fromSlots[k] = fromSlot;
    toSlots[k] = toSlot;
    fromMin = toMin;
    return { fromSlot, toSlot };
  });
}

interface Start {
  readonly i: number;
  /** Planned minutes and contingency. */
  readonly allowedMin: number;
}

function markScenarios(context: TableContext, table: BlockTable, start: Start): void {
  const { scenarioCount } = context.conditions.weather;
  const { weights } = context.settings;
  const mayOutrun = slowestMinutes(context) > start.allowedMin + 1e-6;
  let weight = 0;
  for (let word = 0; word < table.wordCount; word++) {
    const first = word * 32;
    const end = Math.min(scenarioCount, first + 32);
    let bits = 0;
    for (let w = first; w < end; w++) {
      if (!holds(context, w)) continue;
      if (mayOutrun && ownMinutes(context, start.i, w) > start.allowedMin + 1e-6) continue;
      bits |= 1 << (w - first);
      weight += weights[w] ?? 0;
    }
    table.masks[start.i * table.wordCount + word] = bits >>> 0;
  }
  table.weight[start.i] = weight;
}

/** Whether no known limit of any step is broken in scenario w during its span. */
function holds({ steps, conditions, fromSlots, toSlots }: TableContext, w: number): boolean {
  const first = w * conditions.weather.pointCount;
  for (let k = 0; k < steps.length; k++) {
    const nextSlot = steps[k]?.scan.nextBroken[first + (fromSlots[k] ?? 0)] ?? 0;
    if (nextSlot <= (toSlots[k] ?? 0)) return false;
  }
  return true;
}

/**
 * How long scenario w would take at its own pace. Work in sessions has no core to outrun: slower stitching means fewer
 * stitches, which the sum of sessions provides for, so the same share of delay is allowed as for a core.
 */
function ownMinutes(context: TableContext, i: number, w: number): number {
  const { weather } = context.conditions;
  const { steps, factors } = context;
  const at = w * weather.pointCount + i;
  const own = {
    deckWindKn: context.deck.meanKn[at] ?? Number.NaN,
    seaHeightM: weather.seaHeightM[at] ?? Number.NaN,
    trueWindKn: weather.windKn[at] ?? Number.NaN,
  };
  let ratio = 0;
  for (let k = 0; k < steps.length; k++) {
    const step = steps[k];
    if (step !== undefined) ratio += step.workShare * paceRatio(step.pace, own) * (factors[k] ?? 1);
  }
  return minutesAt(context, ratio);
}

/** How long the worst scenario can take. */
function slowestMinutes(context: TableContext): number {
  let ratio = 0;
  for (let k = 0; k < context.steps.length; k++)
    ratio += (context.steps[k]?.workShare ?? 0) * MOST_PACE_RATIO * (context.factors[k] ?? 1);
  return minutesAt(context, ratio);
}

function minutesAt({ work, settings }: TableContext, ratio: number): number {
  const minutesMin = work.resumeMin + work.workMin * ratio;
  return work.block.session === null ? minutesMin : minutesMin / (1 + settings.contingencyShare);
}

function unknownIn({ steps, fromSlots, toSlots }: TableContext): number {
  let bits = 0;
  for (const [k, { scan }] of steps.entries()) {
    const toSlot = toSlots[k] ?? 0;
    for (let i = scan.nextUnknown[fromSlots[k] ?? 0] ?? toSlot + 1; i <= toSlot;) {
      bits |= scan.unknownBits[i] ?? 0;
      i = scan.nextUnknown[i + 1] ?? toSlot + 1;
    }
  }
  return bits >>> 0;
}
