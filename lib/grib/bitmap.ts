/** Bitmaps: Section 6 of edition 2, Section 3 (BMS) of edition 1. In both the bits begin at octet 7; 1 means a value is present. */
import type { Problem } from '../result/index.ts';
import { damaged, type MessagePlace } from './problems.ts';
import { octet1, type Section } from './section.ts';

const HEADER_OCTETS = 6;

/** Number of points with a value among the first `pointCount`, or the problem that the section is too short for them. */
export function countPresent(place: MessagePlace, section: Section, pointCount: number): number | Problem {
  const neededOctets = HEADER_OCTETS + Math.ceil(pointCount / 8);
  if (section.lengthOctets < neededOctets) return bitmapTooShort(place, section, neededOctets);
  const { bytes } = section;
  const firstIndex = section.startIndex + HEADER_OCTETS;
  const wholeOctets = pointCount >>> 3;
  let presentCount = 0;
  for (let i = 0; i < wholeOctets; i++) presentCount += ONES_IN_OCTET[bytes[firstIndex + i] ?? 0] ?? 0;
  for (let i = wholeOctets * 8; i < pointCount; i++) presentCount += bitAt(section, i);
  return presentCount;
}

/** Number of ones in each octet. */
const ONES_IN_OCTET = Uint8Array.from({ length: 256 }, (_, octet) => {
  let ones = 0;
  for (let bits = octet; bits > 0; bits >>>= 1) ones += bits & 1;
  return ones;
});

/**
 * Spreads packed values over the grid, in place: the packed values are the last `presentCount` of `values` and move forward
 * to their points; masked-out points become NaN. The caller has compared the counts. No value is overwritten before it
 * has moved, since a point never lies behind its packed value.
 */
export function spread(section: Section, values: Float64Array, presentCount: number): void {
  const { bytes } = section;
  const firstIndex = section.startIndex + HEADER_OCTETS;
  const pointCount = values.length;
  let next = pointCount - presentCount;
  for (let first = 0; first < pointCount; first += 8) {
    const octet = bytes[firstIndex + (first >>> 3)] ?? 0;
    const endIndex = first + 8 < pointCount ? first + 8 : pointCount;
    if (octet === 0) values.fill(NaN, first, endIndex);
    else if (octet === 0xff) for (let i = first; i < endIndex; i++) values[i] = values[next++] ?? NaN;
    else
      for (let i = first; i < endIndex; i++)
        values[i] = ((octet << (i & 7)) & 0x80) === 0 ? NaN : (values[next++] ?? NaN);
  }
}

const bitAt = (section: Section, bitIndex: number): number =>
  (octet1(section, HEADER_OCTETS + 1 + (bitIndex >>> 3)) >> (7 - (bitIndex & 7))) & 1;

/** `grib.bitmap-count`: the bitmap marks another number of points than there are values. */
export function countsDiffer(
  place: MessagePlace,
  section: Section,
  counts: { presentCount: number; packedCount: number },
): Problem {
  return damaged(place, {
    code: 'grib.bitmap-count',
    section,
    octet: HEADER_OCTETS + 1,
    what: `The bitmap marks ${counts.presentCount} points as present, but ${counts.packedCount} values are packed.`,
    expected: 'equal numbers',
  });
}

const bitmapTooShort = (place: MessagePlace, section: Section, neededOctets: number): Problem =>
  damaged(place, {
    code: 'grib.bitmap-count',
    section,
    octet: section.lengthOctets,
    what: `The bitmap has ${section.lengthOctets} octets.`,
    expected: `${neededOctets}, one bit for each grid point`,
  });
