/** Bitmaps: Section 6 of edition 2, Section 3 (BMS) of edition 1. In both the bits begin at octet 7; 1 means a value is present. */
import type { Problem } from '../result/index.ts';
import { damaged, type MessagePlace } from './problems.ts';
import type { Section } from './section.ts';

const HEADER_OCTETS = 6;

/** Number of points with a value among the first `pointCount`, or the problem that the section is too short for them. */
export function countPresent(place: MessagePlace, section: Section, pointCount: number): number | Problem {
  const neededOctets = HEADER_OCTETS + Math.ceil(pointCount / 8);
  if (section.lengthOctets < neededOctets) return bitmapTooShort(place, section, neededOctets);
  let presentCount = 0;
  for (let i = 0; i < pointCount; i++) presentCount += bitAt(section, i);
  return presentCount;
}

/** Spreads packed values over the grid; masked-out points become NaN. The caller has compared the counts. */
export function spread(section: Section, packed: Float64Array, pointCount: number): Float64Array {
  const values = new Float64Array(pointCount);
  let next = 0;
  for (let i = 0; i < pointCount; i++) values[i] = bitAt(section, i) === 1 ? (packed[next++] ?? NaN) : NaN;
  return values;
}

const bitAt = (section: Section, bitIndex: number): number =>
  (section.view.getUint8(HEADER_OCTETS + (bitIndex >>> 3)) >> (7 - (bitIndex & 7))) & 1;

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
