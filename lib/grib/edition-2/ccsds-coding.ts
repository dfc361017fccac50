/** Octets 20 and 22 to 25 of Section 5 in template 5.42. */
import type { Problem } from '../../result/index.ts';
import { type CcsdsCoding, codingFault } from '../packing/ccsds/coding.ts';
import { damaged, type MessagePlace } from '../problems.ts';
import { octet1, octet2, type Section } from '../section.ts';

/** Reads the coding of a section of at least 25 octets. */
export const readCcsdsCoding = (section: Section): CcsdsCoding => ({
  bitsPerValue: octet1(section, 20),
  optionMaskCode: octet1(section, 22),
  blockSampleCount: octet1(section, 23),
  intervalBlockCount: octet2(section, 24),
});

/** `grib.coding-unsupported`: a coding that is not read. A constant field, of 0 bits, has none. */
export function ccsdsObstacle(place: MessagePlace, section: Section): Problem | null {
  const coding = readCcsdsCoding(section);
  const fault = coding.bitsPerValue === 0 ? null : codingFault(coding);
  return fault === null ? null : damaged(place, { code: 'grib.coding-unsupported', section, ...fault });
}
