/** Template 5.0 and the simple packing of edition 1: numbers of one width, one after another. */
import type { Problem } from '../../result/index.ts';
import { readUnsigned } from '../bits.ts';
import { damaged, type MessagePlace } from '../problems.ts';
import { applyScale, type Scale } from '../scale.ts';
import type { Section } from '../section.ts';

/** Packed numbers of a data section. */
export interface SimpleData {
  readonly bytes: Uint8Array;
  readonly section: Section;
  /** Octet of the section at which the numbers begin, from 1. */
  readonly firstOctet: number;
  readonly count: number;
  readonly bitsPerValue: number;
  readonly scale: Scale;
}

/** Values of a field that is not constant. Refuses a section that holds fewer numbers than declared. */
export function unpackSimple(place: MessagePlace, data: SimpleData): Float64Array | Problem {
  const { bytes, section, firstOctet, count, bitsPerValue } = data;
  const heldBits = (section.lengthOctets - (firstOctet - 1)) * 8;
  if (count * bitsPerValue > heldBits) return dataTooShort(place, section, count * bitsPerValue);
  const values = new Float64Array(count);
  const startBitIndex = (section.startIndex + firstOctet - 1) * 8;
  readUnsigned({ bytes, startBitIndex, widthBits: bitsPerValue }, values, { fromIndex: 0, toIndex: count });
  return applyScale(values, data.scale);
}

/** `grib.data-too-short`. */
export function dataTooShort(place: MessagePlace, section: Section, neededBits: number): Problem {
  return damaged(place, {
    code: 'grib.data-too-short',
    section,
    octet: section.lengthOctets,
    what: `The section has ${section.lengthOctets} octets; its packed numbers need ${neededBits} bits.`,
    expected: 'all packed numbers inside the section',
  });
}
