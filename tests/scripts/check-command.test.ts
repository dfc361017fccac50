import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { checkCommand } from '../../scripts/commands/check.ts';

// Wind of NOAA's GFS of 20 November 2016 (see tests/golden/windows), taken at its word; the file holds no waves, so every job is
// conditional. The boat lies about 34° N 40° W. Between sleepiness 5 and 6 an hour of work takes 69 min (factor 1.15).

const folder = mkdtempSync(join(tmpdir(), 'check-'));
afterAll(() => rmSync(folder, { recursive: true }));
const GRIB = fileURLToPath(new URL('../golden/windows/gfs_wind10m_20161120_48h.grib2', import.meta.url));

const write = (name: string, content: unknown): string => {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
};

const job = (id: string, more: object = {}) => ({
  id,
  name: `Do ${id}`,
  handlings: ['hold-course', 'run-off'],
  steps: [
    { id: `${id}-step`, name: id, place: 'deck', work: { leastMin: 60, likelyMin: 60, mostMin: 60 }, limits: {} },
  ],
  ...more,
});

const passage = write('passage.json', {
  slatch: 1,
  name: 'check',
  clock: { fixedUtc: '2016-11-20T12:00Z' },
  start: { timeUtc: '2016-11-20T12:00Z', lat: 34.3, lon: -40.4, sailState: 'full-main' },
  track: [
    { lat: 34.3, lon: -40.4 },
    { lat: 34.3, lon: -20 },
  ],
  boat: { speedTables: { 'full-main': [{ twaDeg: 90, twsKn: 10, boatSpeedKn: 1 }] } },
  jobs: [job('lash'), job('sew', { after: ['lash'] })],
  forecasts: [GRIB],
  settings: { errorModel: 'none', horizonH: 24, shipTimeOffsetMin: -180 },
});

async function run(...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  const written = { out: '', err: '' };
  const code = await checkCommand.run(args, {
    out: (text) => void (written.out += text),
    err: (text) => void (written.err += text),
    readFile,
    nowEpochMs: () => 0,
  });
  return { code, ...written };
}

const own = write('own.json', {
  entries: [
    { jobId: 'sew', startUtc: '2016-11-20T13:00Z' },
    { jobId: 'lash', startUtc: '2016-11-20T13:30Z', handling: 'hold-course' },
  ],
});

