import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import nock from 'nock';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { forecastCommand } from '../../scripts/commands/forecast.ts';
import { durationText } from '../../scripts/commands/forecast/get-words.ts';
import { sizeText } from '../../lib/units/index.ts';
import { BUILT_IN_SOURCES } from '../../server/fetchers/index.ts';
import { openStore } from '../../server/stores/index.ts';
import { GFS_WIND, messagesOf, valueOf } from '../fetchers/fetch-fixture.ts';
import { flakyServer, type FlakyServer } from '../fetchers/flaky-server.ts';

const folder = mkdtempSync(join(tmpdir(), 'slatch-get-'));
const inFolder = (name: string): string => join(folder, name);
let server: FlakyServer;

async function run(...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  const written = { out: '', err: '' };
  const code = await forecastCommand.run(['get', ...args], {
    out: (text) => void (written.out += text),
    err: (text) => void (written.err += text),
    readFile,
    nowEpochMs: () => Date.UTC(2016, 10, 20, 6),
  });
  return { code, ...written };
}

/** A source on the server of this test: one message a step, found by an index. */
function describeSource(): string {
  const path = inFolder('source.json');
  const source = {
    id: 'here',
    name: 'Here',
    provider: 'this test',
    licence: 'none needed',
    attribution: 'Data: this test.',
    url: `${server.root}/{yyyy}{mm}{dd}{hh}/f{fff}`,
    indexUrl: `${server.root}/{yyyy}{mm}{dd}{hh}/f{fff}.idx`,
    index: 'lines',
    cyclesH: [0, 12],
    delayMin: 300,
    steps: [{ fromH: 0, toH: 12, everyH: 6 }],
    quantities: { wind: [{ parameter: 'UGRD' }, { parameter: 'VGRD' }], gust: [{ parameter: 'GUST' }] },
    messageOctets: 70_000,
  };
  writeFileSync(path, JSON.stringify(source));
  return path;
}

beforeAll(async () => {
  server = await flakyServer(0, 1);
  const messages = messagesOf(GFS_WIND);
  const half = messages.length / 2;
  for (const [step, name] of [
    [0, 'f000'],
    [1, 'f006'],
  ] as const) {
    const own = messages.slice(step * half, (step + 1) * half);
    const starts = own.map((_, index) => Buffer.concat(own.slice(0, index)).length);
    const names = own.length === 1 ? ['UGRD'] : ['UGRD', 'VGRD'];
    const lines = starts.map(
      (start, index) => `${index + 1}:${start}:d=2016112000:${names[index]}:10 m above ground:x:`,
    );
    server.files.set(`/2016112000/${name}`, { octets: new Uint8Array(Buffer.concat(own)) });
    server.files.set(`/2016112000/${name}.idx`, { octets: new TextEncoder().encode(lines.join('\n')) });
  }
  server.files.set('/wind.grib2', { octets: GFS_WIND });
});
afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true, force: true });
});

const sha = createHash('sha256').update(GFS_WIND).digest('hex');

