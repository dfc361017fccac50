/** How coarsely values may be written. */
import type { GribMessageSpec } from '../../grib/index.ts';
import type { MatchedField } from '../match-field.ts';
import { GREATEST_ERRORS, WIND_DIRECTION_ERRORS } from './precision.table.ts';
import type { CutPrecision } from './request.ts';

/** D and E of the message: values are kept to 2^E · 10^-D, and are off by half of that at most. */
export type CutScale = Required<Pick<GribMessageSpec, 'decimalScaleFactor' | 'binaryScaleFactor'>>;

/** Values are 2^E · 10^-D apart. */
const distanceOf = ({ decimalScaleFactor, binaryScaleFactor }: CutScale): number =>
  2 ** binaryScaleFactor * Number(`1e${-decimalScaleFactor}`);

/** Coarsest first: between 8 · 10^6 and 10^-9 of the parameter's unit. */
const SCALES: readonly CutScale[] = Array.from({ length: 16 }, (_, i) => i - 6)
  .flatMap((decimalScaleFactor) => [0, 1, 2, 3].map((binaryScaleFactor) => ({ decimalScaleFactor, binaryScaleFactor })))
  .toSorted((a, b) => distanceOf(b) - distanceOf(a));

/**
 * The coarsest scale that keeps a parameter within the precision.
 *
 * @param coded.factorRatio what values are multiplied with when the parameter is translated
 */
export function scaleFor(
  found: MatchedField,
  precision: CutPrecision,
  coded: { readonly factorRatio: number },
): CutScale {
  const allowed = greatestErrorOf(found, precision) / ourUnitsPerWritten(found, coded);
  const scale = SCALES.find((one) => distanceOf(one) <= 2 * allowed * (1 + 1e-9));
  if (scale === undefined) throw new Error(`no scale keeps ${found.row.quantity} within ${allowed}`);
  return scale;
}

/** Error that a scale makes at most, in the unit of the quantity. */
export const errorOfScale = (found: MatchedField, scale: CutScale, coded: { readonly factorRatio: number }): number =>
  (distanceOf(scale) / 2) * ourUnitsPerWritten(found, coded);

const greatestErrorOf = ({ row }: MatchedField, precision: CutPrecision): number =>
  row.quantity === 'wind' && row.part === 'direction'
    ? WIND_DIRECTION_ERRORS[precision]
    : GREATEST_ERRORS[row.quantity][precision];

/** Conversions are linear: from the unit of the message to that of the quantity; those with bounds hold from 0 to 1. */
const ourUnitsPerWritten = ({ row }: MatchedField, { factorRatio }: { readonly factorRatio: number }): number =>
  (row.toUnit(1) - row.toUnit(0)) / factorRatio;
