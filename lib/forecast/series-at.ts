import type { Position } from '../geo/index.ts';
import { MS_PER_MIN } from '../time/index.ts';
import { windFromUv, wrap360Deg } from '../units/index.ts';
import type { Forecast } from './forecast.ts';
import type { Series } from './frame.ts';
import { CONTROL_ID } from './match-field.ts';
import { QUANTITIES, type QuantityId } from './quantity.ts';
import { askedPoints, type AskedPoints, samplePair, sampleSingle } from './sample-series.ts';

/** Columns of a series and their units. */
const SERIES_UNITS = {
  windKn: 'kn',
  windFromDegTrue: '° true, from',
  gustKn: 'kn',
  seaHeightM: 'm',
  wavePeriodS: 's',
  waveFromDegTrue: '° true, from',
  pressureHpa: 'hPa',
  rainMmPerH: 'mm/h',
  airC: '°C',
  humidityPercent: '%',
  seaWaterC: '°C',
  capeJPerKg: 'J/kg',
  visibilityNm: 'nm',
  cloudShare: 'share',
  currentKn: 'kn',
  currentTowardDegTrue: '° true, toward',
} as const;
export type SeriesKey = keyof typeof SERIES_UNITS;

/** Values at one instant; null: the forecast does not hold it there. */
export interface Reading {
  readonly key: SeriesKey;
  readonly unit: string;
  /** Control run, or a forecast that is no ensemble. */
  readonly control: number | null;
  /** Quantiles over the members that hold it; null for directions and without members. */
  readonly members: { readonly p10: number; readonly p50: number; readonly p90: number } | null;
}

export interface SeriesRow {
  readonly epochMs: number;
  /** In the order of `SERIES_UNITS`, of the quantities held. */
  readonly readings: readonly Reading[];
}

/** Where and when to read. */
export interface SeriesQuestion {
  readonly position: Position;
  readonly fromEpochMs: number;
  readonly toEpochMs: number;
  readonly everyMin: number;
}

/** All quantities a forecast holds at one place, from an instant to another, both included. */
export function seriesAt(forecast: Forecast, question: SeriesQuestion): readonly SeriesRow[] {
  const epochMs = instantsOf(question);
  const asked = askedPoints({
    epochMs,
    lat: new Float64Array(epochMs.length).fill(question.position.lat),
    lon: new Float64Array(epochMs.length).fill(question.position.lon),
  });
  const columns = QUANTITIES.flatMap(({ id }) => columnsOf(asked, id, forecast.series.get(id) ?? new Map()));
  return Array.from(epochMs, (at, i) => ({
    epochMs: at,
    readings: columns.map((one) => readingAt(one, i)),
  }));
}

function instantsOf({ fromEpochMs, toEpochMs, everyMin }: SeriesQuestion): Float64Array {
  if (!(everyMin > 0 && toEpochMs >= fromEpochMs))
    throw new Error('a series needs a step above 0 and an end after its start');
  const count = Math.floor((toEpochMs - fromEpochMs) / (everyMin * MS_PER_MIN)) + 1;
  return Float64Array.from({ length: count }, (_, i) => fromEpochMs + i * everyMin * MS_PER_MIN);
}

interface Column {
  readonly key: SeriesKey;
  readonly control: Float32Array | null;
  readonly members: readonly Float32Array[];
}

const SINGLE_KEYS: Readonly<Partial<Record<QuantityId, SeriesKey>>> = {
  gust: 'gustKn',
  seaHeight: 'seaHeightM',
  wavePeriod: 'wavePeriodS',
  pressure: 'pressureHpa',
  rain: 'rainMmPerH',
  air: 'airC',
  humidity: 'humidityPercent',
  seaWater: 'seaWaterC',
  cape: 'capeJPerKg',
  visibility: 'visibilityNm',
  cloud: 'cloudShare',
};

function columnsOf(asked: AskedPoints, id: QuantityId, members: ReadonlyMap<string, Series>): Column[] {
  if (members.size === 0) return [];
  const key = SINGLE_KEYS[id];
  if (key !== undefined) return [column(key, members, (series) => sampleSingle(asked, series, asked.points.epochMs))];
  const speeds = (series: Series): Float32Array => Float32Array.from(windsOf(asked, series), ({ speed }) => speed);
  // Waves are stored as vectors pointing where they come from, a current as its own velocity: both are read backward.
  const turnDeg = id === 'wind' ? 0 : 180;
  const directions = (series: Series): Float32Array =>
    Float32Array.from(windsOf(asked, series), ({ fromDegTrue }) => wrap360Deg(fromDegTrue + turnDeg));
  if (id === 'waveDirection') return [controlOnly('waveFromDegTrue', members, directions)];
  return id === 'wind'
    ? [column('windKn', members, speeds), controlOnly('windFromDegTrue', members, directions)]
    : [column('currentKn', members, speeds), controlOnly('currentTowardDegTrue', members, directions)];
}

function windsOf(asked: AskedPoints, series: Series): { speed: number; fromDegTrue: number }[] {
  const { u, v } = samplePair(asked, series, asked.points.epochMs);
  return Array.from(u, (east, i) => windFromUv(east, v[i] ?? Number.NaN));
}

function column(
  key: SeriesKey,
  members: ReadonlyMap<string, Series>,
  sample: (series: Series) => Float32Array,
): Column {
  const perturbed = [...members].filter(([id]) => id !== CONTROL_ID).map(([, series]) => sample(series));
  return { ...controlOnly(key, members, sample), members: perturbed };
}

function controlOnly(
  key: SeriesKey,
  members: ReadonlyMap<string, Series>,
  sample: (series: Series) => Float32Array,
): Column {
  const control = members.get(CONTROL_ID);
  return { key, control: control === undefined ? null : sample(control), members: [] };
}

function readingAt(from: Column, i: number): Reading {
  const values = from.members.map((member) => member[i] ?? Number.NaN).filter((value) => !Number.isNaN(value));
  const sorted = values.toSorted((a, b) => a - b);
  return {
    key: from.key,
    unit: SERIES_UNITS[from.key],
    control: known(from.control?.[i]),
    members:
      sorted.length < 2 ? null : { p10: quantile(sorted, 0.1), p50: quantile(sorted, 0.5), p90: quantile(sorted, 0.9) },
  };
}

const known = (value: number | undefined): number | null => (value === undefined || Number.isNaN(value) ? null : value);

/** Quantile of sorted values, linear between order statistics (type 7 of Hyndman & Fan 1996, The American Statistician 50). */
function quantile(sorted: readonly number[], probability: number): number {
  const place = probability * (sorted.length - 1);
  const lower = sorted[Math.floor(place)] ?? Number.NaN;
  const upper = sorted[Math.ceil(place)] ?? Number.NaN;
  return lower + (upper - lower) * (place - Math.floor(place));
}
