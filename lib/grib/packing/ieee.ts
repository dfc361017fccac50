/** Template 5.4: floating-point numbers as they are, IEEE 754, most significant octet first. */
import type { Problem } from '../../result/index.ts';
import { viewForRuns } from '../bits.ts';
import { damaged, type MessagePlace, numberWords, tooShort, unsupported } from '../problems.ts';
import { octet1, type Section } from '../section.ts';
import { dataTooShort } from './simple.ts';

/** Octets of Section 5 in template 5.4. */
const REPRESENTATION_OCTETS = 12;
/** Octets of Section 7 before the numbers. */
const HEADER_OCTETS = 5;
/** Code table 5.7, octet 12: octets of each number. Numbers of 128 bits (3) have no place in a double. */
const NUMBER_OCTETS: ReadonlyMap<number, 4 | 8> = new Map([
  [1, 4],
  [2, 8],
]);

/** Sections 5 and 7 of a field. */
export interface IeeeData {
  readonly representation: Section;
  readonly data: Section;
}

/** Why a field in template 5.4 cannot be read; null when it can. `representation` is Section 5. */
export function ieeeObstacle(place: MessagePlace, representation: Section): Problem | null {
  const short = tooShort(place, representation, REPRESENTATION_OCTETS);
  if (short !== null) return short;
  const precision = octet1(representation, 12);
  if (NUMBER_OCTETS.has(precision)) return null;
  return unsupported(place, {
    code: 'grib.packing-unsupported',
    section: representation,
    octet: 12,
    table: 'GRIB2 code table 5.7 (precision of floating-point numbers)',
    value: precision,
    name: precision === 3 ? '128 bits' : 'reserved or missing',
    expected: '1 (32 bits) or 2 (64 bits)',
    remedy:
      'Ask the source for simple packing, or convert the file: grib_set -r -s packingType=grid_simple in.grib2 out.grib2.',
  });
}

/**
 * Fills `values`, as many as are packed.
 *
 * An infinity or a NaN makes the field damaged: the template has no mark for a missing value, which the bitmap is for, so such
 * a number is an error of the writer or of the transmission, and no one can tell which points beside it to trust.
 *
 * @returns null; or the problem: `ieeeObstacle`, `grib.data-too-short`, `grib.value-not-finite`
 */
export function unpackIeee(place: MessagePlace, field: IeeeData, values: Float64Array): Problem | null {
  const { representation, data } = field;
  const obstacle = ieeeObstacle(place, representation);
  if (obstacle !== null) return obstacle;
  const numberOctets = NUMBER_OCTETS.get(octet1(representation, 12)) ?? 4;
  if (HEADER_OCTETS + values.length * numberOctets > data.lengthOctets) {
    return dataTooShort(place, data, values.length * numberOctets * 8);
  }
  readNumbers(data, numberOctets, values);
  const notFinite = firstNotFinite(values);
  if (notFinite === null) return null;
  return damaged(place, {
    code: 'grib.value-not-finite',
    section: data,
    octet: HEADER_OCTETS + 1 + notFinite * numberOctets,
    what: `Packed value ${notFinite + 1} is ${numberWords(values[notFinite] ?? NaN)}.`,
    expected: 'finite numbers; points without a value are masked by the bitmap',
  });
}

function readNumbers(section: Section, numberOctets: 4 | 8, values: Float64Array): void {
  const view = viewForRuns(section.bytes, section);
  // Two loops: one with the choice inside it is slower.
  if (numberOctets === 4) {
    for (let i = 0; i < values.length; i++) values[i] = view.getFloat32(HEADER_OCTETS + 4 * i);
  } else {
    for (let i = 0; i < values.length; i++) values[i] = view.getFloat64(HEADER_OCTETS + 8 * i);
  }
}

/** Index of the first infinity or NaN; null when there is none. A plain loop, several times faster than `findIndex`. */
function firstNotFinite(values: Float64Array): number | null {
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? NaN;
    if (!Number.isFinite(value)) return i;
  }
  return null;
}
