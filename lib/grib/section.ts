/** One section of a message as the standard numbers it: octets count from 1. Readers never check; parsers check lengths first. */

/** Octets of one section, where they lie in the file: nothing is copied, and nothing else made, since a file has thousands. */
export interface Section {
  /** 0 to 8; in edition 1 also 0 (IS), 1 (PDS), 2 (GDS), 3 (BMS), 4 (BDS), 5 (ES). */
  readonly sectionNumber: number;
  /** Index of the section's first octet in the file, from 0. */
  readonly startIndex: number;
  readonly lengthOctets: number;
  /** The whole file. */
  readonly bytes: Uint8Array;
}

/** Where a section lies in its file; enough to view it again. */
export interface SectionPlace {
  readonly startIndex: number;
  readonly lengthOctets: number;
}

/** Views one section of the file, whose octets the caller has found to be there. */
export const viewSection = (bytes: Uint8Array, sectionNumber: number, place: SectionPlace): Section => ({
  sectionNumber,
  startIndex: place.startIndex,
  lengthOctets: place.lengthOctets,
  bytes,
});

/** Unsigned, one octet. Throws beyond the section: a length was not checked. */
export function octet1(section: Section, octet: number): number {
  if (octet < 1 || octet > section.lengthOctets) throw new RangeError(`octet ${octet} of ${section.lengthOctets}`);
  return section.bytes[section.startIndex + octet - 1] ?? 0;
}

/** Unsigned, two octets, most significant first. */
export const octet2 = (section: Section, octet: number): number =>
  octet1(section, octet) * 256 + octet1(section, octet + 1);

/** Unsigned, three octets, most significant first. */
export const octet3 = (section: Section, octet: number): number =>
  octet2(section, octet) * 256 + octet1(section, octet + 2);

/** Unsigned, four octets, most significant first. */
export const octet4 = (section: Section, octet: number): number =>
  octet2(section, octet) * 65_536 + octet2(section, octet + 2);

/**
 * Signed whole number of WMO regulation 92.1.5: the first bit is the sign, the rest the magnitude
 * (not two's complement). `-0` is returned as 0.
 */
export function signMagnitude(coded: number, widthOctets: number): number {
  const signWeight = 2 ** (8 * widthOctets - 1);
  return coded < signWeight ? coded : 0 - (coded - signWeight);
}

/** Sign and magnitude, one octet. */
export const signed1 = (section: Section, octet: number): number => signMagnitude(octet1(section, octet), 1);

/** Sign and magnitude, two octets. */
export const signed2 = (section: Section, octet: number): number => signMagnitude(octet2(section, octet), 2);

/** Sign and magnitude, three octets. */
export const signed3 = (section: Section, octet: number): number => signMagnitude(octet3(section, octet), 3);

/** Sign and magnitude, four octets. */
export const signed4 = (section: Section, octet: number): number => signMagnitude(octet4(section, octet), 4);

/** Single-precision number, IEEE 754 (edition 2, regulation 92.1.7). */
export function ieee4(section: Section, octet: number): number {
  const coded = octet4(section, octet);
  const exponentCode = (coded >>> 23) & 0xff;
  const fraction = coded & 0x7f_ffff;
  const sign = coded >= 0x8000_0000 ? -1 : 1;
  if (exponentCode === 0xff) return fraction === 0 ? sign * Infinity : NaN;
  // Exponent 0 is that of the smallest normal numbers, without the leading one.
  const significand = exponentCode === 0 ? fraction : fraction + 2 ** 23;
  return sign * significand * 2 ** (Math.max(exponentCode, 1) - 150);
}

/** Single-precision number of edition 1: sign, exponent of 16 biased by 64, 24-bit fraction (WMO 306, FM 92-VIII GRIB, note to octets 7-10 of Section 4). */
export function ibm4(section: Section, octet: number): number {
  const head = octet1(section, octet);
  const magnitude = octet3(section, octet + 1) * 2 ** (4 * ((head & 0x7f) - 64) - 24);
  return head < 0x80 ? magnitude : 0 - magnitude;
}
