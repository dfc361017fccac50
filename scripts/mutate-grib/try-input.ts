/** One input through the public door of the room: what it answers, and whether it keeps its promises. */
import {
  countMissing,
  decodePacked,
  decodePart,
  formatGrid,
  formatLevel,
  formatMember,
  formatPacking,
  formatParameter,
  formatValidity,
  type FramePart,
  type GribField,
  gridPositions,
  type NorthUpGrid,
  scanGrib,
  toNorthUpGrid,
} from '../../lib/grib/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { brokenPromise } from './problem-promises.ts';
import { tryForecast } from './try-forecast.ts';

/** What came of an input. */
export interface Attempt {
  /** Codes of all problems, each once; `decoded` where a field was decoded. */
  readonly codes: readonly string[];
  /** A promise broken, in words; null when all were kept. */
  readonly fault: string | null;
}

/** Fields of one input that are decoded, and their points together; the listing always covers all. */
const MOST_FIELDS = 12;
const MOST_POINTS = 40_000_000;
/** Larger grids are not placed. */
const MOST_PLACED_POINTS = 20_000;
/** No place lies beyond a pole, even where a corner is coded some thousandths of a degree beyond it. */
const MOST_LAT_DEG = 90;

/** Never throws: what the room throws is a fault. */
export function tryInput(bytes: Uint8Array): Attempt {
  const codes = new Set<string>();
  try {
    return { fault: faultOf(bytes, codes), codes: [...codes] };
  } catch (error) {
    const text = error instanceof Error ? (error.stack ?? error.message) : String(error);
    return { fault: `thrown: ${text.split('\n').slice(0, 4).join(' | ')}`, codes: [...codes] };
  }
}

/** Name under which an input is read. */
const FILE_NAME = 'mutant.grib';

/** Codes of the problems of one input, and the first promise that one of them broke. */
interface Told {
  readonly codes: Set<string>;
  fault: string | null;
}

function hear(told: Told, problems: readonly (Problem | null)[]): void {
  for (const problem of problems) {
    if (problem === null) continue;
    told.codes.add(problem.code);
    told.fault ??= brokenPromise(problem, FILE_NAME);
  }
}

function faultOf(bytes: Uint8Array, codes: Set<string>): string | null {
  const { fields, problems } = scanGrib(bytes, FILE_NAME);
  const told: Told = { codes, fault: null };
  hear(told, problems);
  let pointCount = 0;
  for (const field of fields.slice(0, MOST_FIELDS)) {
    putIntoWords(field);
    const { grid, packing, product } = field.obstacles;
    hear(told, [grid, packing, product]);
    pointCount += field.pointCount;
    if (pointCount > MOST_POINTS) break;
    const fault = fieldFault(bytes, field, told);
    if (fault !== null) return fault;
  }
  const forecast = tryForecast(bytes, FILE_NAME);
  hear(told, forecast?.problems ?? []);
  return told.fault ?? forecast?.fault ?? null;
}

const hasFewPoints = ({ pointCount }: GribField): boolean => pointCount <= MOST_PLACED_POINTS;

function putIntoWords(field: GribField): void {
  for (const format of [formatGrid, formatLevel, formatMember, formatPacking, formatParameter, formatValidity]) {
    format(field);
  }
}

function fieldFault(bytes: Uint8Array, field: GribField, told: Told): string | null {
  const values = decodePacked(bytes, field);
  if (!values.ok) {
    hear(told, values.problems);
    return hasFewPoints(field) && decodePart(bytes, field).ok ? 'refused as a whole, read as a part' : null;
  }
  told.codes.add('decoded');
  if (values.value.length !== field.pointCount) return `${values.value.length} values of ${field.pointCount} points`;
  const infinite = firstInfinite(values.value);
  if (infinite >= 0) return `value ${infinite} is ${values.value[infinite]}`;
  if (field.grid.kind === 'unsupported' || !hasFewPoints(field)) return null;
  const missingCount = values.value.reduce((count, value) => count + (Number.isNaN(value) ? 1 : 0), 0);
  if (countMissing(bytes, field) !== missingCount) return `${missingCount} values are missing, counted otherwise`;
  return placesFault(field.grid, values.value) ?? partFault(bytes, field, toNorthUpGrid(field.grid, values.value));
}

/** Index, or -1. A plain loop: grids may have millions of points. */
function firstInfinite(values: Float64Array): number {
  for (let i = 0; i < values.length; i++) if (Math.abs(values[i] ?? 0) === Infinity) return i;
  return -1;
}

function placesFault(grid: Exclude<GribField['grid'], { kind: 'unsupported' }>, values: Float64Array): string | null {
  const { lats, lons } = gridPositions(grid);
  if (lats.length !== values.length || lons.length !== values.length) {
    return `${lats.length} places of ${values.length} points`;
  }
  const astray = lats.findIndex(
    (lat, i) => !(Math.abs(lat) <= MOST_LAT_DEG) || !(Math.abs(lons[i] ?? Number.NaN) <= 180),
  );
  if (astray >= 0) return `point ${astray} of a ${grid.kind} grid lies at ${lats[astray]}, ${lons[astray]}`;
  return null;
}

/** The middle third read by itself: what stands there in the whole. */
function partFault(bytes: Uint8Array, field: GribField, whole: NorthUpGrid): string | null {
  const part: FramePart = {
    columnIndex: Math.floor(whole.columnCount / 3),
    rowIndex: Math.floor(whole.rowCount / 3),
    columnCount: Math.ceil(whole.columnCount / 3),
    rowCount: Math.ceil(whole.rowCount / 3),
  };
  const values = decodePart(bytes, field, { part });
  if (!values.ok) return `read as a whole, refused as a part: ${values.problems[0].what}`;
  const astray = values.value.findIndex((value, i) => {
    const column = part.columnIndex + (i % part.columnCount);
    const row = part.rowIndex + Math.floor(i / part.columnCount);
    return !Object.is(value, whole.values[row * whole.columnCount + column]);
  });
  return astray < 0 ? null : `value ${astray} of a part is not that of the whole`;
}
