/**
 * Which GRIB parameters mean which quantity.
 *
 * Edition 2: WMO-No. 306, Manual on Codes, vol. I.2, code tables 4.2.0.x, 4.2.10.x and 4.5 (surfaces), tables versions 30
 * to 36; 192 and up are local to the centre named. Edition 1: code tables 2 and 3 of FM 92-VIII (numbers below 128, and
 * 130, 157 and 180 of NCEP's table 2) and the local tables 128, 140 and 228 of ECMWF. Order within a quantity is order of
 * preference.
 *
 * Left out on purpose: wave heights, periods and directions of wind sea, of swell and of its partitions (not the whole
 * sea); barotropic and mixed-layer currents (not the surface); skin temperature (not the water's); currents as speed and
 * direction (10/1/0, 10/1/1, 47, 48), whose table does not say whether the direction is to or from.
 */
import { cFromK, hpaFromPa, knFromMps } from '../units/index.ts';
import type { QuantityId } from './quantity.ts';

/**
 * Which part of its quantity a parameter is. `direction` is always where wind or waves come FROM; `dewPoint` [°C] becomes
 * humidity with the air temperature of its hour.
 */
export type Part = 'single' | 'u' | 'v' | 'speed' | 'direction' | 'dewPoint';

/** How the values relate to time; `sum` and `rate` are made mm/h, each over its own interval. */
export type Reading = 'instant' | 'maximum' | 'sum' | 'mean-rate' | 'rate';

/** A level, or a layer when `secondTypeCode` is given: type of code table 4.5 (edition 2) or 3 (edition 1). */
export interface SurfaceRule {
  readonly edition: 1 | 2;
  readonly typeCode: number;
  /** In the unit of the surface, where 0 and no value are the same; null: any. */
  readonly value: number | null;
  readonly secondTypeCode: number | null;
}

export interface ParameterRow {
  readonly quantity: QuantityId;
  readonly part: Part;
  readonly reading: Reading;
  /** What distinguishes this row from others of the quantity; shown to the user. */
  readonly variant: string;
  /** `2: discipline/category/number`, `1: table/number` with table `wmo` for the international one. */
  readonly codes: readonly string[];
  /** Centre whose local table it is; null: international. */
  readonly centreCode: number | null;
  /** Empty: any surface. */
  readonly surfaces: readonly SurfaceRule[];
  readonly toUnit: (n: number) => number;
  /** Interval where the message itself writes an instant: hours before it, or all of the run; null: take the message's. */
  readonly impliedIntervalH: number | 'run' | null;
}

const same = (n: number): number => n;
const nmFromM = (distanceM: number): number => distanceM / 1852;
/** Packing, and some models over ice or in fog, go a little past 0 and 100. */
const percentWithinBounds = (n: number): number => Math.min(100, Math.max(0, n));
const ratioFromPercent = (n: number): number => n / 100;
/** kg m⁻² of water is 1 mm. */
const mmPerHFromMmPerS = (n: number): number => n * 3600;
const mmFromM = (heightM: number): number => heightM * 1000;

const level = (edition: 1 | 2, typeCode: number, value: number | null = null): SurfaceRule => ({
  edition,
  typeCode,
  value,
  secondTypeCode: null,
});
const layer = (typeCode: number, secondTypeCode: number): SurfaceRule => ({
  edition: 2,
  typeCode,
  value: null,
  secondTypeCode,
});

/** Height above ground: type 103 in edition 2, 105 [m] and 125 [cm] in edition 1, where 103 is above the sea and 105 hybrid in edition 2. */
const aboveGround = (heightM: number): readonly SurfaceRule[] => [
  level(2, 103, heightM),
  level(1, 105, heightM),
  level(1, 125, 100 * heightM),
];
const tenMetres = aboveGround(10);
const twoMetres = aboveGround(2);
const surface = [level(2, 1), level(1, 1)];
/** Mean sea level: 101 in edition 2, 102 in edition 1. */
const seaLevel = [level(2, 101), level(1, 102)];
/** Altitude 0 and the surface, for what the parameter itself puts at sea level. */
const seaLevelByName = [...seaLevel, level(2, 102, 0), ...surface];
/** Surface of the sea, by centre: ground or water surface, mean sea level, no depth below sea or water. */
const seaSurface = [...surface, ...seaLevel, level(2, 160, 0), level(1, 160, 0), level(2, 161, 0)];
/** All of the atmosphere: as one surface, from the surface to the top, or centre 7's and edition 1's type 200. */
const wholeAtmosphere = [...surface, level(2, 10), layer(1, 8), level(2, 200), level(1, 200)];
const anySurface: readonly SurfaceRule[] = [];

