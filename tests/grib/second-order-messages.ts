/** Single-field messages of both editions on regular latitude/longitude grids, taken apart without the scanner, and unpacked. */
import type { MessagePlace } from '../../lib/grib/problems.ts';
import { unpackSecondOrderEdition1, unpackSecondOrderEdition2 } from '../../lib/grib/packing/second-order/unpack.ts';
import { applyScale, linearScale, type Scale } from '../../lib/grib/scale.ts';
import {
  ibm4,
  ieee4,
  octet1,
  octet2,
  octet3,
  octet4,
  type Section,
  signed2,
  viewSection,
} from '../../lib/grib/section.ts';
import type { Problem } from '../../lib/result/index.ts';

export const place: MessagePlace = { fileName: 'test.grib', messageNumber: 1, messageOffsetOctet: 0 };

/** A message taken apart. */
export interface OpenMessage {
  readonly bytes: Uint8Array;
  readonly edition: number;
  /** Section 4 (edition 1) or 7. */
  readonly data: Section;
  /** Section 5; in edition 1 Section 4 again. */
  readonly representation: Section;
  readonly bitmap: Section | null;
  readonly pointCount: number;
  readonly linePointCount: number | null;
  readonly scale: Scale;
}

const lineOf = (ni: number, nj: number, scanningMode: number): number => ((scanningMode & 0x20) === 0 ? ni : nj);

function openEdition1(bytes: Uint8Array): OpenMessage {
  let startIndex = 8;
  const next = (sectionNumber: number): Section => {
    const head = viewSection(bytes, sectionNumber, { startIndex, lengthOctets: 3 });
    const section = viewSection(bytes, sectionNumber, { startIndex, lengthOctets: octet3(head, 1) });
    startIndex += section.lengthOctets;
    return section;
  };
  const product = next(1);
  const grid = next(2);
  const bitmap = (octet1(product, 8) & 0x40) === 0 ? null : next(3);
  const data = next(4);
  const [ni, nj] = [octet2(grid, 7), octet2(grid, 9)];
  const points = { pointCount: ni * nj, linePointCount: lineOf(ni, nj, octet1(grid, 28)) };
  const scale = {
    referenceValue: ibm4(data, 7),
    binaryScaleFactor: signed2(data, 5),
    decimalScaleFactor: signed2(product, 27),
  };
  return { bytes, edition: 1, data, representation: data, bitmap, ...points, scale };
}

function openEdition2(bytes: Uint8Array): OpenMessage {
  const sections = new Map<number, Section>();
  let startIndex = 16;
  while (bytes[startIndex] !== 0x37 || bytes[startIndex + 1] !== 0x37) {
    const head = viewSection(bytes, 0, { startIndex, lengthOctets: 5 });
    sections.set(octet1(head, 5), viewSection(bytes, octet1(head, 5), { startIndex, lengthOctets: octet4(head, 1) }));
    startIndex += octet4(head, 1);
  }
  const section = (number: number): Section =>
    sections.get(number) ?? viewSection(bytes, number, { startIndex: 0, lengthOctets: 0 });
  const grid = section(3);
  const representation = section(5);
  const [ni, nj] = [octet4(grid, 31), octet4(grid, 35)];
  const bitmap = octet1(section(6), 6) === 0 ? section(6) : null;
  const points = { pointCount: ni * nj, linePointCount: lineOf(ni, nj, octet1(grid, 72)) };
  return {
    bytes,
    edition: 2,
    data: section(7),
    representation,
    bitmap,
    ...points,
    scale: scaleEdition2(representation),
  };
}

/** Octets 12-19 of Section 5; template 5.4 has none. */
function scaleEdition2(representation: Section): Scale {
  if (octet2(representation, 10) === 4) return { referenceValue: 0, binaryScaleFactor: 0, decimalScaleFactor: 0 };
  return {
    referenceValue: ieee4(representation, 12),
    binaryScaleFactor: signed2(representation, 16),
    decimalScaleFactor: signed2(representation, 18),
  };
}

/** Takes a message apart that begins with the first octet. */
export const openMessage = (bytes: Uint8Array): OpenMessage =>
  bytes[7] === 1 ? openEdition1(bytes) : openEdition2(bytes);

/** Whole numbers on the grid, NaN where masked. */
export function unpackNumbers(message: OpenMessage): Float64Array | Problem {
  // Filled, so that a number left over from before would show.
  const numbers = new Float64Array(message.pointCount).fill(Infinity);
  const unpack = message.edition === 1 ? unpackSecondOrderEdition1 : unpackSecondOrderEdition2;
  return unpack(place, message, numbers) ?? numbers;
}

/** Values on the grid, NaN where masked. */
export function unpackValues(message: OpenMessage): Float64Array | Problem {
  const values = unpackNumbers(message);
  if ('remedy' in values) return values;
  applyScale(values, linearScale(message.scale));
  return values;
}
