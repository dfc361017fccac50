/** Second-order packing of grid-point values: edition 1, and the local templates 5.50001 and 5.50002 of edition 2. */
import type { Problem } from '../../../result/index.ts';
import { countPresent, spread } from '../../bitmap.ts';
import type { MessagePlace } from '../../problems.ts';
import { turnLines } from './boustrophedon.ts';
import { unpackClassic } from './classic.ts';
import { unpackExtendedEdition1 } from './edition-1.ts';
import {
  FLAGS_OCTET,
  isBoustrophedonicEdition2,
  isConstant,
  secondOrderObstacleEdition2,
  unpackExtendedEdition2,
} from './edition-2.ts';
import { readExtendedFlags, secondOrderObstacleEdition1 } from './extended-flags.ts';
import type { SecondOrderEdition1, SecondOrderEdition2 } from './source.ts';

export { secondOrderObstacleEdition1, secondOrderObstacleEdition2 };
export type { SecondOrderEdition1, SecondOrderEdition2 };

/**
 * Fills `values`, one for each grid point in the order of the file, with the whole numbers X of a field of edition 1, NaN where
 * the bitmap masks the point. They are not yet scaled: value = (R + X · 2^E) / 10^D.
 *
 * @param source Section 4 of a field whose octet 4 says grid-point values and second-order packing
 * @returns null; or the problem: `secondOrderObstacleEdition1`, or sections whose octets do not agree. `values` then holds
 *   nothing of use.
 */
export function unpackSecondOrderEdition1(
  place: MessagePlace,
  source: SecondOrderEdition1,
  values: Float64Array,
): Problem | null {
  const { data } = source;
  const obstacle = secondOrderObstacleEdition1(place, data);
  if (obstacle !== null) return obstacle;
  const flags = readExtendedFlags(data);
  const unpackInto = (numbers: Float64Array): Problem | null =>
    flags.isExtended
      ? unpackExtendedEdition1(place, source, { order: flags.order, numbers })
      : unpackClassic(place, { source, flags, pointCount: values.length }, numbers);
  const fault = unpackThroughBitmap(place, source, { values, unpackInto });
  if (fault !== null || !flags.isBoustrophedonic) return fault;
  return turnLines(place, source, { numbers: values, flagAt: { section: data, octet: 14 } });
}

/**
 * The same for a field of edition 2 in template 5.50001 or 5.50002. A constant field, of 0 bits, is all zeros.
 *
 * @param source Section 5 in `representation`, Section 7 in `data`, Section 6 in `bitmap`
 */
export function unpackSecondOrderEdition2(
  place: MessagePlace,
  source: SecondOrderEdition2,
  values: Float64Array,
): Problem | null {
  const { representation } = source;
  const obstacle = secondOrderObstacleEdition2(place, representation);
  if (obstacle !== null) return obstacle;
  const isZero = isConstant(representation);
  const unpackInto = (numbers: Float64Array): Problem | null => {
    if (!isZero) return unpackExtendedEdition2(place, source, numbers);
    numbers.fill(0);
    return null;
  };
  const fault = unpackThroughBitmap(place, source, { values, unpackInto });
  if (fault !== null || isZero || !isBoustrophedonicEdition2(representation)) return fault;
  return turnLines(place, source, { numbers: values, flagAt: { section: representation, octet: FLAGS_OCTET } });
}

/** Unpacks numbers of the points that have one into the end of `values`, and spreads them. */
function unpackThroughBitmap(
  place: MessagePlace,
  { bitmap }: SecondOrderEdition1,
  into: { readonly values: Float64Array; readonly unpackInto: (numbers: Float64Array) => Problem | null },
): Problem | null {
  const { values, unpackInto } = into;
  if (bitmap === null) return unpackInto(values);
  const presentCount = countPresent(place, bitmap, values.length);
  if (typeof presentCount !== 'number') return presentCount;
  const fault = presentCount === 0 ? null : unpackInto(values.subarray(values.length - presentCount));
  if (fault === null) spread(bitmap, values, presentCount);
  return fault;
}
