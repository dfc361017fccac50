/** One section of a message as the standard numbers it: octets count from 1. Readers never check; parsers check lengths first. */

/** Octets of one section, viewed in place. */
export interface Section {
  /** 0 to 8; in edition 1 also 0 (IS), 1 (PDS), 2 (GDS), 3 (BMS), 4 (BDS), 5 (ES). */
  readonly sectionNumber: number;
  /** Index of the section's first octet in the file, from 0. */
  readonly startIndex: number;
  readonly lengthOctets: number;
  readonly view: DataView;
}

/** Where a section lies in its file; enough to view it again. */
export interface SectionPlace {
  readonly startIndex: number;
  readonly lengthOctets: number;
}

/** Views one section of the file. */
export function viewSection(bytes: Uint8Array, sectionNumber: number, place: SectionPlace): Section {
  const view = new DataView(bytes.buffer, bytes.byteOffset + place.startIndex, place.lengthOctets);
  return { sectionNumber, startIndex: place.startIndex, lengthOctets: place.lengthOctets, view };
}

/** Unsigned, one octet. */
export const octet1 = (section: Section, octet: number): number => section.view.getUint8(octet - 1);

/** Unsigned, two octets, most significant first. */
export const octet2 = (section: Section, octet: number): number => section.view.getUint16(octet - 1);

/** Unsigned, three octets, most significant first. */
export const octet3 = (section: Section, octet: number): number =>
  section.view.getUint16(octet - 1) * 256 + section.view.getUint8(octet + 1);

/** Unsigned, four octets, most significant first. */
export const octet4 = (section: Section, octet: number): number => section.view.getUint32(octet - 1);

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
export const ieee4 = (section: Section, octet: number): number => section.view.getFloat32(octet - 1);

/** Single-precision number of edition 1: sign, exponent of 16 biased by 64, 24-bit fraction (WMO 306, FM 92-VIII GRIB, note to octets 7-10 of Section 4). */
export function ibm4(section: Section, octet: number): number {
  const head = octet1(section, octet);
  const magnitude = octet3(section, octet + 1) * 2 ** (4 * ((head & 0x7f) - 64) - 24);
  return head < 0x80 ? magnitude : 0 - magnitude;
}
