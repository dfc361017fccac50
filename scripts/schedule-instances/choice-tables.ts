/** Tables of a choice from the weather: where it is inside the limits, what it costs in exposure. */
import type { ChoiceTable } from '../../lib/schedule/index.ts';
import { type InstanceSpec, isLight, slotCountOf, slotHours } from './instance-spec.ts';
import type { SyntheticWeather } from './synthetic-weather.ts';
import type { Handling, TaskKind } from './task-kinds.table.ts';

/** A gust over this share of the wind limit ends the window as the mean wind over the limit does. */
const GUST_RATIO = 1.25;
const GUST_LIMIT_RATIO = 1.35;
/** Wind or sea above this share of its limit counts as exposure, by its square. */
const EXPOSED_ABOVE_RATIO = 0.5;
const POINTS_PER_EXPOSED_H = 40;

/** What is the same for every duration of a kind of task in a handling. */
export interface Strain {
  /** By member: first slot from here on that breaks a limit, `[lag * slotCount + slot]`. */
  readonly nextBad: readonly Int32Array[];
  /** By member: exposure summed from slot 0, `[lag * (slotCount + 1) + slot]`. */
  readonly exposure: readonly Float64Array[];
}

export function strainOf(kind: TaskKind, handling: Handling, spec: InstanceSpec, weather: SyntheticWeather): Strain {
  const members = weather.windKn.map((wind, member) =>
    memberStrain(kind, handling, spec, { wind, sea: weather.waveM[member] ?? new Float64Array(0) }),
  );
  return { nextBad: members.map(({ nextBad }) => nextBad), exposure: members.map(({ exposure }) => exposure) };
}

function memberStrain(
  kind: TaskKind,
  handling: Handling,
  spec: InstanceSpec,
  { wind, sea }: { wind: Float64Array; sea: Float64Array },
): { nextBad: Int32Array; exposure: Float64Array } {
  const slotCount = slotCountOf(spec);
  const nextBad = new Int32Array(spec.lagCount * slotCount);
  const exposure = new Float64Array(spec.lagCount * (slotCount + 1));
  const windShare = (cell: number): number =>
    ((wind[cell] ?? 0) * handling.windRatio) / (kind.windLimitKn * spec.limitRatio);
  const seaShare = (cell: number): number =>
    ((sea[cell] ?? 0) * handling.seaRatio) / (kind.waveLimitM * spec.limitRatio);
  for (let lag = 0; lag < spec.lagCount; lag++) {
    let bad = slotCount;
    for (let t = slotCount - 1; t >= 0; t--) {
      const cell = lag * slotCount + t;
      const wetShare = windShare(cell);
      const isFine = wetShare <= 1 && wetShare * GUST_RATIO <= GUST_LIMIT_RATIO && seaShare(cell) <= 1;
      if (!isFine || (kind.needsLight && !isLight(t, spec))) bad = t;
      nextBad[cell] = bad;
    }
    for (let t = 0; t < slotCount; t++) {
      const cell = lag * slotCount + t;
      const over = Math.max(0, Math.max(windShare(cell), seaShare(cell)) - EXPOSED_ABOVE_RATIO);
      const at = lag * (slotCount + 1) + t;
      exposure[at + 1] = (exposure[at] ?? 0) + over * over;
    }
  }
  return { nextBad, exposure };
}

/** How long a choice takes: laying out, which no weather stops, then the work. */
export interface Stretch {
  readonly layOutSlots: number;
  readonly workSlots: number;
  /** Quanta lost from one instant to another. */
  lostQuanta(fromSlot: number, toSlot: number): number;
}

export function choiceTable(strain: Strain, spec: InstanceSpec, stretch: Stretch): ChoiceTable {
  const slotCount = slotCountOf(spec);
  const cellCount = spec.lagCount * slotCount;
  const table = {
    durationSlots: new Uint16Array(cellCount),
    costPoints: new Int32Array(cellCount),
    lossQuanta: new Int16Array(cellCount),
    masks: Array.from({ length: Math.ceil(spec.memberCount / 32) }, () => new Int32Array(cellCount)),
  };
  const totalSlots = stretch.layOutSlots + stretch.workSlots;
  for (let lag = 0; lag < spec.lagCount; lag++) {
    for (let t = 0; t + totalSlots <= slotCount; t++) {
      const cell = lag * slotCount + t;
      const place = { lag, fromSlot: t + stretch.layOutSlots, toSlot: t + totalSlots };
      fillMask(table.masks, cell, strain.nextBad, { ...place, slotCount });
      table.durationSlots[cell] = totalSlots;
      table.costPoints[cell] = exposurePoints(strain.exposure, spec, place);
      table.lossQuanta[cell] = stretch.lostQuanta(t, t + totalSlots);
    }
  }
  return table;
}

interface Place {
  readonly lag: number;
  readonly fromSlot: number;
  readonly toSlot: number;
}

function fillMask(
  masks: readonly Int32Array[],
  cell: number,
  nextBad: readonly Int32Array[],
  { lag, fromSlot, toSlot, slotCount }: Place & { slotCount: number },
): void {
  for (const [member, bad] of nextBad.entries()) {
    if ((bad[lag * slotCount + fromSlot] ?? 0) < toSlot) continue;
    const word = masks[member >> 5];
    if (word !== undefined) word[cell] = (word[cell] ?? 0) | (1 << (member & 31));
  }
}

/** Mean exposure over the members. */
function exposurePoints(
  exposure: readonly Float64Array[],
  spec: InstanceSpec,
  { lag, fromSlot, toSlot }: Place,
): number {
  const row = lag * (slotCountOf(spec) + 1);
  let sum = 0;
  for (const summed of exposure) sum += (summed[row + toSlot] ?? 0) - (summed[row + fromSlot] ?? 0);
  return Math.round((POINTS_PER_EXPOSED_H * slotHours(spec) * sum) / exposure.length);
}
