/** Files read message by message from the disk, beside the same files held whole. */
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { cutForecast, scanFile, sourceOf } from '../../lib/forecast/index.ts';
import { decodePart, scanGrib } from '../../lib/grib/index.ts';
import { decodeOnThreads } from '../../server/decoding/decode-on-threads.ts';
import { loadForecast } from '../../server/decoding/index.ts';
import { longFile } from '../../server/decoding/long-file.ts';
import { readGoldenBytes } from '../grib/golden-files.ts';
import { longOrShort } from '../long-run.ts';

const folder = mkdtempSync(join(tmpdir(), 'long-file-'));
afterAll(() => rmSync(folder, { recursive: true }));

const write = (name: string, octets: Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, octets);
  return path;
};

/** Both editions, several fields in a message, bitmaps used again, and what stands between messages. */
const PARTS: readonly Uint8Array[] = [
  Buffer.from('a bulletin heading\r\r\n'),
  readGoldenBytes('gfs_1p00_f000_2msg.grib2'),
  Buffer.from('\0\0\0\0'),
  readGoldenBytes('regular_ll_sfc.grib1'),
  readGoldenBytes('gefs_ens_simple.grib2'),
  Buffer.from('GRIB in a word'),
  readGoldenBytes('sh_bm_ccsds.grib2'),
];
const WHOLE = Buffer.concat(PARTS);
const WEATHER = readGoldenBytes('../../windows/gfs_wind10m_20161120_48h.grib2');

describe('longFile', () => {
  it('any length of piece: the fields of the whole file, with their places in it, and the same values', () => {
    const path = write('whole.grib', WHOLE);
    const held = scanGrib(WHOLE, 'whole.grib');
    fc.assert(
      fc.property(fc.integer({ min: 1, max: WHOLE.length + 10 }), (pieceOctets) => {
        const file = longFile(path, 'whole.grib', pieceOctets);
        const { fields } = scanFile(file);
        expect(fields).toEqual(held.fields);
      }),
      { seed: 20261126, numRuns: longOrShort(200, 12) },
    );
    const file = longFile(path, 'whole.grib', 1000);
    for (const field of held.fields) {
      const source = sourceOf(file, field);
      expect(source.bytes.length).toBe(field.messageLengthOctets);
      expect(decodePart(source.bytes, source.field)).toEqual(decodePart(WHOLE, field));
    }
  });

  it('a length that lies, a message cut short, no message at all: problems, and the other fields', () => {
    const first = readGoldenBytes('gefs_ens_simple.grib2');
    const liar = Uint8Array.from(first);
    liar.set([0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff], 8);
    const cases: Readonly<Record<string, Uint8Array>> = {
      lies: Buffer.concat([first, liar, first]),
      short: Buffer.concat([first, first.subarray(0, 700)]),
      none: Buffer.from('no forecast at all'),
      empty: new Uint8Array(),
    };
    for (const [name, octets] of Object.entries(cases)) {
      const held = scanGrib(octets, name);
      const long = scanFile(longFile(write(name, octets), name, 10));
      expect({ name, count: long.fields.length }).toEqual({ name, count: held.fields.length });
      expect(long.problems.map(({ code }) => code)).toEqual(held.problems.map(({ code }) => code));
    }
  });

  it('a file that is shorter, or gone, when its fields are decoded: a problem that names it', () => {
    const path = write('shrunk.grib2', readGoldenBytes('gefs_ens_simple.grib2'));
    const file = longFile(path, 'shrunk.grib2');
    const [field] = scanFile(file).fields;
    truncateSync(path, 100);
    if (field === undefined) throw new Error('a field was there');
    const source = sourceOf(file, field);
    const decoded = decodePart(source.bytes, source.field);
    expect(decoded.ok ? [] : decoded.problems.map(({ code }) => code)).toEqual(['grib.bytes-changed']);
    expect(JSON.stringify(decoded)).toContain('shrunk.grib2, from octet 1 on');
    rmSync(path);
    const gone = sourceOf(file, field);
    expect(decodePart(gone.bytes, gone.field)).toEqual(decoded);
  });

  it('a forecast and a cut of it are those of the file held whole, octet by octet; threads give the same values', async () => {
    const file = longFile(write('weather.grib2', WEATHER), 'weather.grib2', 5000);
    const held = { name: 'weather.grib2', bytes: WEATHER };
    const around = { southWest: { lat: 30, lon: -50 }, northEast: { lat: 40, lon: -30 } };
    expect(await loadForecast([file], { around })).toEqual(await loadForecast([held], { around }));
    const request = { area: { kind: 'box', box: around } } as const;
    const cut = cutForecast([file], request);
    expect(cut.ok).toBe(true);
    expect(cut).toEqual(cutForecast([held], request));
    const tasks = scanFile(file).fields.map((field) => ({ file, field, part: null }));
    const onThreads = await decodeOnThreads(tasks, { threadCount: 2, onDone: () => undefined });
    expect(onThreads).toEqual(scanGrib(WEATHER, 'weather.grib2').fields.map((field) => decodePart(WEATHER, field)));
  });
});