describe('slatch check', () => {
  test('tells every entry with what speaks against it, in ship’s time, and the usual cautions', async () => {
    const { code, out } = await run(passage, own);
    expect(code).toBe(0);
    expect(out).toContain('Something speaks against 2 of 2 entries.');
    expect(out).toContain('Sun 20 Nov 10:00 – 11:10  Do sew, hold the course');
    expect(out).toContain('"Do lash" is finished only 1 h 40 min later');
    expect(out).toContain('40 min of it lie in "Do sew", from Sun 20 Nov 10:30');
    expect(out).toContain('COLREG Rule 5');
  });

  test('--json: instants as UTC text, findings as data and in words', async () => {
    const { out } = await run(passage, own, '--json');
    const parsed: unknown = JSON.parse(out);
    expect(parsed).toMatchObject({
      entries: [
        {
          jobId: 'sew',
          startUtc: '2016-11-20T13:00Z',
          endUtc: '2016-11-20T14:10Z',
          handling: 'hold-course',
          unknownLimits: ['handling-sea'],
        },
        { jobId: 'lash' },
      ],
      figures: { allDoneProbability: null, finishedJobIds: ['lash', 'sew'], violationCount: 2 },
      beside: null,
    });
    expect(out).toContain('"rule": "precedence"');
    expect(out).toContain('"verdict": "unknown"');
  });

  test('the JSON of slatch plan is a plan too; --against shows its figures beside', async () => {
    const entry = { kind: 'work', endUtc: '', handling: null, sailState: 'full-main', lat: 0 };
    const made = write('made.json', {
      madeAtUtc: '2016-11-20T12:00Z',
      entries: [
        { ...entry, jobId: 'lash', startUtc: '2016-11-20T13:00Z', stepIds: ['lash-step'] },
        {
          ...entry,
          kind: 'sleep',
          jobId: null,
          startUtc: '2016-11-20T15:00Z',
          endUtc: '2016-11-20T16:00Z',
          stepIds: [],
        },
        { ...entry, kind: 'lookout', jobId: null, startUtc: '2016-11-20T16:00Z', stepIds: [] },
        { ...entry, jobId: 'sew', startUtc: '2016-11-20T18:00Z', stepIds: ['sew-step'] },
      ],
    });
    const { code, out } = await run(passage, own, '--against', made);
    expect(code).toBe(0);
    expect(out).toContain('This plan: 2 jobs finished by Sun 20 Nov 11:40');
    expect(out).toContain('The other plan: 2 jobs finished by Sun 20 Nov 16:00');
    expect(out).toContain('1.0 h of sleep till then; something speaks against 0 of its entries.');
  });

  test('all that is wrong with a plan at once, with the place and what was perhaps meant; exit code 1', async () => {
    const wrong = write('wrong.json', {
      entries: [
        { jobId: 'seew', startUtc: 'tomorrow', handling: 'run-of' },
        { jobId: 'lash', startUtc: '2016-11-20T13:00Z', blockIndex: 3 },
      ],
      sleeps: [
        { startUtc: '2016-11-20T10:00Z', endUtc: '2016-11-20T09:00Z' },
        { startUtc: '2016-11-20T14:00Z', endUtc: '2016-11-20T16:00Z' },
        { startUtc: '2016-11-20T15:00Z', endUtc: '2016-11-20T17:00Z' },
      ],
    });
    const { code, err, out } = await run(passage, wrong);
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toContain('entries[0].startUtc: "tomorrow" is not an instant.');
    expect(err).toContain(
      'entries[0].jobId: The passage has no job "seew". Expected one of lash, sew. Did you mean "sew"?',
    );
    expect(err).toContain('Did you mean "run-off"?');
    expect(err).toContain('entries[1].blockIndex: The job has no block 3. Expected a whole number from 0 to 0.');
    expect(err).toContain('sleeps[0]: It does not end after it starts.');
    expect(err).toContain('sleeps: Two sleeps lie over each other.');
  });

  test.each([
    ['an unknown key', { entries: [{ jobId: 'lash', startUtc: '', handeling: 'x' }] }, 'Did you mean "handling"?'],
    ['a missing key', { entries: [{ jobId: 'lash' }] }, 'entries[0].startUtc: It is missing.'],
    ['a number for a text', { entries: [{ jobId: 3, startUtc: '' }] }, 'entries[0].jobId: 3 does not fit.'],
    ['no list at all', {}, 'entries: It is missing.'],
    ['no JSON', '{ "entries": [', 'Expected JSON text'],
  ])('%s: refused with place and remedy', async (_, content, text) => {
    const { code, err } = await run(passage, write('refused.json', content));
    expect(code).toBe(1);
    expect(err).toContain(text);
  });

  test('a plan that is not there', async () => {
    const { code, err } = await run(passage, join(folder, 'none.json'));
    expect(code).toBe(1);
    expect(err).toContain('There is no such file.');
  });

  test.each([[[passage]], [[passage, own, own]], [[passage, own, '--seeed', '1']]])(
    'wrong use %#: exit code 2',
    async (args) => {
      const { code, err } = await run(...args);
      expect(code).toBe(2);
      expect(err).toContain('slatch check PASSAGE OWN.json');
    },
  );

  test('--help prints the help', async () => {
    expect((await run('--help')).out).toContain('slatch check PASSAGE OWN.json');
  });

  test('the passage file is left as it was', () => {
    expect(readFileSync(passage, 'utf8')).toContain('"name":"check"');
  });
});
