/** Decodes the chosen fields of one quantity and member into frames in Slatch's units. */
import type { GribField, GridFrame } from '../grib/index.ts';
import type { Problem, Result } from '../result/index.ts';
import { MS_PER_H } from '../time/index.ts';
import { uvFromWind } from '../units/index.ts';
import { groupBy } from './choose-fields.ts';
import type { Frame } from './frame.ts';
import { type GriddedValues, type GridShelf, onShelf } from './grid-shelf.ts';
import type { MatchedField } from './match-field.ts';
import { possibleValue } from './possible-values.table.ts';
import type { ParameterRow, Part } from './quantities.table.ts';
import { turnToTrue } from './true-vectors.ts';

/** Values of the part of a field that is kept. */
export type ValuesOf = (field: GribField) => Result<Float32Array>;

/** Values that can be no weather; they are made NaN. */
export interface ImpossibleValues {
  readonly fieldCount: number;
  readonly valueCount: number;
  /** One of them, in Slatch's unit; NaN where there is none. */
  readonly exampleN: number;
}

export const NONE_IMPOSSIBLE: ImpossibleValues = { fieldCount: 0, valueCount: 0, exampleN: Number.NaN };

export interface LoadedFrames {
  readonly impossible: ImpossibleValues;
  readonly frames: readonly Frame[];
  readonly problems: readonly Problem[];
  /** Grids of the files, before any cropping. */
  readonly wholeGrids: ReadonlySet<GridFrame>;
}

type Decoded = MatchedField & { readonly gridded: GriddedValues };

/** Frames in order of their end; parts without their partner are reported and left out. */
export function loadFrames(shelf: GridShelf, fields: readonly MatchedField[], valuesOf: ValuesOf): LoadedFrames {
  const problems: Problem[] = [];
  const decoded: Decoded[] = [];
  let impossible = NONE_IMPOSSIBLE;
  for (const found of fields) {
    const values = valuesOf(found.field);
    if (values.ok) {
      const gridded = onShelf(shelf, found.field, values.value);
      impossible = addImpossible(impossible, convert(found.row, gridded.values));
      decoded.push({ ...found, gridded });
    } else problems.push(...values.problems);
  }
  const isSum = fields[0]?.row.reading === 'sum';
  const frames = isSum ? ratesFromSums(decoded) : pairParts(shelf, decoded, problems);
  return {
    frames: frames.toSorted((a, b) => a.endEpochMs - b.endEpochMs || b.startEpochMs - a.startEpochMs),
    impossible,
    problems,
    wholeGrids: new Set(decoded.map((found) => found.gridded.whole)),
  };
}

/** Values to Slatch's unit, in place; what can be no weather becomes NaN. */
function convert(row: ParameterRow, values: Float32Array): ImpossibleValues {
  const possible = possibleValue(row);
  let [valueCount, exampleN] = [0, Number.NaN];
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? Number.NaN;
    const converted = possible(value);
    values[i] = converted;
    if (Number.isNaN(converted) && !Number.isNaN(value)) {
      if (valueCount === 0) exampleN = row.toUnit(value);
      valueCount += 1;
    }
  }
  return { fieldCount: valueCount > 0 ? 1 : 0, valueCount, exampleN };
}

export const addImpossible = (a: ImpossibleValues, b: ImpossibleValues): ImpossibleValues => ({
  fieldCount: a.fieldCount + b.fieldCount,
  valueCount: a.valueCount + b.valueCount,
  exampleN: a.valueCount > 0 ? a.exampleN : b.exampleN,
});

/** Brings the parts of each time together. */
function pairParts(shelf: GridShelf, decoded: readonly Decoded[], problems: Problem[]): Frame[] {
  const times = groupBy(decoded, (found) => `${found.startEpochMs} ${found.endEpochMs}`);
  return [...times.values()].flatMap((group) => {
    const frame = frameOf(shelf, new Map(group.map((found) => [found.row.part, found])));
    if (frame === null && group[0] !== undefined) problems.push(partMissing(group[0]));
    return frame === null ? [] : [frame];
  });
}

