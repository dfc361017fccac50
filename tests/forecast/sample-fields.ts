import {
  buildForecast,
  buildScenarioSet,
  type CoursePoints,
  type Forecast,
  type ScenarioSetOptions,
} from '../../lib/forecast/index.ts';
import {
  type GribMessageSpec,
  writeGrib2Message,
  type WrittenGrid,
  type WrittenValidity,
} from '../../lib/grib/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';

const BASE_EPOCH_MS = Date.UTC(2026, 4, 27, 0);
export const atH = (stepH: number): number => BASE_EPOCH_MS + stepH * MS_PER_H;

/** 5 × 4 points over the date line, 36 S to 33 S, 178 E to 178 W. */
export const GRID: WrittenGrid = {
  ni: 5,
  nj: 4,
  first: { lat: -36, lon: 178 },
  iIncrementDeg: 1,
  jIncrementDeg: 1,
  scanningMode: 64,
};

/** Codes and surfaces of WMO-No. 306, tables 4.2 and 4.5. */
const KINDS = {
  u: [0, 2, 2, 103, 10],
  v: [0, 2, 3, 103, 10],
  speed: [0, 2, 1, 1, null],
  fromDirection: [0, 2, 0, 1, null],
  gust: [0, 2, 22, 1, null],
  seaHeight: [10, 0, 3, 1, null],
  peakPeriod: [10, 0, 34, 1, null],
  meanPeriod: [10, 0, 15, 1, null],
  waveFrom: [10, 0, 14, 1, null],
  pressure: [0, 3, 1, 101, null],
  rainSum: [0, 1, 8, 1, null],
  rainRateOrSum: [0, 1, 52, 1, null],
  air: [0, 0, 0, 103, 2],
  humidity: [0, 1, 1, 103, 2],
  dewPoint: [0, 0, 6, 103, 2],
  seaWater: [10, 3, 0, 1, null],
  visibility: [0, 19, 0, 1, null],
} as const;
export type Kind = keyof typeof KINDS;

export interface Field {
  readonly kind: Kind;
  /** Steps from the base: one for an instant, two for an interval. */
  readonly stepsH: readonly [number] | readonly [number, number];
  readonly statistic?: 'maximum' | 'accumulation' | 'average';
  readonly value: number | ((lat: number, lon: number) => number);
  readonly member?: number;
  readonly isControl?: boolean;
  readonly baseH?: number;
  readonly grid?: WrittenGrid;
  readonly centre?: number;
  readonly decimals?: number;
}

/** One field as a GRIB message. */
export function message(field: Field): Uint8Array {
  const [discipline, category, number, typeCode, level] = KINDS[field.kind];
  const grid = field.grid ?? GRID;
  const ensemble: GribMessageSpec['ensemble'] =
    field.member === undefined && field.isControl === undefined
      ? undefined
      : { typeCode: field.isControl === true ? 1 : 3, perturbationNumber: field.member ?? 0, memberCount: 3 };
  return writeGrib2Message({
    parameter: { discipline, category, number },
    level: { first: { typeCode, value: level }, second: null },
    referenceEpochMs: atH(field.baseH ?? 0),
    validity: validityOf(field),
    ...(ensemble === undefined ? {} : { ensemble }),
    grid,
    values: valuesOf(grid, field.value),
    decimalScaleFactor: field.decimals ?? 3,
    centre: field.centre ?? 7,
  });
}

function validityOf(field: Field): WrittenValidity {
  const baseH = field.baseH ?? 0;
  const [firstH, lastH] = field.stepsH;
  if (lastH === undefined) return { kind: 'instant', validEpochMs: atH(baseH + firstH) };
  const statistic = field.statistic ?? 'maximum';
  return { kind: 'interval', startEpochMs: atH(baseH + firstH), endEpochMs: atH(baseH + lastH), statistic };
}

function valuesOf(grid: WrittenGrid, value: Field['value']): Float64Array {
  return Float64Array.from({ length: grid.ni * grid.nj }, (_, index) => {
    const lat = grid.first.lat + Math.floor(index / grid.ni) * grid.jIncrementDeg * (grid.scanningMode === 64 ? 1 : -1);
    const lon = grid.first.lon + (index % grid.ni) * grid.iIncrementDeg;
    return typeof value === 'number' ? value : value(lat, lon);
  });
}

/** Messages one after another. */
export function fileOf(...messages: readonly Uint8Array[]): Uint8Array {
  return Uint8Array.from(messages.flatMap((octets) => [...octets]));
}

/** Both wind components [m/s] of one instant. */
export const wind = (stepH: number, u: Field['value'], v: Field['value'], more: Partial<Field> = {}): Uint8Array[] => [
  message({ ...more, kind: 'u', stepsH: [stepH], value: u }),
  message({ ...more, kind: 'v', stepsH: [stepH], value: v }),
];

/** A forecast of messages; throws with the problems when there is none. */
export function forecastOf(...messages: readonly Uint8Array[]): Forecast {
  const built = buildForecast([{ name: 'sample.grib2', bytes: fileOf(...messages) }]);
  if (!built.ok) throw new Error(JSON.stringify(built.problems));
  return built.value;
}

const optionsOf = (more: Partial<ScenarioSetOptions> = {}): ScenarioSetOptions => ({
  errorModel: 'none',
  purpose: 'planning',
  seed: 1,
  spreadInflationRatio: 1,
  gustRatio: 1.3,
  ...more,
});

export const setOf = (forecast: Forecast, more: Partial<ScenarioSetOptions> = {}) =>
  buildScenarioSet(forecast, optionsOf(more));

/** Course points from [step h, lat, lon]. */
export function coursePoints(...points: readonly (readonly [number, number, number])[]): CoursePoints {
  return {
    epochMs: Float64Array.from(points, ([stepH]) => atH(stepH)),
    lat: Float64Array.from(points, ([, lat]) => lat),
    lon: Float64Array.from(points, ([, , lon]) => lon),
  };
}

/** Whether two values differ by at most `tolerance`, or both are missing. */
export function isWithin(tolerance: number, value: number | undefined, expected: number): boolean {
  if (value === undefined) return false;
  return Number.isNaN(expected) ? Number.isNaN(value) : Math.abs(value - expected) <= tolerance;
}
