/**
 * Which GRIB parameters mean which quantity.
 *
 * Edition 2: WMO-No. 306, Manual on Codes, vol. I.2, code tables 4.2.0.x and 4.2.10.x and 4.5 (surfaces); 192 and up are
 * local to the centre named. Edition 1: code table 2 of FM 92 (numbers below 128, and 180 of NCEP's table 2) and the
 * local tables 128, 140 and 228 of ECMWF. Order within a quantity is order of preference.
 */
import { cFromK, hpaFromPa, knFromMps } from '../units/index.ts';
import type { QuantityId } from './quantity.ts';

/** Which part of its quantity a parameter is. `direction` is always where wind or waves come FROM. */
export type Part = 'single' | 'u' | 'v' | 'speed' | 'direction';

/** How the values relate to time; `sum` and `rate` are made mm/h, each over its own interval. */
export type Reading = 'instant' | 'maximum' | 'sum' | 'mean-rate' | 'rate';

export interface SurfaceRule {
  readonly typeCode: number;
  /** Height or depth in the unit of the surface; null: any. */
  readonly valueM: number | null;
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
  /** Interval where the message itself writes an instant, hours before it; null: take the message's. */
  readonly impliedIntervalH: number | null;
}

const same = (n: number): number => n;
const nmFromM = (distanceM: number): number => distanceM / 1852;
const ratioFromPercent = (n: number): number => n / 100;
/** kg m⁻² of water is 1 mm. */
const mmPerHFromMmPerS = (n: number): number => n * 3600;
const mmFromM = (heightM: number): number => heightM * 1000;

const METRES_ABOVE_GROUND_2 = 103;
const METRES_ABOVE_GROUND_1 = 105;
const tenMetres: readonly SurfaceRule[] = [
  { typeCode: METRES_ABOVE_GROUND_2, valueM: 10 },
  { typeCode: METRES_ABOVE_GROUND_1, valueM: 10 },
];
const twoMetres: readonly SurfaceRule[] = [
  { typeCode: METRES_ABOVE_GROUND_2, valueM: 2 },
  { typeCode: METRES_ABOVE_GROUND_1, valueM: 2 },
];
const surface: readonly SurfaceRule[] = [{ typeCode: 1, valueM: null }];
/** Edition 1 code 102 and edition 2 code 101: mean sea level. */
const seaLevel: readonly SurfaceRule[] = [
  { typeCode: 101, valueM: null },
  { typeCode: 102, valueM: null },
];
/** Surface of the sea, by centre: ground or water surface, mean sea level, depth below sea 0. */
const seaSurface: readonly SurfaceRule[] = [{ typeCode: 1, valueM: null }, ...seaLevel, { typeCode: 160, valueM: 0 }];
const anySurface: readonly SurfaceRule[] = [];

const defaults = {
  reading: 'instant',
  centreCode: null,
  surfaces: anySurface,
  toUnit: same,
  impliedIntervalH: null,
} as const;
const NCEP = 7;
const ECMWF = 98;

/** Rows that differ only in the part. */
const parts = (
  row: Omit<ParameterRow, 'part' | 'codes' | 'toUnit'> & { toUnit?: ParameterRow['toUnit'] },
  codesByPart: Partial<Record<Part, readonly string[]>>,
): readonly ParameterRow[] =>
  (['single', 'u', 'v', 'speed', 'direction'] as const).flatMap((part) => {
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
  ...parts({ ...defaults, quantity: 'wavePeriod', variant: 'mean', surfaces: seaSurface }, { single: ['2: 10/0/15'] }),
  ...parts({ ...defaults, quantity: 'wavePeriod', variant: 'mean', centreCode: ECMWF }, { single: ['1: 140/232'] }),

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
    { ...defaults, quantity: 'pressure', variant: 'reduced to sea level', surfaces: seaLevel, toUnit: hpaFromPa },
    { single: ['2: 0/3/1', '2: 0/3/0', '1: wmo/2'] },
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
    { single: ['2: 0/3/192'] },
  ),
  ...parts(
    { ...defaults, quantity: 'pressure', variant: 'reduced to sea level', centreCode: ECMWF, toUnit: hpaFromPa },
    { single: ['1: 128/151'] },
  ),

  ...parts(
    { ...defaults, quantity: 'rain', reading: 'sum', variant: 'sums', surfaces: surface },
    { single: ['2: 0/1/8', '2: 0/1/52', '1: wmo/61'] },
  ),
  ...parts(
    { ...defaults, quantity: 'rain', reading: 'sum', variant: 'sums in metres', centreCode: ECMWF, toUnit: mmFromM },
    { single: ['2: 0/1/193', '1: 128/228'] },
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
    { ...defaults, quantity: 'seaWater', variant: 'at the surface', surfaces: seaSurface, toUnit: cFromK },
    { single: ['2: 10/3/0', '1: wmo/80'] },
  ),
  ...parts(
    { ...defaults, quantity: 'seaWater', variant: 'at the surface', centreCode: ECMWF, toUnit: cFromK },
    { single: ['1: 128/34'] },
  ),

  ...parts({ ...defaults, quantity: 'cape', variant: 'from the surface', surfaces: surface }, { single: ['2: 0/7/6'] }),
  ...parts(
    { ...defaults, quantity: 'cape', variant: 'from the surface', centreCode: NCEP, surfaces: surface },
    { single: ['1: wmo/157'] },
  ),
  ...parts(
    {
      ...defaults,
      quantity: 'cape',
      variant: 'of the most unstable parcel',
      surfaces: [{ typeCode: 17, valueM: null }],
    },
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
      // Whole atmosphere: 10 in edition 2, 200 in edition 1 and in NCEP's edition 2.
      surfaces: [...surface, { typeCode: 10, valueM: null }, { typeCode: 200, valueM: null }],
      toUnit: ratioFromPercent,
    },
    { single: ['2: 0/6/1', '1: wmo/71'] },
  ),
  ...parts({ ...defaults, quantity: 'cloud', variant: 'total', centreCode: ECMWF }, { single: ['1: 128/164'] }),

  ...parts(
    { ...defaults, quantity: 'current', variant: 'at the surface', surfaces: seaSurface, toUnit: knFromMps },
    { u: ['2: 10/1/2', '1: wmo/49'], v: ['2: 10/1/3', '1: wmo/50'] },
  ),
];