function frameOf(shelf: GridShelf, parts: ReadonlyMap<Part, Decoded>): Frame | null {
  const single = parts.get('single') ?? parts.get('dewPoint');
  if (single !== undefined) return toFrame(single, single.gridded.values, null);
  const [u, v] = [parts.get('u'), parts.get('v')];
  if (u !== undefined && v !== undefined && arePartners(u.gridded, v.gridded)) {
    const { grid, values, areVectorsGridRelative } = u.gridded;
    if (areVectorsGridRelative) turnToTrue(shelf.turns, grid, { x: values, y: v.gridded.values });
    return toFrame(u, values, v.gridded.values);
  }
  const [speed, direction] = [parts.get('speed'), parts.get('direction')];
  if (direction === undefined) return null;
  if (speed === undefined) return direction.row.quantity === 'waveDirection' ? unitVectors(direction) : null;
  return speed.gridded.grid === direction.gridded.grid ? components(speed, direction) : null;
}

/** On the same points, and pointing in the same sense. */
const arePartners = (u: GriddedValues, v: GriddedValues): boolean =>
  u.grid === v.grid && u.areVectorsGridRelative === v.areVectorsGridRelative;

const toFrame = (found: Decoded, first: Float32Array, second: Float32Array | null): Frame => ({
  startEpochMs: found.startEpochMs,
  endEpochMs: found.endEpochMs,
  grid: found.gridded.grid,
  first,
  second,
});

function components(speed: Decoded, direction: Decoded): Frame {
  const [first, second] = [speed.gridded.values, direction.gridded.values];
  for (let i = 0; i < first.length; i++) {
    const { u, v } = uvFromWind({ speed: first[i] ?? Number.NaN, fromDegTrue: second[i] ?? Number.NaN });
    first[i] = u;
    second[i] = v;
  }
  return toFrame(speed, first, second);
}

/** Unit vectors that point to where the waves come from, so that directions average across north. */
function unitVectors(direction: Decoded): Frame {
  const first = direction.gridded.values;
  const second = new Float32Array(first.length);
  for (let i = 0; i < first.length; i++) {
    const { u, v } = uvFromWind({ speed: -1, fromDegTrue: first[i] ?? Number.NaN });
    first[i] = u;
    second[i] = v;
  }
  return toFrame(direction, first, second);
}

/**
 * Rates [mm/h] from sums [mm]: sums that begin together are subtracted, so that each rate holds over the shortest
 * interval known. Packing leaves differences slightly below zero; they are zero.
 */
function ratesFromSums(decoded: readonly Decoded[]): Frame[] {
  const byStart = groupBy(decoded, (found) => `${found.startEpochMs} ${found.row.part}`);
  const rates = [...byStart.values()].flatMap((group) => {
    const sums = group.toSorted((a, b) => a.endEpochMs - b.endEpochMs);
    const lastOnGrid = new Map<GridFrame, Decoded>();
    return sums.map((sum) => {
      const earlier = lastOnGrid.get(sum.gridded.grid);
      lastOnGrid.set(sum.gridded.grid, sum);
      return rateAfter(sum, earlier);
    });
  });
  const once = groupBy(rates, (rate) => `${rate.startEpochMs} ${rate.endEpochMs}`);
  return [...once.values()].flatMap((same) => same.slice(0, 1));
}

function rateAfter(sum: Decoded, earlier: Decoded | undefined): Frame {
  const startEpochMs = earlier?.endEpochMs ?? sum.startEpochMs;
  const durationH = (sum.endEpochMs - startEpochMs) / MS_PER_H;
  const before = earlier?.gridded.values;
  const first = sum.gridded.values.map((total, i) => Math.max(0, total - (before?.[i] ?? 0)) / durationH);
  return { ...toFrame(sum, first, null), startEpochMs };
}

function partMissing(found: MatchedField): Problem {
  return {
    code: 'forecast.part-missing',
    where: `${found.field.fileName}, message ${found.field.messageNumber}`,
    what: `One component of the ${found.row.quantity} (${found.row.variant}) has no partner on the same grid at the same time.`,
    expected: 'both components, or speed and direction',
    remedy: 'This hour is left out. Ask for the forecast again with both components.',
  };
}
