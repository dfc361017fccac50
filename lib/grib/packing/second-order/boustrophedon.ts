/** Boustrophedonic order: every second line of the grid runs back. */
import type { Problem } from '../../../result/index.ts';
import { damaged, type MessagePlace, unsupported } from '../../problems.ts';
import { octet1, type Section } from '../../section.ts';
import type { SecondOrderEdition1 } from './source.ts';

/** An octet that says how lines are used. */
interface OctetPlace {
  readonly section: Section;
  readonly octet: number;
}

/**
 * Puts the numbers of a grid, laid in boustrophedonic order, into the order of the file, in place. The bitmap stands in the
 * order of the packed numbers too, so it must have been applied: masked points are NaN.
 *
 * @returns null; or the problem that the lines are not equally long, or that the bitmap seems to stand in another order
 */
export function turnLines(
  place: MessagePlace,
  { bitmap, linePointCount }: Pick<SecondOrderEdition1, 'bitmap' | 'linePointCount'>,
  from: { readonly numbers: Float64Array; readonly flagAt: OctetPlace },
): Problem | null {
  const { numbers, flagAt } = from;
  const length = lineLength(place, { linePointCount, pointCount: numbers.length }, flagAt);
  if (typeof length !== 'number') return length;
  turnEverySecondLine(numbers, length);
  return bitmap === null || isMaskInOrder(numbers, length) ? null : doubtfulBitmap(place, bitmap);
}

/** Points of each line; refuses grids whose lines are not equally long. */
export function lineLength(
  place: MessagePlace,
  { pointCount, linePointCount }: { readonly pointCount: number; readonly linePointCount: number | null },
  at: OctetPlace,
): number | Problem {
  if (linePointCount === null) {
    return unsupported(place, {
      code: 'grib.packing-unsupported',
      ...at,
      table: 'Second-order packing',
      value: octet1(at.section, at.octet),
      name: 'an order by rows on a grid whose rows are not equally long',
      expected: 'a grid with as many points in every row',
      remedy: 'Ask the source for this field on a regular latitude/longitude grid.',
    });
  }
  if (linePointCount > 0 && pointCount % linePointCount === 0) return linePointCount;
  return damaged(place, {
    code: 'grib.grid-inconsistent',
    ...at,
    what: `The grid has ${pointCount} points in rows of ${linePointCount}.`,
    expected: 'whole rows',
  });
}

function turnEverySecondLine(numbers: Float64Array, linePointCount: number): void {
  for (let start = linePointCount; start < numbers.length; start += 2 * linePointCount) {
    numbers.subarray(start, start + linePointCount).reverse();
  }
}

/**
 * Whether the mask, its second lines turned with the numbers, looks as a mask does: neighbours on adjacent lines differ
 * less often than they would with the lines as they stood. Encoders disagree: the common one writes the bitmap in the order
 * of the packed numbers, older ones write it in the order of the grid, and no flag tells the two apart. Masks that read the
 * same either way are in order.
 */
function isMaskInOrder(laid: Float64Array, linePointCount: number): boolean {
  let breakCount = 0;
  let turnedBreakCount = 0;
  let isSymmetric = true;
  for (let i = linePointCount; i < laid.length; i++) {
    const column = i % linePointCount;
    const lineStart = i - column;
    const isMissing = Number.isNaN(laid[i] ?? NaN);
    if (isMissing !== Number.isNaN(laid[i - linePointCount] ?? NaN)) breakCount += 1;
    if (isMissing !== Number.isNaN(laid[lineStart - 1 - column] ?? NaN)) turnedBreakCount += 1;
    const isSecondLine = (lineStart / linePointCount) % 2 === 1;
    const mirrored = laid[lineStart + linePointCount - 1 - column] ?? NaN;
    if (isSecondLine && isMissing !== Number.isNaN(mirrored)) isSymmetric = false;
  }
  return isSymmetric || breakCount < turnedBreakCount;
}

const doubtfulBitmap = (place: MessagePlace, bitmap: Section): Problem =>
  unsupported(place, {
    code: 'grib.bitmap-unsupported',
    section: bitmap,
    octet: 7,
    table: 'Order of the bitmap of a field in boustrophedonic order',
    value: octet1(bitmap, 7),
    name: 'a bitmap that seems to stand in the order of the grid, which the message does not say',
    expected: 'a bitmap in the order of the packed numbers',
    remedy: 'Ask the source for simple packing: missing points could come to lie in the wrong places.',
  });
