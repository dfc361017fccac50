/** Small files that declare or unfold to much: refused by what they say, before memory is taken. */
import { deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { buildForecast, cutForecast, outlineForecast, tooMuch } from '../../lib/forecast/index.ts';
import { chooseFields } from '../../lib/forecast/choose-fields.ts';
import { spanOfSeries } from '../../lib/forecast/coverage.ts';
import type { Series } from '../../lib/forecast/frame.ts';
import type { MatchedField } from '../../lib/forecast/match-field.ts';
import { decodePacked, scanGrib } from '../../lib/grib/index.ts';
import { loadForecast } from '../../server/decoding/index.ts';
import { altered, MS_PER_H, REFERENCE_EPOCH_MS, smallMessage, withSection } from '../grib/sample-message.ts';

const wordOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const fileOf = (bytes: Uint8Array) => [{ name: 'f.grib2', bytes }];
const octets4 = (n: number): number[] => [n >>> 24, (n >>> 16) & 255, (n >>> 8) & 255, n & 255];

/** A gust at 10 m, the same on columns × rows points: 200 octets whatever its grid. */
function constantGust(columns: number, rows: number, hour: number): Uint8Array {
  const gust = smallMessage({
    parameter: { discipline: 0, category: 2, number: 22 },
    validity: { kind: 'instant', validEpochMs: REFERENCE_EPOCH_MS + hour * MS_PER_H },
    values: Array.from({ length: 12 }, () => 7),
  });
  const grid = altered(gust, { sectionNumber: 3, octet: 31 }, [...octets4(columns), ...octets4(rows)]);
  const counted = altered(grid, { sectionNumber: 3, octet: 7 }, octets4(columns * rows));
  const packed = altered(counted, { sectionNumber: 5, octet: 6 }, octets4(columns * rows));
  return altered(packed, { sectionNumber: 5, octet: 20 }, [0]);
}

describe('points declared', () => {
  const bomb = new Uint8Array(Buffer.concat(Array.from({ length: 40 }, (_, hour) => constantGust(4000, 4000, hour))));

  it('40 fields of 16 million points in 8 kB: refused with the counts, before any is decoded', async () => {
    const refused = tooMuch(outlineForecast(fileOf(bomb)));
    expect(refused).toMatchObject({ code: 'forecast.too-much', where: 'f.grib2' });
    expect(refused?.what).toBe(`40 fields declare 640000000 points in ${bomb.length} octets.`);
    expect(buildForecast(fileOf(bomb))).toMatchObject({ ok: false, problems: [{ code: 'forecast.too-much' }] });
    expect(await loadForecast(fileOf(bomb))).toMatchObject({ ok: false, problems: [{ code: 'forecast.too-much' }] });
    expect(cutForecast(fileOf(bomb), { area: EVERYWHERE })).toMatchObject({
      ok: false,
      problems: [{ code: 'forecast.too-much' }],
    });
  });

  it('the same on a small grid: a forecast', () => {
    const small = new Uint8Array(Buffer.concat(Array.from({ length: 40 }, (_, hour) => constantGust(4, 3, hour))));
    expect(buildForecast(fileOf(small)).ok).toBe(true);
  });

  it('a field of more than 16 million points: refused where it says so', () => {
    const { fields, problems } = scanGrib(constantGust(4001, 4000, 0), 'f.grib2');
    expect(fields).toEqual([]);
    expect(problems).toMatchObject([
      { code: 'grib.too-many-points', what: expect.stringContaining('16004000') as string },
    ]);
  });
});

const EVERYWHERE = {
  kind: 'box',
  box: { southWest: { lat: -90, lon: -180 }, northEast: { lat: 90, lon: 180 } },
} as const;

describe('very many problems', () => {
  it('125 000 start marks in 2 MB: the first 200 problems, and how many more', () => {
    const bytes = new Uint8Array(2_000_000);
    for (let i = 0; i < bytes.length; i += 16) bytes.set(MARK, i);
    const { problems } = scanGrib(bytes, 'marks.grib2');
    expect(problems).toHaveLength(201);
    expect(problems.at(-1)).toMatchObject({ code: 'grib.many-more', where: 'marks.grib2, up to message 125000' });
    expect(problems.at(-1)?.what).toBe('There are 124800 more problems in this file, which are not listed.');
  });

  it('600 hours of one component alone: the first 400 problems, and how many more', () => {
    const eastward = Array.from({ length: 600 }, (_, hour) =>
      smallMessage({ validity: { kind: 'instant', validEpochMs: REFERENCE_EPOCH_MS + hour * MS_PER_H } }),
    );
    // The northward one of the first hour makes a pair of them, so that the rest is missed.
    const northward = smallMessage({
      parameter: { discipline: 0, category: 2, number: 3 },
      validity: { kind: 'instant', validEpochMs: REFERENCE_EPOCH_MS },
    });
    const built = buildForecast(fileOf(new Uint8Array(Buffer.concat([...eastward, northward]))));
    const problems = built.ok ? built.value.problems : built.problems;
    expect(problems.filter(({ code }) => code === 'forecast.part-missing')).toHaveLength(400);
    expect(problems.at(-1)).toMatchObject({
      code: 'forecast.many-more',
      what: expect.stringContaining('199') as string,
    });
  });
});

const MARK = [...wordOf('GRIB'), 0, 0, 0, 2];

describe('very many fields', () => {
  /** More than a call takes arguments. */
  const COUNT = 150_000;
  const epochMsAt = (index: number): number => REFERENCE_EPOCH_MS + index * 1000;

  it('150 000 hours of one member: chosen, all of them', () => {
    const [field] = scanGrib(smallMessage(), 'f').fields;
    const row = outlineForecast(fileOf(constantGust(4, 3, 0))).quantities[0]?.single.fields[0]?.row;
    if (field === undefined || row === undefined) throw new Error('no field');
    const matched = Array.from({ length: COUNT }, (_, index): MatchedField => ({
      field,
      row,
      rowIndex: 0,
      memberId: 'control',
      baseEpochMs: REFERENCE_EPOCH_MS,
      startEpochMs: epochMsAt(index),
      endEpochMs: epochMsAt(index),
    }));
    expect(chooseFields('gust', matched)?.fields).toHaveLength(COUNT);
    // Each of a run of its own: all but the newest are earlier hours.
    const runs = matched.slice(0, 20_000).map((found, index) => ({ ...found, baseEpochMs: epochMsAt(index) }));
    expect(chooseFields('gust', runs)?.baseEpochMs).toBe(epochMsAt(19_999));
  });

  it('150 000 frames: their first and last instant', () => {
    const frame = { grid: EMPTY_GRID, first: new Float32Array(), second: null };
    const frames = Array.from({ length: COUNT }, (_, index) => ({
      ...frame,
      startEpochMs: epochMsAt(index),
      endEpochMs: epochMsAt(index),
    }));
    const series: Series = { kind: 'instant', frames };
    expect(spanOfSeries(series)).toMatchObject({ firstEpochMs: epochMsAt(0), endEpochMs: epochMsAt(COUNT - 1) });
  });
});

const EMPTY_GRID = {
  kind: 'latlon',
  columnCount: 0,
  rowCount: 0,
  southWest: { lat: 0, lon: 0 },
  latStepDeg: 1,
  lonStepDeg: 1,
  wrapsInLon: false,
} as const;

describe('images', () => {
  const chunk = (type: string, data: readonly number[]): number[] => [
    ...octets4(data.length),
    ...wordOf(type),
    ...data,
    ...octets4(0),
  ];
  const png = (columns: number, rows: number, unfoldedOctets: number): number[] => [
    0x89,
    ...wordOf('PNG\r\n\u001A\n'),
    ...chunk('IHDR', [...octets4(columns), ...octets4(rows), 8, 0, 0, 0, 0]),
    ...chunk('IDAT', [...deflateSync(new Uint8Array(unfoldedOctets))]),
    ...chunk('IEND', []),
  ];
  /** A field of 4 × 3 points packed as PNG. */
  function withPng(stream: readonly number[]): Uint8Array {
    const message = smallMessage({ values: Array.from({ length: 12 }, (_, i) => i) });
    const coded = altered(message, { sectionNumber: 5, octet: 10 }, [0, 41]);
    const wide = altered(coded, { sectionNumber: 5, octet: 20 }, [8]);
    return withSection(wide, 7, [...octets4(5 + stream.length), 7, ...stream]);
  }
  const refusalOf = (bytes: Uint8Array): unknown => {
    const [field] = scanGrib(bytes, 'png.grib2').fields;
    if (field === undefined) throw new Error('no field');
    const decoded = decodePacked(bytes, field);
    return decoded.ok ? Array.from(decoded.value) : decoded.problems[0];
  };

  it('4 columns and 3 rows of zeros: the reference value at each point', () => {
    expect(refusalOf(withPng(png(4, 3, 15)))).toEqual(Array.from({ length: 12 }, () => 0));
  });

  it.each([
    ['2^31 - 1 columns', png(2 ** 31 - 1, 1, 15), /The image has 2147483647 × 1 points\./],
    ['2^32 - 1 columns and rows', png(2 ** 32 - 1, 2 ** 32 - 1, 15), /points\./],
    ['32 MB out of 32 kB', png(4, 3, 2 ** 25), /damaged, or longer than the image\./],
    ['one octet too few', png(4, 3, 14), /The compressed data hold 14 octets\./],
    ['one octet too many', png(4, 3, 16), /damaged, or longer than the image\./],
  ])('%s: refused at the stream', (_, stream, said) => {
    expect(refusalOf(withPng(stream))).toMatchObject({
      code: 'grib.data-damaged',
      where: expect.stringMatching(
        /^png\.grib2, message 1 \(at octet 1 of the file\), section 7, octet \d+$/,
      ) as string,
      what: expect.stringMatching(said) as string,
    });
  });
});

describe('values that are no weather', () => {
  /** Gusts on 4 × 3 points, packed as they are. */
  const gusts = (values: readonly number[]): Uint8Array =>
    smallMessage({ parameter: { discipline: 0, category: 2, number: 22 }, values, packing: 'simple' });
  const plain = Array.from({ length: 12 }, () => 7);

  it.each([-999, 9999, -99])('a gust of %d m/s, marked by no bitmap: unknown, and said', (fill) => {
    const built = buildForecast(fileOf(gusts([fill, ...plain.slice(1)])));
    if (!built.ok) throw new Error(built.problems[0].what);
    const [frame] = built.value.series.get('gust')?.get('control')?.frames ?? [];
    expect(Array.from(frame?.first ?? []).filter(Number.isNaN)).toHaveLength(1);
    expect(built.value.problems).toMatchObject([{ code: 'forecast.value-impossible', where: 'forecast, gust' }]);
    expect(built.value.problems[0]?.what).toMatch(/^1 values in 1 fields are beyond all weather, such as -?\d+/);
  });

  it('a storm of 100 m/s: taken as it is', () => {
    const built = buildForecast(fileOf(gusts([100, ...plain.slice(1)])));
    expect(built.ok && built.value.problems).toEqual([]);
  });

  it('values beyond single precision, by a decimal factor of -60: unknown, and missing in a cut of them', () => {
    const bytes = altered(gusts([8, ...plain.slice(1)]), { sectionNumber: 5, octet: 18 }, [0x80, 60]);
    const built = buildForecast(fileOf(bytes));
    expect(built.ok && built.value.problems.map(({ code }) => code)).toEqual(['forecast.value-impossible']);
    const cut = cutForecast(fileOf(bytes), { area: EVERYWHERE });
    if (!cut.ok) throw new Error(cut.problems[0].what);
    const [field] = scanGrib(cut.value.bytes, 'cut').fields;
    const values = field === undefined ? undefined : decodePacked(cut.value.bytes, field);
    expect(values?.ok === true && values.value.every(Number.isNaN)).toBe(true);
  });

  it.each([
    ['no number', [0x7f, 0xc0, 0, 0], 'The reference value is no number,'],
    ['infinite', [0x7f, 0x80, 0, 0], 'The reference value is infinite,'],
  ])('a reference value that is %s: refused in words', (_, octets, said) => {
    const bytes = altered(gusts(plain), { sectionNumber: 5, octet: 12 }, octets);
    const [field] = scanGrib(bytes, 'f').fields;
    expect(field?.support).toMatchObject({
      code: 'grib.scale-impossible',
      what: expect.stringContaining(said) as string,
    });
  });
});
