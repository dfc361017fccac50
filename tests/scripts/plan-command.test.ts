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
    ['no JSON', 'Expected JSON.', '{'],
    ['not a plan', 'seed: It is missing.', {}],
  ])('%s: %s, and nothing is planned', async (name, said, content) => {
    const file = content === undefined ? join(folder, 'absent.json') : write(`${name}.json`, content);
    const ran = await run(passage, '--standing', file);
    expect([ran.code, ran.out]).toEqual([1, '']);
    expect(ran.err).toContain(said);
  });
});
