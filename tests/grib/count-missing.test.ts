/** Counted from the bitmap or from the packed marks: as many as the decoded field has, and as ecCodes finds. */
import { describe, expect, it } from 'vitest';
import { countMissing, scanGrib } from '../../lib/grib/index.ts';
import { goldenFiles, readGoldenBytes } from './golden-files.ts';
import { altered, smallMessage } from './sample-message.ts';

describe('countMissing', () => {
  it.each(goldenFiles)('$file: as the reference counts', ({ file, fields: golden }) => {
    const bytes = readGoldenBytes(file);
    const counted = scanGrib(bytes, file).fields.map((field) => countMissing(bytes, field));
    const expected = golden.map(({ values }) => values?.missingCount ?? null);
    const comparable = counted.map((count, i) => (count === null || expected[i] === null ? null : count));
    expect(comparable).toEqual(expected.map((count, i) => (counted[i] === null ? null : count)));
  });

  it('a packing that is not read: not known', () => {
    const bytes = altered(smallMessage(), { sectionNumber: 5, octet: 10 }, [0, 200]);
    expect(scanGrib(bytes, 'x').fields.map((field) => countMissing(bytes, field))).toEqual([null]);
  });
});
