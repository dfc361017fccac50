/** Small messages to be altered octet by octet, as the standard numbers them. */
import { type GribMessageSpec, scanGrib, writeGrib2Message } from '../../lib/grib/index.ts';

export const REFERENCE_EPOCH_MS = Date.UTC(2026, 4, 27, 12);
export const MS_PER_H = 3_600_000;

/** 10 m u wind on 4 × 3 points, one missing, 6 h ahead. */
export const smallSpec: GribMessageSpec & { readonly values: readonly number[] } = {
  parameter: { discipline: 0, category: 2, number: 2 },
  level: { first: { typeCode: 103, value: 10 }, second: null },
  referenceEpochMs: REFERENCE_EPOCH_MS,
  validity: { kind: 'instant', validEpochMs: REFERENCE_EPOCH_MS + 6 * MS_PER_H },
  grid: { ni: 4, nj: 3, first: { lat: -30, lon: 178 }, iIncrementDeg: 1, jIncrementDeg: 2, scanningMode: 64 },
  values: [1.5, -2.25, 3, 4, 5, NaN, 7, 8, 9, 10, 11, 12],
  decimalScaleFactor: 2,
  packing: 'simple',
};

export const smallMessage = (changes: Partial<GribMessageSpec> = {}): Uint8Array =>
  writeGrib2Message({ ...smallSpec, ...changes });

/** Waves of 21 × 19 points without missing values, long enough for groups. */
export const complexMessage = (): Uint8Array =>
  writeGrib2Message({
    ...smallSpec,
    grid: { ...smallSpec.grid, ni: 21, nj: 19 },
    values: Array.from({ length: 399 }, (_, i) => Math.sin(i / 7) * 9 + i / 50),
    packing: 'complex',
  });

/** A copy with octets of one section of a single-field message of edition 2 replaced; octets count from 1. */
export function altered(
  message: Uint8Array,
  at: { sectionNumber: number; octet: number },
  octets: readonly number[],
): Uint8Array {
  const copy = message.slice();
  copy.set(octets, sectionStart(message, at.sectionNumber) + at.octet - 1);
  return copy;
}

/** A copy with one section of a single-field message of edition 2 replaced by other octets, and the total length with it. */
export function withSection(message: Uint8Array, sectionNumber: number, section: readonly number[]): Uint8Array {
  const start = sectionStart(message, sectionNumber);
  const after = start + new DataView(message.buffer, message.byteOffset).getUint32(start);
  const copy = Uint8Array.from([...message.subarray(0, start), ...section, ...message.subarray(after)]);
  new DataView(copy.buffer).setUint32(12, copy.length);
  return copy;
}

/** Section 4 of a template: octets from 8 on, the length and the head put before them. */
export function section4(templateNumber: number, octetsFrom10: readonly number[]): number[] {
  const lengthOctets = 9 + octetsFrom10.length;
  return [0, 0, 0, lengthOctets, 4, 0, 0, 0, templateNumber, ...octetsFrom10];
}

/** Index of a section's first octet. */
export function sectionStart(message: Uint8Array, sectionNumber: number): number {
  const view = new DataView(message.buffer, message.byteOffset);
  if (sectionNumber === 0) return 0;
  let index = 16;
  while (message[index + 4] !== sectionNumber) index += view.getUint32(index);
  return index;
}

/** Starts of all sections of a single-field message of edition 2, the end section included. */
export const sectionStarts = (message: Uint8Array): number[] => [
  ...[0, 1, 3, 4, 5, 6, 7].map((sectionNumber) => sectionStart(message, sectionNumber)),
  message.length - 4,
];

/** Codes of a file's problems and of its fields' obstacles. */
export function codesOf(bytes: Uint8Array): string[] {
  const { fields, problems } = scanGrib(bytes, 'test.grib2');
  return [...problems, ...fields.flatMap(({ support }) => (support === null ? [] : [support]))].map(({ code }) => code);
}
