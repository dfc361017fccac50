/** Template 5.0 and the simple packing of edition 1: numbers of one width, one after another. */
import type { Problem } from '../../result/index.ts';
import { viewForRuns } from '../bits.ts';
import { damaged, type MessagePlace } from '../problems.ts';
import { linearScale, type Scale } from '../scale.ts';
import type { Section } from '../section.ts';
import { scaleRun } from './simple-run.ts';

/** Packed numbers of a data section. */
export interface SimpleData {
  readonly bytes: Uint8Array;
  readonly section: Section;
  /** Octet of the section at which the numbers begin, from 1. */
  readonly firstOctet: number;
  readonly bitsPerValue: number;
  readonly scale: Scale;
}

/** Fills `values` of a field that is not constant. Refuses a section that holds fewer numbers than wanted. */
export function unpackSimple(place: MessagePlace, data: SimpleData, values: Float64Array): Problem | null {
  const { bytes, section, firstOctet, bitsPerValue } = data;
  const heldBits = (section.lengthOctets - (firstOctet - 1)) * 8;
  if (values.length * bitsPerValue > heldBits) return dataTooShort(place, section, values.length * bitsPerValue);
  const view = viewForRuns(bytes, section);
  scaleRun({ view, startIndex: firstOctet - 1, widthBits: bitsPerValue }, values, linearScale(data.scale));
  return null;
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
