import { describe, expect, it } from 'vitest';
import { indexRanges, type IndexQuestion } from '../../server/fetchers/sources/index-ranges.ts';
import { codesOf, valueOf } from './fetch-fixture.ts';

/**
 * The short inventory of wgrib2 (NOAA/NCEP, "wgrib2 -s": number:start octet:d=date:parameter:level:forecast time:), with
 * figures of our own; 4.1 and 4.2 are two fields of one message.
 */
const LINES = `1:0:d=2026052700:PRMSL:mean sea level:6 hour fcst:
2:1000:d=2026052700:GUST:surface:6 hour fcst:
3:1500:d=2026052700:VIS:surface:6 hour fcst:
4.1:2500:d=2026052700:UGRD:10 m above ground:6 hour fcst:
4.2:2500:d=2026052700:VGRD:10 m above ground:6 hour fcst:
5:4000:d=2026052700:UGRD:80 m above ground:6 hour fcst:
6:4600:d=2026052700:APCP:surface:0-6 hour acc fcst:
`;

const asked = (kind: IndexQuestion['kind'], keys: readonly Record<string, string>[]): IndexQuestion => ({
  kind,
  wanted: keys.map((one) => ({ quantity: 'wind' as const, keys: one })),
  members: null,
  where: 'index',
});

const message = (parameter: string, level: string): Record<string, string> => ({ parameter, level });

describe('an index of lines', () => {
  it('two fields of one message: one range, one message', () => {
    const read = valueOf(
      indexRanges(LINES, asked('lines', [message('UGRD', '10 m above ground'), message('VGRD', '10 m above ground')])),
    );
    expect(read.ranges).toEqual([{ startOctet: 2500, endOctet: 4000 }]);
    expect(read.messageCount).toBe(1);
  });

  it('neighbours become one range; the last message reaches to the end of the file', () => {
    const read = valueOf(
      indexRanges(
        LINES,
        asked('lines', [
          message('APCP', 'surface'),
          message('PRMSL', 'mean sea level'),
          message('GUST', 'surface'),
          message('CAPE', 'surface'),
        ]),
      ),
    );
    expect(read.ranges).toEqual([
      { startOctet: 0, endOctet: 1500 },
      { startOctet: 4600, endOctet: null },
    ]);
    expect(read.missing.map(({ keys }) => keys['parameter'])).toEqual(['CAPE']);
  });

  it('level must be the same, not alike', () => {
    expect(valueOf(indexRanges(LINES, asked('lines', [message('UGRD', '8 m above ground')]))).ranges).toEqual([]);
  });

  it.each(['<html><body>Sign in</body></html>', '', '1:x:d=2026052700:UGRD:10 m above ground:anl:'])(
    '%j: no index',
    (text) => {
      expect(codesOf(indexRanges(text, asked('lines', [])))).toEqual(['fetch.index-unreadable']);
    },
  );
});

/** Lines of an index as ECMWF's open data has them (keys of its archive, `_offset` and `_length`), shortened. */
const JSON_LINES = `{"domain": "g", "date": "20260512", "type": "pf", "step": "6", "levtype": "sfc", "number": "16", "param": "10v", "_offset": 2030181, "_length": 609069}
{"domain": "g", "date": "20260512", "type": "pf", "step": "6", "levtype": "sfc", "number": "16", "param": "10u", "_offset": 2639250, "_length": 609069}
{"domain": "g", "date": "20260512", "type": "pf", "step": "6", "levtype": "sfc", "number": "41", "param": "10v", "_offset": 3248319, "_length": 609069}
{"domain": "g", "date": "20260512", "type": "pf", "step": "6", "levtype": "pl", "levelist": "500", "number": "16", "param": "10u", "_offset": 0, "_length": 100}
{"domain": "g", "date": "20260512", "type": "cf", "step": "6", "levtype": "sfc", "param": "10u", "_offset": 200, "_length": 50}
`;

describe('an index of JSON lines', () => {
  const wind = [
    { param: '10u', levtype: 'sfc' },
    { param: '10v', levtype: 'sfc' },
  ];
  const of = (numbers: readonly number[]) =>
    valueOf(indexRanges(JSON_LINES, { ...asked('json-lines', wind), members: { key: 'number', numbers } }));

  it('one member: its messages, in file order, as one range where they touch', () => {
    expect(of([16])).toMatchObject({ ranges: [{ startOctet: 2030181, endOctet: 3248319 }], messageCount: 2 });
  });

  it('a message without a number is the control run, member 0', () => {
    expect(of([0]).ranges).toEqual([{ startOctet: 200, endOctet: 250 }]);
  });

  it('a member that is not listed: all is missing', () => {
    expect(of([7])).toMatchObject({ ranges: [], messageCount: 0, missing: [{}, {}] });
  });

  it.each(['{"_offset": -1, "_length": 5}', '{"_offset": 1.5, "_length": 5}', '{"_offset": 0}', '[1]', 'null'])(
    '%s: no line of an index',
    (line) => {
      expect(codesOf(indexRanges(line, asked('json-lines', [])))).toEqual(['fetch.index-unreadable']);
    },
  );
});
