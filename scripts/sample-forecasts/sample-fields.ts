/** What the sample files hold, field by field, in the codes and units of WMO-No. 306, Manual on Codes, Volume I.2. */
import type { GribMessageSpec, Level } from '../../lib/grib/index.ts';
import { mpsFromKn, uvFromWind, wrap360Deg } from '../../lib/units/index.ts';
import type { SamplePoint } from './sample-grid.ts';
import type { PatternWeather } from './weather-pattern.ts';

/** The weather at a point at the end of a step, and what the interval that ends then brought. */
export interface PointStep {
  readonly point: SamplePoint;
  readonly atEnd: PatternWeather;
  readonly highestGustKn: number;
  readonly rainMm: number;
}

/** One kind of field. */
export interface SampleField {
  readonly name: string;
  readonly parameter: GribMessageSpec['parameter'];
  readonly level: Level;
  /** Over the interval since the step before, or at an instant. */
  readonly statistic: 'maximum' | 'accumulation' | null;
  readonly decimalScaleFactor: number;
  /** Wave models know nothing of land. */
  readonly isOfSea: boolean;
  readonly valueOf: (step: PointStep) => number;
}

const level = (typeCode: number, value: number | null): Level => ({ first: { typeCode, value }, second: null });
const above10M = level(103, 10);
const above2M = level(103, 2);
const surface = level(1, null);
const meanSeaLevel = level(101, null);
const seaSurface = level(1, null);

const code = (discipline: number, category: number, number: number): GribMessageSpec['parameter'] => ({
  discipline,
  category,
  number,
});

const uvMps = ({ windKn, windFromDegTrue }: PatternWeather): { u: number; v: number } =>
  uvFromWind({ speed: mpsFromKn(windKn), fromDegTrue: windFromDegTrue });

const WIND_FIELDS: readonly SampleField[] = [
  {
    name: 'wind toward east at 10 m [m/s]',
    parameter: code(0, 2, 2),
    level: above10M,
    statistic: null,
    decimalScaleFactor: 1,
    isOfSea: false,
    valueOf: ({ atEnd }) => uvMps(atEnd).u,
  },
  {
    name: 'wind toward north at 10 m [m/s]',
    parameter: code(0, 2, 3),
    level: above10M,
    statistic: null,
    decimalScaleFactor: 1,
    isOfSea: false,
    valueOf: ({ atEnd }) => uvMps(atEnd).v,
  },
  {
    name: 'highest gust at 10 m [m/s]',
    parameter: code(0, 2, 22),
    level: above10M,
    statistic: 'maximum',
    decimalScaleFactor: 1,
    isOfSea: false,
    valueOf: ({ highestGustKn }) => mpsFromKn(highestGustKn),
  },
];

const SEA_HEIGHT: SampleField = {
  name: 'significant height of wind sea and swell [m]',
  parameter: code(10, 0, 3),
  level: seaSurface,
  statistic: null,
  decimalScaleFactor: 2,
  isOfSea: true,
  valueOf: ({ atEnd }) => atEnd.seaHeightM,
};

/** Every member. */
export const MEMBER_FIELDS: readonly SampleField[] = [...WIND_FIELDS, SEA_HEIGHT];

/** The control run. */
export const CONTROL_FIELDS: readonly SampleField[] = [
  ...MEMBER_FIELDS,
  {
    name: 'peak wave period [s]',
    parameter: code(10, 0, 34),
    level: seaSurface,
    statistic: null,
    decimalScaleFactor: 1,
    isOfSea: true,
    valueOf: ({ atEnd }) => atEnd.peakPeriodS,
  },
  {
    name: 'mean direction waves come from [degree true]',
    parameter: code(10, 0, 14),
    level: seaSurface,
    statistic: null,
    decimalScaleFactor: 0,
    isOfSea: true,
    valueOf: ({ atEnd }) => wrap360Deg(atEnd.waveFromDegTrue),
  },
  {
    name: 'pressure reduced to mean sea level [Pa]',
    parameter: code(0, 3, 1),
    level: meanSeaLevel,
    statistic: null,
    decimalScaleFactor: -1,
    isOfSea: false,
    valueOf: ({ atEnd }) => atEnd.pressureHpa * 100,
  },
  {
    name: 'total precipitation since the step before [kg/m2]',
    parameter: code(0, 1, 52),
    level: surface,
    statistic: 'accumulation',
    decimalScaleFactor: 2,
    isOfSea: false,
    valueOf: ({ rainMm }) => rainMm,
  },
  {
    name: 'air temperature at 2 m [K]',
    parameter: code(0, 0, 0),
    level: above2M,
    statistic: null,
    decimalScaleFactor: 1,
    isOfSea: false,
    valueOf: ({ atEnd }) => atEnd.airC + 273.15,
  },
  {
    name: 'sea temperature [K]',
    parameter: code(10, 3, 0),
    level: seaSurface,
    statistic: null,
    decimalScaleFactor: 1,
    isOfSea: true,
    valueOf: ({ point }) => seaWaterC(point) + 273.15,
  },
  {
    name: 'visibility [m]',
    parameter: code(0, 19, 0),
    level: surface,
    statistic: null,
    decimalScaleFactor: -2,
    isOfSea: false,
    valueOf: ({ atEnd }) => visibilityM(atEnd),
  },
];

/** Clear but for rain, which takes it down to some miles. */
function visibilityM({ rainMmPerH }: PatternWeather): number {
  const CLEAR_M = 30_000;
  return CLEAR_M / (1 + 3 * rainMmPerH ** 0.7);
}

/** Early winter; the same all week. */
function seaWaterC({ place }: SamplePoint): number {
  const AT_START_C = 17.3;
  const PER_DEG_NORTH_C = 0.55;
  return AT_START_C - PER_DEG_NORTH_C * place.southOfStartDeg;
}
