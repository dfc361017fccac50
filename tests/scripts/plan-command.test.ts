/** `slatch plan --standing`, on two jobs of an hour in the wind of a public forecast taken at its word. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readPlan } from '../../lib/brief/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import { planCommand } from '../../scripts/commands/plan.ts';

// Wind of NOAA's GFS of 20 November 2016 (see tests/golden/windows); the boat lies about 34° N 40° W in light air.
// The file holds no waves, so both jobs are conditional; a standing plan of such jobs is kept like any other.

const folder = mkdtempSync(join(tmpdir(), 'plan-'));
afterAll(() => rmSync(folder, { recursive: true }));
const GRIB = fileURLToPath(new URL('../golden/windows/gfs_wind10m_20161120_48h.grib2', import.meta.url));

const write = (name: string, content: unknown): string => {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
};

const job = (id: string) => ({
  id,
  name: `Do ${id}`,
  handlings: ['hold-course'],
  steps: [
    { id: `${id}-step`, name: id, place: 'below', work: { leastMin: 60, likelyMin: 60, mostMin: 60 }, limits: {} },
  ],
});

const passage = write('passage.json', {
  slatch: 1,
  name: 'standing',
  clock: { fixedUtc: '2016-11-20T12:00Z' },
  start: { timeUtc: '2016-11-20T12:00Z', lat: 34.3, lon: -40.4, sailState: 'full-main' },
  track: [
    { lat: 34.3, lon: -40.4 },
    { lat: 34.3, lon: -20 },
  ],
  boat: { speedTables: { 'full-main': [{ twaDeg: 90, twsKn: 10, boatSpeedKn: 1 }] } },
  jobs: [job('lash'), job('sew')],
  forecasts: [GRIB],
  settings: { errorModel: 'none', horizonH: 12, shipTimeOffsetMin: -180 },
});

interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

async function run(...args: readonly string[]): Promise<Ran> {
  const written = { out: '', err: '' };
  const code = await planCommand.run(args, {
    out: (text) => void (written.out += text),
    err: (text) => void (written.err += text),
    readFile,
    nowEpochMs: () => 0,
  });
  return { code, ...written };
}

const planOf = ({ out }: Ran): Plan => {
  const read = readPlan(out, 'standard output');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
};

describe('slatch plan --standing', () => {
  let first: Ran = { code: -1, out: '', err: '' };
  beforeAll(async () => {
    first = await run(passage, '--json');
  });

  test('what it prints can be given back to it: kept, and nothing has changed', async () => {
    expect(first.code).toBe(0);
    expect(planOf(first).standing).toBeNull();
    const standing = write('standing.json', first.out);
    const again = planOf(await run(passage, '--json', '--standing', standing));
    expect(again.standing?.kept).toBe(true);
    expect(again.jobs.map(({ startUtc }) => startUtc)).toEqual(planOf(first).jobs.map(({ startUtc }) => startUtc));
    const { out } = await run(passage, '--standing', standing);
    expect(out).toMatch(/What changed\nstanding: from the plan of .* \(ship’s time\)\.\n {2}Nothing has changed\.\n$/);
  });

  test('a job less in the standing plan: the new one says what it adds', async () => {
    const { jobs, entries, ...rest } = planOf(first);
    const standing = write('fewer.json', {
      ...rest,
      jobs: jobs.filter(({ jobId }) => jobId !== 'sew'),
      entries: entries.filter(({ jobId }) => jobId !== 'sew'),
    });
    const { code, out } = await run(passage, '--standing', standing);
    expect(code).toBe(0);
    expect(out).toContain('  - Do sew: new in the list.');
  });

  test('a plan of another passage: said, and planned all the same', async () => {
    const standing = write('other.json', { ...planOf(first), passageName: 'another trip' });
    const { code, err } = await run(passage, '--standing', standing);
    expect(code).toBe(0);
    expect(err).toContain('The standing plan is one of another passage: another trip.');
  });

  test.each([
    ['no such file', 'There is no such file.', undefined],
    ['no JSON', 'The file is not JSON. The text ends', '{'],
    ['not a plan', 'seed: It is missing.', {}],
  ])('%s: %s, and nothing is planned', async (name, said, content) => {
    const file = content === undefined ? join(folder, 'absent.json') : write(`${name}.json`, content);
    const ran = await run(passage, '--standing', file);
    expect([ran.code, ran.out]).toEqual([1, '']);
    expect(ran.err).toContain(said);
  });
});

describe('slatch plan --log and --number', () => {
  const log = write(
    'log.jsonl',
    `${[
      {
        kind: 'observation',
        atUtc: '2016-11-20T12:30Z',
        lat: 34.31,
        lon: -40.36,
        wind: { kind: 'true', speedKn: 6, fromDegTrue: 80 },
      },
      { kind: 'job', atUtc: '2016-11-20T12:30Z', jobId: 'lash', event: 'started' },
      { kind: 'job', atUtc: '2016-11-20T14:00Z', jobId: 'lash', event: 'done', workedMin: 90 },
    ]
      .map((entry) => JSON.stringify(entry))
      .join('\n')}\n`,
  );
  const later = ['--now', '2016-11-20T14:10Z'] as const;

  test('what is logged is done, the place is that of the log, and the pace learned slows the rest', async () => {
    const third = await run(passage, '--json', '--number', '3');
    const standing = write('third.json', third.out);
    const plan = planOf(await run(passage, '--log', log, '--standing', standing, ...later, '--json'));
    expect(plan.planNumber).toBe(4);
    expect(plan.jobs.map(({ jobId, status }) => [jobId, status])).toEqual([
      ['lash', 'done'],
      ['sew', 'conditional'],
    ]);
    const entry = plan.entries.find(({ jobId, kind }) => jobId === 'sew' && kind === 'work');
    // One piece of 90 min against 60 times the look round every few minutes of plan 3, shrunk: (own + 3 · 1)/4.
    const looks = planOf(third).entries.find(({ jobId, kind }) => jobId === 'lash' && kind === 'work');
    const ratio = (90 / (60 * (looks?.factorsTogetherRatio ?? Number.NaN)) + 3) / 4;
    expect(looks?.factorsTogetherRatio).toBeGreaterThan(1.2);
    expect(ratio).toBeGreaterThan(1.02);
    const ownPace = entry?.factors.find(({ id }) => id === 'own-pace');
    expect(ownPace?.ratio).toBeCloseTo(ratio, 3);
    expect(ownPace?.text).toBe(`your factor ${ratio.toFixed(2)} (n = 1), work below`);
    const { out } = await run(passage, '--log', log, '--standing', standing, ...later);
    expect(out).toContain('By the log\n');
    expect(out).toContain('standing: from plan 3 of ');
    expect(out).toContain('The log, entries 1 to 3: done: "Do lash"; 1 position; 1 reading.');
    expect(out).toContain(`Own pace: your factor ${ratio.toFixed(2)} (n = 1), work below; it was 1.0.`);
    expect(out).toContain('  - Do lash: done.');
  });

  test('a log with a line that cannot be read: nothing is planned', async () => {
    const spoiled = write(
      'spoiled.jsonl',
      '{"kind":"note","atUtc":"2016-11-20T13:00Z","note":"calm"}\n{"kind":"nap"}\n',
    );
    const ran = await run(passage, '--log', spoiled, ...later);
    expect([ran.code, ran.out]).toEqual([1, '']);
    expect(ran.err).toContain('spoiled.jsonl');
    expect((await run(passage, '--log', join(folder, 'absent.jsonl'))).code).toBe(1);
  });

  test.each([[['--number', '0']], [['--number', '2.5']], [['--number', 'four']]])('%j is wrong use', async (args) => {
    expect((await run(passage, ...args)).code).toBe(2);
  });

  test('a number that is not higher than that of the standing plan is wrong use', async () => {
    const standing = write('numbered.json', { ...JSON.parse((await run(passage, '--json')).out), planNumber: 7 });
    const ran = await run(passage, '--standing', standing, '--number', '7');
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('the standing plan is number 7');
  });
});