const defaults = {
  reading: 'instant',
  centreCode: null,
  surfaces: anySurface,
  toUnit: same,
  impliedIntervalH: null,
} as const;
const NCEP = 7;
const DWD = 78;
const ECMWF = 98;
const DEW_POINT = 'from dew point and air temperature at 2 m';

/** Rows that differ only in the part. */
const parts = (
  row: Omit<ParameterRow, 'part' | 'codes' | 'toUnit'> & { toUnit?: ParameterRow['toUnit'] },
  codesByPart: Partial<Record<Part, readonly string[]>>,
): readonly ParameterRow[] =>
  (['single', 'u', 'v', 'speed', 'direction', 'dewPoint'] as const).flatMap((part) => {
    const codes = codesByPart[part];
    if (codes === undefined) return [];
    const toUnit = part === 'direction' ? same : (row.toUnit ?? same);
    return [{ ...row, part, codes, toUnit }];
  });

const windParts = (surfaces: readonly SurfaceRule[], variant: string): readonly ParameterRow[] =>
  parts(
    { ...defaults, quantity: 'wind', variant, surfaces, toUnit: knFromMps },
    { u: ['2: 0/2/2', '1: wmo/33'], v: ['2: 0/2/3', '1: wmo/34'] },
  );

const windPolar = (surfaces: readonly SurfaceRule[], variant: string): readonly ParameterRow[] =>
  parts(
    { ...defaults, quantity: 'wind', variant, surfaces, toUnit: knFromMps },
    { speed: ['2: 0/2/1', '1: wmo/32'], direction: ['2: 0/2/0', '1: wmo/31'] },
  );

