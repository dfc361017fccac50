/**
 * Parameters of edition 2 for what is read from edition 1: WMO-No. 306, Manual on Codes, vol. I.2, code tables 4.2 and 4.5.
 *
 * Amounts in metres (ECMWF) become kg m-2, shares of cloud per cent. The first entry that fits is used.
 */
import type { Part, Reading } from '../quantities.table.ts';
import type { QuantityId } from '../quantity.ts';

export interface Edition2Target {
  readonly quantity: QuantityId;
  readonly part: Part;
  /** Null: any. */
  readonly reading: Reading | null;
  /** Beginning of the row's variant; empty: any. */
  readonly variant: string;
  /** Centre whose table the row belongs to; null: any. */
  readonly centreCode: number | null;
  /** Discipline, category, number. */
  readonly parameter: readonly [number, number, number];
  /** Code table 4.5, and the value in its unit. */
  readonly surface: { readonly typeCode: number; readonly value: number | null };
  /** Values of edition 1 times this are those of edition 2. */
  readonly factorRatio: number;
}

const surface = { typeCode: 1, value: null };
const seaLevel = { typeCode: 101, value: null };
const wholeAtmosphere = { typeCode: 10, value: null };
const above = (heightM: number) => ({ typeCode: 103, value: heightM });
const ECMWF = 98;

const target = (
  quantity: QuantityId,
  parameter: readonly [number, number, number],
  at: Edition2Target['surface'],
  more: Partial<Edition2Target> = {},
): Edition2Target => ({
  quantity,
  part: 'single',
  reading: null,
  variant: '',
  centreCode: null,
  parameter,
  surface: at,
  factorRatio: 1,
  ...more,
});

export const EDITION_2_TARGETS: readonly Edition2Target[] = [
  target('wind', [0, 2, 2], above(10), { part: 'u', variant: 'components at 10 m' }),
  target('wind', [0, 2, 3], above(10), { part: 'v', variant: 'components at 10 m' }),
  target('wind', [0, 2, 2], surface, { part: 'u' }),
  target('wind', [0, 2, 3], surface, { part: 'v' }),
  target('wind', [0, 2, 1], above(10), { part: 'speed', variant: 'speed and direction at 10 m' }),
  target('wind', [0, 2, 0], above(10), { part: 'direction', variant: 'speed and direction at 10 m' }),
  target('wind', [0, 2, 1], surface, { part: 'speed' }),
  target('wind', [0, 2, 0], surface, { part: 'direction' }),
  target('gust', [0, 2, 22], above(10), { centreCode: ECMWF }),
  target('gust', [0, 2, 22], surface),
  target('seaHeight', [10, 0, 3], surface),
  target('wavePeriod', [10, 0, 34], surface, { variant: 'peak' }),
  target('wavePeriod', [10, 0, 11], surface, { variant: 'primary' }),
  target('wavePeriod', [10, 0, 25], surface, { variant: 'mean of frequencies' }),
  target('wavePeriod', [10, 0, 28], surface, { variant: 'zero-crossing' }),
  target('wavePeriod', [10, 0, 15], surface, { variant: 'mean' }),
  target('waveDirection', [10, 0, 10], surface, { part: 'direction', variant: 'primary' }),
  target('waveDirection', [10, 0, 14], surface, { part: 'direction', variant: 'mean' }),
  target('pressure', [0, 3, 1], seaLevel),
  target('rain', [0, 1, 8], surface, { reading: 'sum', variant: 'sums in metres', factorRatio: 1000 }),
  target('rain', [0, 1, 8], surface, { reading: 'sum' }),
  target('rain', [0, 1, 7], surface),
  target('air', [0, 0, 0], above(2)),
  target('humidity', [0, 1, 1], above(2)),
  target('humidity', [0, 0, 6], above(2), { part: 'dewPoint' }),
  target('seaWater', [10, 3, 0], surface),
  target('cape', [0, 7, 6], surface),
  target('visibility', [0, 19, 0], surface),
  target('cloud', [0, 6, 1], wholeAtmosphere, { centreCode: ECMWF, factorRatio: 100 }),
  target('cloud', [0, 6, 1], wholeAtmosphere),
  target('current', [10, 1, 2], surface, { part: 'u' }),
  target('current', [10, 1, 3], surface, { part: 'v' }),
];