describe('slatch forecast get', () => {
  it('an address, to a file: written, told, exit code 0', async () => {
    const out = inFolder('wind.grib2');
    const { code, out: text, err } = await run(`${server.root}/wind.grib2`, '--out', out);
    expect(code).toBe(0);
    expect(err).toMatch(/^1 file, 292 kB: 16 min at 2\.4 kbit\/s/);
    expect(text).toMatch(/^wind\.grib2: 292 kB, \d+ fields: wind at 10 m\.\nWritten to /);
    expect(Buffer.from(GFS_WIND).equals(readFileSync(out))).toBe(true);
  });

  it('a line that breaks while the size is asked for: fetched all the same', async () => {
    nock('https://data.example.org')
      .head('/w.grib2')
      .replyWithError('reset')
      .get('/w.grib2')
      .reply(200, Buffer.from(GFS_WIND));
    const { code, err } = await run('https://data.example.org/w.grib2', '--out', inFolder('w.grib2'));
    expect([code, err]).toEqual([0, '']);
  });

  it('twice into the store: one entry; the second time told', async () => {
    const store = inFolder('store');
    const first = await run(`${server.root}/wind.grib2`, '--store', store, '--json');
    const second = await run(`${server.root}/wind.grib2`, '--store', store);
    expect(JSON.parse(first.out)).toMatchObject({ hash: sha, isNew: true, quantities: ['wind'], store });
    expect(second.out).toContain('It was there before');
    const opened = valueOf(openStore(store));
    expect(valueOf(opened.forecasts.list()).map(({ hash, fileName }) => [hash, fileName])).toEqual([
      [sha, 'wind.grib2'],
    ]);
    opened.close();
  });

  it('a source of the user, its latest cycle, by its index: whose data it is, and what it has not', async () => {
    const out = inFolder('here.grib2');
    const { code, out: text } = await run('--source', describeSource(), '--steps', '0-6/6', '--out', out);
    expect(code).toBe(0);
    expect(text).toMatch(/^here-20161120T00\.grib2: /);
    expect(text).toContain('Not listed by the source: gust in 2 of 2 files');
    expect(text).toContain('Data: this test.\nLicence: none needed.');
    expect(Buffer.from(GFS_WIND).equals(readFileSync(out))).toBe(true);
  });

  it('a quantity named, and not there: exit code 1, nothing written', async () => {
    const out = inFolder('gust.grib2');
    const asked = ['--source', describeSource(), '--steps', '0-6/6', '--quantities', 'wind,gust', '--out', out];
    const { code, err } = await run(...asked);
    expect(code).toBe(1);
    expect(err).toContain('What came holds no gust.');
    expect(existsSync(out)).toBe(false);
  });

  it('a step that is not published: exit code 1, says so', async () => {
    const { code, err } = await run('--source', describeSource(), '--steps', '12', '--out', inFolder('no.grib2'));
    expect([code, err.includes('may not be published yet')]).toEqual([1, true]);
  });

  it('--estimate: the sum of the parts, and nothing fetched', async () => {
    const seenBefore = server.seen.length;
    const { code, out } = await run('--source', describeSource(), '--steps', '0-6/6', '--estimate', '--json');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ fileCount: 2, isGuess: false, cycleUtc: '2016-11-20T00:00Z' });
    expect((JSON.parse(out) as { allOctets: number }).allOctets).toBe(GFS_WIND.length);
    expect(server.seen.slice(seenBefore).some(({ range }) => range !== null && range !== 'bytes=0-0')).toBe(false);
  });

  it('--templates: each with licence and attribution', async () => {
    const { code, out } = await run('--templates');
    expect(code).toBe(0);
    for (const { id, licence, attribution } of BUILT_IN_SOURCES) {
      expect(out).toContain(`${id}: `);
      expect(out).toContain(licence);
      expect(out).toContain(attribution);
    }
  });

  it.each([
    [[], 'give either URLs'],
    [['https://example.org/a', '--template', 'gfs'], 'give either URLs'],
    [['https://example.org/a', '--steps', '0'], '--steps goes with --template'],
    [['https://example.org/a', '--out', 'a', '--store', 'b'], 'either --out or --store'],
    [['https://example.org/a', '--tries', '0'], 'from 1 to 1000'],
    [['https://example.org/a', '--speed', '1'], 'speed'],
  ])('%j: wrong use', async (args, sentence) => {
    const { code, err } = await run(...args);
    expect(code).toBe(2);
    expect(err).toContain(sentence);
  });

  it.each([
    [['--template', 'gsf'], 'Did you mean "gfs"?'],
    [['--template', 'gfs', '--cycle', '2016-11-20T05'], 'no run at this hour'],
    [['--source', '/nowhere.json'], 'cannot be read'],
    [['ftp://example.org/a'], 'https://'],
    [['--template', 'gfs', '--most-mb', '1', '--out', '/nowhere/a'], 'more to fetch than is allowed'],
  ])('%j: a problem in the input', async (args, sentence) => {
    const { code, err } = await run(...args);
    expect(code).toBe(1);
    expect(err).toContain(sentence);
  });
});

describe('amounts in words', () => {
  it.each([
    [999, '999 octets'],
    [1234, '1 kB'],
    [292_316, '292 kB'],
    [12_345_678, '12.3 MB'],
    [1.2e9, '1.2 GB'],
  ])('%d octets: %s', (octets, text) => {
    expect(sizeText(octets)).toBe(text);
  });

  it.each([
    [0.2, '1 s'],
    [89, '89 s'],
    [600, '10 min'],
    [7200, '2 h'],
    [12_000, '3 h 20 min'],
    [400_000, '5 days'],
  ])('%d s: %s', (seconds, text) => {
    expect(durationText(seconds)).toBe(text);
  });
});
