/** A cut beside the files it was made of: what both say at the same places and hours. */
import { readFileSync } from 'node:fs';
import {
  buildForecast,
  cutForecast,
  type CutForecast,
  type CutRequest,
  type Forecast,
  type QuantityId,
  type Reading,
  seriesAt,
  type SeriesKey,
} from '../../lib/forecast/index.ts';
import type { Position } from '../../lib/geo/index.ts';
import { uvFromWind } from '../../lib/units/index.ts';
import { fileOf, message, wind } from './sample-fields.ts';

export interface File {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export const goldenFile = (name: string): File => ({
  name,
  bytes: new Uint8Array(readFileSync(new URL(`../golden/${name}`, import.meta.url))),
});

/** The cut; throws with the problems when there is none. */
export function cutOf(files: readonly File[], request: CutRequest): CutForecast {
  const cut = cutForecast(files, request);
  if (!cut.ok) throw new Error(JSON.stringify(cut.problems));
  return cut.value;
}

/** Codes of the problems of a cut that must be refused. */
export function refusalOf(files: readonly File[], request: CutRequest): readonly string[] {
  const cut = cutForecast(files, request);
  return cut.ok ? ['not refused'] : cut.problems.map(({ code }) => code);
}

const builtBefore = new Map<string, Forecast>();

/** The forecast of files whose names tell them apart; built once. */
function built(files: readonly File[]): Forecast {
  const key = files.map(({ name }) => name).join();
  const known = builtBefore.get(key);
  if (known !== undefined) return known;
  const forecast = buildForecast(files);
  if (!forecast.ok) throw new Error(JSON.stringify(forecast.problems));
  builtBefore.set(key, forecast.value);
  return forecast.value;
}

export function builtOf({ bytes }: Pick<CutForecast, 'bytes'>): Forecast {
  const forecast = buildForecast([{ name: 'cut.grib2', bytes }]);
  if (!forecast.ok) throw new Error(JSON.stringify(forecast.problems));
  return forecast.value;
}

/** Keys of a series that read one number of one quantity; directions are compared with their speeds. */
const KEY_OF: Partial<Record<SeriesKey, QuantityId>> = {
  gustKn: 'gust',
  seaHeightM: 'seaHeight',
  wavePeriodS: 'wavePeriod',
  pressureHpa: 'pressure',
  rainMmPerH: 'rain',
  airC: 'air',
  humidityPercent: 'humidity',
  seaWaterC: 'seaWater',
  capeJPerKg: 'cape',
  visibilityNm: 'visibility',
};

export interface Compared {
  readonly whole: Forecast;
  readonly cut: Forecast;
  /** Greatest error of rounding by quantity, as the summary tells it. */
  readonly errors: ReadonlyMap<QuantityId, number>;
}

export function compared(files: readonly File[], request: CutRequest): Compared {
  const cut = cutOf(files, request);
  const errors = new Map(cut.summary.kept.map(({ quantity, greatestError }) => [quantity, greatestError.value]));
  return { whole: built(files), cut: builtOf(cut), errors };
}

/**
 * Readings at a place that differ by more than the summary allows, or are there in one of both only; and how many values
 * were compared. Rain that comes as sums is off by two roundings in the shortest interval of 3 h.
 */
export function differencesAt(
  { whole, cut, errors }: Compared,
  at: {
    readonly position: Position;
    readonly fromEpochMs: number;
    readonly toEpochMs: number;
    readonly everyMin: number;
  },
): { readonly differing: readonly string[]; readonly comparedCount: number } {
  const [before, after] = [seriesAt(whole, at), seriesAt(cut, at)];
  const pairs = before.flatMap(({ readings }, i) => {
    const others = after[i]?.readings ?? [];
    return [...singlePairs(readings, others, errors), ...windPairs(readings, others, errors)];
  });
  const present = pairs.filter(({ own, its }) => own !== null || its !== null);
  const differing = present.filter(
    ({ own, its, allowed }) => !(own !== null && its !== null && Math.abs(own - its) <= allowed),
  );
  const place = `at ${at.position.lat} ${at.position.lon}`;
  return {
    differing: differing.map(({ key, own, its }) => `${key} ${own} ${its} ${place}`),
    comparedCount: present.length,
  };
}

/** A value of the files, the same of the cut, and by how much they may differ. */
interface Pair {
  readonly key: string;
  readonly own: number | null;
  readonly its: number | null;
  readonly allowed: number;
}

/** Values are kept in single precision. */
const allowedBy = (error: number): number => error * 1.001 + 1e-3;

function singlePairs(readings: readonly Reading[], others: readonly Reading[], errors: Compared['errors']): Pair[] {
  return readings.flatMap(({ key, control, members }) => {
    const quantity = KEY_OF[key];
    const error = quantity === undefined ? undefined : errors.get(quantity);
    if (error === undefined) return [];
    const other = others.find((reading) => reading.key === key);
    const allowed = allowedBy(quantity === 'rain' ? (2 * error) / 3 : error);
    const spread = (['p10', 'p50', 'p90'] as const).map((quantile) => ({
      key,
      own: members?.[quantile] ?? null,
      its: other?.members?.[quantile] ?? null,
      allowed,
    }));
    return [{ key, own: control, its: other?.control ?? null, allowed }, ...spread];
  });
}

/** The wind of the control run, component by component. */
function windPairs(readings: readonly Reading[], others: readonly Reading[], errors: Compared['errors']): Pair[] {
  const error = errors.get('wind');
  if (error === undefined) return [];
  const [own, its] = [windOf(readings), windOf(others)];
  return (['u', 'v'] as const).map((key) => ({
    key,
    own: own?.[key] ?? null,
    its: its?.[key] ?? null,
    allowed: allowedBy(error),
  }));
}

function windOf(readings: readonly Reading[]) {
  const valueOf = (key: SeriesKey): number | null => readings.find((reading) => reading.key === key)?.control ?? null;
  const [speed, fromDegTrue] = [valueOf('windKn'), valueOf('windFromDegTrue')];
  return speed === null || fromDegTrue === null ? null : uvFromWind({ speed, fromDegTrue });
}

/** A swell of values that no plane or straight line fits. */
const rough =
  (mean: number, amplitude: number) =>
  (lat: number, lon: number): number =>
    mean + amplitude * Math.sin(2.3 * lat + 1.7 * lon) * Math.cos(0.9 * lat - 2.1 * lon);

/** Control and three members, 0 to 12 h every 3 h, over the date line, rows from the north or from the south. */
export function sampleFile(scanningMode: 0 | 64): File {
  const known = sampleFiles.get(scanningMode);
  if (known !== undefined) return known;
  const file = writtenSample(scanningMode);
  sampleFiles.set(scanningMode, file);
  return file;
}

const sampleFiles = new Map<number, File>();

function writtenSample(scanningMode: 0 | 64): File {
  const grid = {
    ni: 31,
    nj: 25,
    first: { lat: scanningMode === 64 ? -42 : -30, lon: 172 },
    iIncrementDeg: 0.5,
    jIncrementDeg: 0.5,
    scanningMode,
  };
  const runs = [{ isControl: true }, { member: 1 }, { member: 2 }, { member: 3 }];
  const messages = runs.flatMap((run, k) =>
    [0, 3, 6, 9, 12].flatMap((stepH) => [
      ...wind(stepH, rough(3 + stepH / 3 + k, 8), rough(-2 - k, 9), { ...run, grid }),
      message({ ...run, grid, kind: 'seaHeight', stepsH: [stepH], value: rough(2 + stepH / 10, 1.1) }),
      message({ ...run, grid, kind: 'pressure', stepsH: [stepH], value: rough(101_300 + 30 * stepH, 900) }),
      ...(stepH === 0
        ? []
        : [
            message({ ...run, grid, kind: 'gust', stepsH: [stepH - 3, stepH], value: rough(14 + k + stepH, 5) }),
            message({
              ...run,
              grid,
              kind: 'rainSum',
              stepsH: [0, stepH],
              statistic: 'accumulation',
              value: rough(stepH, 2),
            }),
          ]),
    ]),
  );
  return { name: `sample-${scanningMode}.grib2`, bytes: fileOf(...messages) };
}