export const PARAMETER_ROWS: readonly ParameterRow[] = [
  ...windParts(tenMetres, 'components at 10 m'),
  ...parts(
    { ...defaults, quantity: 'wind', variant: 'components at 10 m, local table', centreCode: ECMWF, toUnit: knFromMps },
    { u: ['1: 128/165'], v: ['1: 128/166'] },
  ),
  ...windPolar(tenMetres, 'speed and direction at 10 m'),
  // Wave models write the 10 m wind that drives them on the surface.
  ...windParts(surface, 'components of a wave model'),
  ...windPolar(surface, 'speed and direction of a wave model'),
  ...parts(
    {
      ...defaults,
      quantity: 'wind',
      variant: 'speed and direction of a wave model, local table',
      centreCode: ECMWF,
      toUnit: knFromMps,
    },
    { speed: ['1: 140/245'], direction: ['1: 140/249'] },
  ),

  ...parts(
    {
      ...defaults,
      quantity: 'gust',
      reading: 'maximum',
      variant: 'highest of the interval',
      surfaces: [...tenMetres, ...surface],
      toUnit: knFromMps,
    },
    { single: ['2: 0/2/22'] },
  ),
  ...parts(
    {
      ...defaults,
      quantity: 'gust',
      reading: 'maximum',
      variant: 'highest of the interval',
      centreCode: NCEP,
      toUnit: knFromMps,
    },
    { single: ['1: wmo/180'] },
  ),
  ...parts(
    {
      ...defaults,
      quantity: 'gust',
      reading: 'maximum',
      variant: 'highest of 3 hours',
      centreCode: ECMWF,
      toUnit: knFromMps,
      impliedIntervalH: 3,
    },
    { single: ['1: 228/28'] },
  ),
  ...parts(
    {
      ...defaults,
      quantity: 'gust',
      reading: 'maximum',
      variant: 'highest of 6 hours',
      centreCode: ECMWF,
      toUnit: knFromMps,
      impliedIntervalH: 6,
    },
    { single: ['1: 128/123'] },
  ),
  // Interval of unknown length unless the message writes one.
  ...parts(
    {
      ...defaults,
      quantity: 'gust',
      reading: 'maximum',
      variant: 'highest since the step before',
      centreCode: ECMWF,
      toUnit: knFromMps,
    },
    { single: ['1: 128/49'] },
  ),
  ...parts(
    {
      ...defaults,
      quantity: 'gust',
      variant: 'instantaneous',
      surfaces: [...tenMetres, ...surface],
      toUnit: knFromMps,
    },
    { single: ['2: 0/2/22'] },
  ),
  ...parts(
    { ...defaults, quantity: 'gust', variant: 'instantaneous', centreCode: NCEP, toUnit: knFromMps },
    { single: ['1: wmo/180'] },
  ),
  ...parts(
    { ...defaults, quantity: 'gust', variant: 'instantaneous', centreCode: ECMWF, toUnit: knFromMps },
    { single: ['1: 228/29'] },
  ),

  ...parts(
    { ...defaults, quantity: 'seaHeight', variant: 'wind sea and swell', surfaces: seaSurface },
    { single: ['2: 10/0/3', '1: wmo/100'] },
  ),
  ...parts(
    { ...defaults, quantity: 'seaHeight', variant: 'wind sea and swell', centreCode: ECMWF },
    { single: ['1: 140/229'] },
  ),

  ...parts({ ...defaults, quantity: 'wavePeriod', variant: 'peak', surfaces: seaSurface }, { single: ['2: 10/0/34'] }),
  ...parts({ ...defaults, quantity: 'wavePeriod', variant: 'peak', centreCode: ECMWF }, { single: ['1: 140/231'] }),
  ...parts(
    { ...defaults, quantity: 'wavePeriod', variant: 'primary', surfaces: seaSurface },
    { single: ['2: 10/0/11', '1: wmo/108'] },
  ),
  // The energy period, of moments −1 and 0 of the spectrum.
  ...parts(
    { ...defaults, quantity: 'wavePeriod', variant: 'mean (energy period)', centreCode: DWD, surfaces: seaSurface },
    { single: ['2: 10/0/15'] },
  ),
  ...parts({ ...defaults, quantity: 'wavePeriod', variant: 'mean', surfaces: seaSurface }, { single: ['2: 10/0/15'] }),
  ...parts({ ...defaults, quantity: 'wavePeriod', variant: 'mean', centreCode: ECMWF }, { single: ['1: 140/232'] }),
  ...parts(
    { ...defaults, quantity: 'wavePeriod', variant: 'mean of frequencies', surfaces: seaSurface },
    { single: ['2: 10/0/25'] },
  ),
  ...parts(
    { ...defaults, quantity: 'wavePeriod', variant: 'mean of frequencies', centreCode: ECMWF },
    { single: ['1: 140/220'] },
  ),
  ...parts(
    { ...defaults, quantity: 'wavePeriod', variant: 'zero-crossing', surfaces: seaSurface },
    { single: ['2: 10/0/28'] },
  ),
  ...parts(
    { ...defaults, quantity: 'wavePeriod', variant: 'zero-crossing', centreCode: ECMWF },
    { single: ['1: 140/221'] },
  ),

  ...parts(
    { ...defaults, quantity: 'waveDirection', variant: 'mean', surfaces: seaSurface },
    { direction: ['2: 10/0/14'] },
  ),
  ...parts(
    { ...defaults, quantity: 'waveDirection', variant: 'mean', centreCode: ECMWF },
    { direction: ['1: 140/230'] },
  ),
  ...parts(
    { ...defaults, quantity: 'waveDirection', variant: 'primary', surfaces: seaSurface },
    { direction: ['2: 10/0/10', '1: wmo/107'] },
  ),
  ...parts(
    { ...defaults, quantity: 'waveDirection', variant: 'peak', surfaces: seaSurface },
    { direction: ['2: 10/0/46'] },
  ),

  ...parts(
    { ...defaults, quantity: 'pressure', variant: 'reduced to sea level', surfaces: seaLevelByName, toUnit: hpaFromPa },
    { single: ['2: 0/3/1', '1: wmo/2'] },
  ),
  // Pressure, which is that of the surface named: on mean sea level only.
  ...parts(
    { ...defaults, quantity: 'pressure', variant: 'reduced to sea level', surfaces: seaLevel, toUnit: hpaFromPa },
    { single: ['2: 0/3/0', '1: wmo/1'] },
  ),
  ...parts(
    {
      ...defaults,
      quantity: 'pressure',
      variant: 'reduced to sea level, Eta reduction',
      centreCode: NCEP,
      surfaces: seaLevel,
      toUnit: hpaFromPa,
    },
    { single: ['2: 0/3/192', '1: wmo/130'] },
  ),
  ...parts(
    { ...defaults, quantity: 'pressure', variant: 'reduced to sea level', centreCode: ECMWF, toUnit: hpaFromPa },
    { single: ['1: 128/151'] },
  ),

  ...parts(
    { ...defaults, quantity: 'rain', reading: 'sum', variant: 'sums', surfaces: surface },
    { single: ['2: 0/1/8', '2: 0/1/52', '2: 0/1/7', '2: 0/1/49', '1: wmo/61'] },
  ),
  ...parts(
    { ...defaults, quantity: 'rain', reading: 'sum', variant: 'sums in metres', centreCode: ECMWF, toUnit: mmFromM },
    { single: ['2: 0/1/193'] },
  ),
  // Summed from the start of the run, though the message may write the end alone.
  ...parts(
    {
      ...defaults,
      quantity: 'rain',
      reading: 'sum',
      variant: 'sums in metres',
      centreCode: ECMWF,
      toUnit: mmFromM,
      impliedIntervalH: 'run',
    },
    { single: ['1: 128/228'] },
  ),
  ...parts(
    { ...defaults, quantity: 'rain', reading: 'sum', variant: 'sums', centreCode: ECMWF, impliedIntervalH: 'run' },
    { single: ['1: 228/228'] },
  ),
  ...parts(
    {
      ...defaults,
      quantity: 'rain',
      reading: 'mean-rate',
      variant: 'mean rates',
      surfaces: surface,
      toUnit: mmPerHFromMmPerS,
    },
    { single: ['2: 0/1/7', '2: 0/1/52', '1: wmo/59'] },
  ),
  ...parts(
    { ...defaults, quantity: 'rain', reading: 'rate', variant: 'rates', surfaces: surface, toUnit: mmPerHFromMmPerS },
    { single: ['2: 0/1/7', '2: 0/1/52', '1: wmo/59'] },
  ),

  ...parts(
    { ...defaults, quantity: 'air', variant: 'at 2 m', surfaces: twoMetres, toUnit: cFromK },
    { single: ['2: 0/0/0', '1: wmo/11'] },
  ),
  ...parts(
    { ...defaults, quantity: 'air', variant: 'at 2 m', centreCode: ECMWF, toUnit: cFromK },
    { single: ['1: 128/167'] },
  ),

  ...parts(
    { ...defaults, quantity: 'humidity', variant: 'at 2 m', surfaces: twoMetres, toUnit: percentWithinBounds },
    { single: ['2: 0/1/1', '1: wmo/52'] },
  ),
  ...parts(
    { ...defaults, quantity: 'humidity', variant: DEW_POINT, surfaces: twoMetres, toUnit: cFromK },
    { dewPoint: ['2: 0/0/6', '1: wmo/17'] },
  ),
  ...parts(
    { ...defaults, quantity: 'humidity', variant: DEW_POINT, centreCode: ECMWF, toUnit: cFromK },
    { dewPoint: ['1: 128/168'] },
  ),

  ...parts(
    { ...defaults, quantity: 'seaWater', variant: 'at the surface', surfaces: seaSurface, toUnit: cFromK },
    { single: ['2: 10/3/0', '1: wmo/80'] },
  ),
  ...parts(
    { ...defaults, quantity: 'seaWater', variant: 'at the surface', centreCode: ECMWF, toUnit: cFromK },
    { single: ['1: 128/34'] },
  ),

  ...parts(
    { ...defaults, quantity: 'cape', variant: 'from the surface', surfaces: [...surface, layer(1, 8)] },
    { single: ['2: 0/7/6'] },
  ),
  ...parts(
    { ...defaults, quantity: 'cape', variant: 'from the surface', centreCode: NCEP, surfaces: surface },
    { single: ['1: wmo/157'] },
  ),
  ...parts(
    {
      ...defaults,
      quantity: 'cape',
      variant: 'of the most unstable parcel',
      surfaces: [level(2, 17)],
    },
    { single: ['2: 0/7/6'] },
  ),
  ...parts(
    { ...defaults, quantity: 'cape', variant: 'of a mixed layer', surfaces: [level(2, 18)] },
    { single: ['2: 0/7/6'] },
  ),
  ...parts(
    { ...defaults, quantity: 'cape', variant: 'of a mixed layer', centreCode: DWD, surfaces: [level(2, 192)] },
    { single: ['2: 0/7/6'] },
  ),
  ...parts(
    { ...defaults, quantity: 'cape', variant: 'from the surface', centreCode: ECMWF },
    { single: ['1: 128/59'] },
  ),

  ...parts(
    { ...defaults, quantity: 'visibility', variant: 'at the surface', surfaces: surface, toUnit: nmFromM },
    { single: ['2: 0/19/0', '1: wmo/20'] },
  ),

  ...parts(
    {
      ...defaults,
      quantity: 'cloud',
      variant: 'total',
      surfaces: wholeAtmosphere,
      toUnit: ratioFromPercent,
    },
    { single: ['2: 0/6/1', '1: wmo/71'] },
  ),
  // Shares of 0 to 1.
  ...parts(
    { ...defaults, quantity: 'cloud', variant: 'total', centreCode: ECMWF, surfaces: wholeAtmosphere },
    { single: ['2: 0/6/192'] },
  ),
  ...parts({ ...defaults, quantity: 'cloud', variant: 'total', centreCode: ECMWF }, { single: ['1: 128/164'] }),

  ...parts(
    { ...defaults, quantity: 'current', variant: 'at the surface', surfaces: seaSurface, toUnit: knFromMps },
    { u: ['2: 10/1/2', '1: wmo/49'], v: ['2: 10/1/3', '1: wmo/50'] },
  ),
  ...parts(
    {
      ...defaults,
      quantity: 'current',
      variant: 'at the surface, eastward and northward',
      surfaces: seaSurface,
      toUnit: knFromMps,
    },
    { u: ['2: 10/3/14', '2: 10/1/5'], v: ['2: 10/3/15', '2: 10/1/6'] },
  ),
];
