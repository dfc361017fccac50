/** Numbers to octets, most significant first. */
import type { CalendarDate } from '../dates.ts';

/** Unsigned whole number. Throws when it does not fit. */
export function unsigned(value: number, widthOctets: number): number[] {
  if (!Number.isInteger(value) || value < 0 || value >= 2 ** (8 * widthOctets)) {
    throw new Error(`${value} does not fit ${widthOctets} octets`);
  }
  return Array.from({ length: widthOctets }, (_, i) => Math.floor(value / 2 ** (8 * (widthOctets - 1 - i))) % 256);
}

/** Sign and magnitude (regulation 92.1.5). */
export function signedOctets(value: number, widthOctets: number): number[] {
  const octets = unsigned(Math.abs(value), widthOctets);
  if ((octets[0] ?? 0) >= 0x80) throw new Error(`${value} does not fit ${widthOctets} octets with a sign`);
  if (value < 0) octets[0] = (octets[0] ?? 0) + 0x80;
  return octets;
}

/** IEEE 754 single precision; the caller has made the value fit. */
export function ieeeOctets(value: number): number[] {
  const view = new DataView(new ArrayBuffer(4));
  view.setFloat32(0, value);
  return [0, 1, 2, 3].map((i) => view.getUint8(i));
}

/** Year in two octets, then month, day, hour, minute, second. */
export const dateOctets = (date: CalendarDate): number[] => [
  ...unsigned(date.year, 2),
  date.month,
  date.day,
  date.hour,
  date.minute,
  date.second,
];

/** A section: its length, its number, its content. Throws when a number of the content is no octet. */
export function sectionOctets(sectionNumber: number, content: ArrayLike<number>): Uint8Array {
  const wrong = Array.from(content).find((octet) => !Number.isInteger(octet) || octet < 0 || octet > 255);
  if (wrong !== undefined) throw new Error(`${wrong} does not fit an octet of section ${sectionNumber}`);
  const section = new Uint8Array(5 + content.length);
  section.set([...unsigned(section.length, 4), sectionNumber]);
  section.set(content, 5);
  return section;
}

/** One after another. */
export function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let atIndex = 0;
  for (const part of parts) {
    whole.set(part, atIndex);
    atIndex += part.length;
  }
  return whole;
}
