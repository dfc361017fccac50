/**
 * Missing values among the packed ones: WMO-No. 306, Volume I.2, code table 5.5 and the notes to template 5.2. All bits of a
 * number one: primary missing; all but the last: secondary missing (management 2 only); in a group of width 0 the group
 * reference carries the mark at its own width.
 */
import { describe, expect, it } from 'vitest';
import { decodeField, scanGrib } from '../../lib/grib/index.ts';
import { smallMessage, smallSpec, withSection } from './sample-message.ts';

const octets4 = (n: number): number[] => [n >>> 24, (n >>> 16) & 255, (n >>> 8) & 255, n & 255];

/** Three groups: 2 bits 0, 1, 2, 3 above 5; width 0 and reference 254, twice; width 0 and reference 255, once, and 7, once. */
function valuesWith(missingManagement: number): number[] {
  const grid = { ...smallSpec.grid, ni: 4, nj: 2 };
  const message = smallMessage({ grid, values: [1, 2, 3, 4, 5, 6, 7, 8] });
  const representation = [
    ...octets4(47),
    5,
    ...octets4(8),
    0,
    2,
    ...octets4(0),
    0,
    0,
    0,
    0,
    8,
    0,
    1,
    missingManagement,
    ...octets4(0xffff_ffff),
    ...octets4(0xffff_ffff),
    ...octets4(4),
    0,
    8,
    ...octets4(0),
    1,
    ...octets4(1),
    8,
  ];
  const content = [5, 254, 255, 7, 2, 0, 0, 0, 4, 2, 1, 0, 0b0001_1011];
  const data = [...octets4(5 + content.length), 7, ...content];
  const bytes = withSection(withSection(message, 5, representation), 7, data);
  const [field] = scanGrib(bytes, 'made').fields;
  const decoded = field === undefined ? null : decodeField(bytes, field);
  if (decoded === null || !decoded.ok) throw new Error('it can be decoded');
  return Array.from(decoded.value);
}

describe('missing-value management', () => {
  it('0: every number is a value', () => {
    expect(valuesWith(0)).toEqual([5, 6, 7, 8, 254, 254, 255, 7]);
  });

  it('1: all ones is missing', () => {
    expect(valuesWith(1)).toEqual([5, 6, 7, NaN, 254, 254, NaN, 7]);
  });

  it('2: all ones and the number before it are missing', () => {
    expect(valuesWith(2)).toEqual([5, 6, NaN, NaN, NaN, NaN, NaN, 7]);
  });
});
