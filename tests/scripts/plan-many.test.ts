/** `slatch plan-many`: many passages side by side, each plan the octets that `slatch plan --json` prints. */
import { execFile, execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { planManyCommand } from '../../scripts/commands/plan-many.ts';
import { findPassages } from '../../scripts/commands/plan-many/find-passages.ts';
import { hashesOnce, madeOf } from '../../scripts/commands/plan-many/made-of.ts';
import { runMany } from '../../scripts/commands/plan-many/run-many.ts';
import { planCommand } from '../../scripts/commands/plan.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { BATCH_SNIPPETS } from './batch-snippets.ts';

// Wind of NOAA's GFS of 20 November 2016 (see tests/golden/windows).
const GRIB = fileURLToPath(new URL('../golden/windows/gfs_wind10m_20161120_48h.grib2', import.meta.url));
/** Of the GNU core utilities. */
const SHA256 = 'sha256sum';
const PROJECT = resolve(import.meta.dirname, '../..');

const folder = mkdtempSync(join(tmpdir(), 'plan-many-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** A boat in light air about 34° N 40° W, with one job of an hour. */
const passage = (seed: number) => ({
  slatch: 1,
  name: `boat ${seed}`,
  clock: { fixedUtc: '2016-11-20T12:00Z' },
  start: { timeUtc: '2016-11-20T12:00Z', lat: 34.3, lon: -40.4, sailState: 'full-main' },
  track: [
    { lat: 34.3, lon: -40.4 },
    { lat: 34.3, lon: -20 },
  ],
  boat: { speedTables: { 'full-main': [{ twaDeg: 90, twsKn: 10, boatSpeedKn: 1 }] } },
  jobs: [
    {
      id: 'lash',
      name: 'Lash',
      handlings: ['hold-course'],
      steps: [
        {
          id: 'lash-it',
          name: 'lash',
          place: 'deck',
          work: { leastMin: 50, likelyMin: 60, mostMin: 80 },
          limits: { deckWindKn: { ideal: 6, caution: 9, noGo: 11 } },
        },
      ],
    },
  ],
  forecasts: [GRIB],
  settings: { horizonH: 12, seed },
});

function write(inFolder: string, name: string, content: unknown): string {
  const path = join(folder, inFolder, name);
  mkdirSync(join(folder, inFolder), { recursive: true });
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

async function run(of: typeof planCommand, ...args: readonly string[]): Promise<Ran> {
  const written = { out: '', err: '' };
  const code = await of.run(args, {
    out: (text) => void (written.out += text),
    err: (text) => void (written.err += text),
    readFile,
    nowEpochMs: () => Date.UTC(2016, 10, 20, 12),
  });
  return { code, ...written };
}

interface Told {
  readonly passages: readonly { readonly name: string; readonly state: string; readonly said: readonly string[] }[];
}

async function planMany(
  ...args: readonly string[]
): Promise<Ran & { readonly states: Readonly<Record<string, string>> }> {
  const ran = await run(planManyCommand, ...args, '--json');
  const told = JSON.parse(ran.out) as Told;
  return { ...ran, states: Object.fromEntries(told.passages.map(({ name, state }) => [name, state])) };
}

/** Surroundings of the processes that plan, until the work is done. */
async function withEnvironment<T>(values: Readonly<Record<string, string>>, work: () => Promise<T>): Promise<T> {
  const before = Object.keys(values).map((name) => [name, process.env[name]] as const);
  Object.assign(process.env, values);
  try {
    return await work();
  } finally {
    for (const [name, value] of before) {
      if (value === undefined) delete process.env[name];
      else process.env[name] = value;
    }
  }
}

describe('plan-many', () => {
  const boats = join(folder, 'boats');
  const plans = join(folder, 'plans');

  test('two passages side by side under another clock, language and home: plans are those of slatch plan, octet by octet; a broken one stops nobody', async () => {
    const first = write('boats', 'anna.json', passage(1));
    const second = write('boats', 'berta.json', passage(2));
    write('boats', 'torn.json', '{"slatch": 1, "name": "to');
    write('boats', 'prices.json', { twine: 12 });
    const odd = {
      TZ: 'Pacific/Chatham',
      LC_ALL: 'tr_TR.UTF-8',
      HOME: '/nonexistent',
      NODE_OPTIONS: '--max-semi-space-size=2',
    };

    const ran = await withEnvironment(odd, () => planMany(boats, '--out', plans, '--parallel', '2'));

    expect(ran.code).toBe(1);
    expect(ran.states).toEqual({ anna: 'planned', berta: 'planned', torn: 'failed' });
    expect(ran.out).toContain('prices.json');
    for (const [name, file] of Object.entries({ anna: first, berta: second }))
      // In this very process, beside whatever else it has done.
      // oxlint-disable-next-line no-await-in-loop
      expect((await run(planCommand, file, '--json')).out).toBe(readFileSync(join(plans, `${name}.plan.json`), 'utf8'));
    expect(readdirSync(plans).toSorted()).toEqual(
      ['anna', 'berta', 'torn'].flatMap((name) => [
        `${name}.made.json`,
        ...(name === 'torn' ? [] : [`${name}.plan.json`]),
      ]),
    );
    expect(readFileSync(join(plans, 'torn.made.json'), 'utf8')).toContain('torn.json');
  });

  test('a plan whose octets were changed is made anew, the other is kept', async () => {
    const good = readFileSync(join(plans, 'anna.plan.json'));
    writeFileSync(join(plans, 'anna.plan.json'), good.subarray(0, 1000));
    rmSync(join(boats, 'torn.json'));
    const mended = await planMany(boats, '--out', plans);
    expect(mended.code).toBe(0);
    expect(mended.states).toEqual({ anna: 'planned', berta: 'kept' });
    expect(readFileSync(join(plans, 'anna.plan.json')).equals(good)).toBe(true);
  });

  test('ended by SIGTERM while it plans: exit code 1, told, and no part of a plan is left', async () => {
    const out = join(folder, 'ended');
    const child = spawn(
      process.execPath,
      [join(PROJECT, 'scripts/slatch.mjs'), 'plan-many', join(PROJECT, 'sample-forecasts'), '--out', out],
      { stdio: ['ignore', 'pipe', 'ignore'] },
    );
    const said: Buffer[] = [];
    child.stdout.on('data', (chunk: Buffer) => void said.push(chunk));
    // The folder is made once the signal is listened for; whether a process runs yet makes no difference.
    while (!existsSync(out)) await new Promise((settle) => setTimeout(settle, 50));
    child.kill('SIGTERM');
    const [code] = (await once(child, 'close')) as [number | null];
    expect(code).toBe(1);
    expect(Buffer.concat(said).toString()).toContain('1 not made because it was stopped');
    expect(readdirSync(out)).toEqual([]);
  });

  test('wrong use: no folder for the plans, no passage, half a process: exit code 2', async () => {
    for (const args of [[boats], ['--out', plans], [boats, '--out', plans, '--parallel', '1.5']]) {
      // oxlint-disable-next-line no-await-in-loop
      const { code, err } = await run(planManyCommand, ...args);
      expect({ args, code }).toEqual({ args, code: 2 });
      expect(err).toContain('slatch plan-many');
    }
  });
});

describe('madeOf', () => {
  const settings = { nowUtc: null, untilUtc: null, seed: null };
  const of = { hashOf: hashesOnce(), programSha256: 'p', beganUtc: '2016-11-20T12:34Z' };

  test('passage, forecast, program, now, until and seed each change it; the same again does not', async () => {
    write('made', 'wind.grib2', 'GRIB one');
    const file = write('made', 'boat.json', { ...passage(1), forecasts: ['wind.grib2', 'none.grib2'] });
    const [first, again] = [
      await madeOf(file, settings, of),
      await madeOf(file, settings, { ...of, hashOf: hashesOnce() }),
    ];
    expect(again).toEqual(first);
    // SHA-256 of the octets "GRIB one", by sha256sum (coreutils).
    expect(first.files).toEqual([
      {
        name: 'wind.grib2',
        sha256: execFileSync(SHA256, [join(folder, 'made', 'wind.grib2')])
          .toString()
          .slice(0, 64),
      },
      { name: 'none.grib2', sha256: null },
    ]);
    const others = await Promise.all([
      madeOf(file, { ...settings, seed: '2' }, of),
      madeOf(file, { ...settings, nowUtc: '2016-11-20T13:00Z' }, of),
      madeOf(file, { ...settings, untilUtc: '2016-11-21T00:00Z' }, of),
      madeOf(file, settings, { ...of, programSha256: 'q' }),
    ]);
    write('made', 'wind.grib2', 'GRIB two');
    others.push(await madeOf(file, settings, { ...of, hashOf: hashesOnce() }));
    write('made', 'boat.json', passage(2));
    others.push(await madeOf(file, settings, { ...of, hashOf: hashesOnce() }));
    expect(new Set([first, ...others].map((made) => JSON.stringify(made))).size).toBe(7);
  });

  test('with a live clock the minute the command began is now, unless the command line says another', async () => {
    const file = write('made', 'live.json', { ...passage(1), clock: 'live' });
    expect((await madeOf(file, settings, of)).nowUtc).toBe(of.beganUtc);
    expect((await madeOf(file, { ...settings, nowUtc: '2016-11-20T13:00Z' }, of)).nowUtc).toBe('2016-11-20T13:00Z');
    expect((await madeOf(write('made', 'fixed.json', passage(1)), settings, of)).nowUtc).toBeNull();
  });
});

describe('findPassages', () => {
  test('two files of one name in two folders: both are named, since their plans would be one file', async () => {
    const [one, two] = [write('x', 'same.json', passage(1)), write('y', 'same.json', passage(2))];
    const { problems } = await findPassages([one, two]);
    expect(problems.map(({ code }) => code)).toEqual(['plan-many.same-name']);
    expect(JSON.stringify(problems)).toContain(join('x', 'same.json'));
  });

  test('a file given twice and by its folder is one passage; plans and records of the folder are none', async () => {
    const file = write('z', 'one.json', passage(1));
    write('z', 'one.plan.json', { slatch: 1 });
    write('z', 'one.made.json', { slatch: 1 });
    const { passages, passedOver, problems } = await findPassages([file, join(folder, 'z'), file]);
    expect(passages.map(({ name }) => name)).toEqual(['one']);
    expect({ passedOver, problems }).toEqual({ passedOver: [], problems: [] });
  });

  test('a name that is not there, and a folder without passages, are problems', async () => {
    const missing = await findPassages([join(folder, 'nowhere')]);
    expect(missing.problems.map(({ code }) => code)).toEqual(['file.unreadable']);
    mkdirSync(join(folder, 'empty'));
    const empty = await findPassages([join(folder, 'empty')]);
    expect(empty.problems.map(({ code }) => code)).toEqual(['plan-many.no-passage']);
  });
});

test('runMany: any number of works of any length at any number at once: each is done once, answers stand in order, never more at once', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.integer({ min: 1, max: 4 }), { maxLength: 30 }),
      fc.integer({ min: 1, max: 8 }),
      async (turns, parallelCount) => {
        let [atOnce, most] = [0, 0];
        const answers = await runMany([...turns.entries()], parallelCount, async ([index, count]) => {
          atOnce += 1;
          most = Math.max(most, atOnce);
          for (let k = 0; k < count; k++) await Promise.resolve();
          atOnce -= 1;
          return index;
        });
        expect(answers).toEqual([...turns.keys()]);
        expect(most).toBe(Math.min(parallelCount, turns.length));
      },
    ),
    { seed: 20261126, numRuns: 100 },
  );
});

describe('the snippets of DEVELOPERS.md, in a shell', () => {
  test('they are those of the section "A fleet office"', () => {
    const developers = readFileSync(join(PROJECT, 'DEVELOPERS.md'), 'utf8');
    for (const snippet of Object.values(BATCH_SNIPPETS))
      expect({ snippet, stands: developers.includes(snippet) }).toEqual({ snippet, stands: true });
  });

  test.each(IS_LONG_RUN ? (['xargs', 'make'] as const) : (['xargs'] as const))(
    '%s: one job for each passage, and plans are those of plan-many',
    async (tool) => {
      const at = join(folder, `batch-${tool}`);
      cpSync(join(folder, 'x'), join(at, 'boats'), { recursive: true });
      // The program as it is called once it is installed.
      const bin = join(at, 'bin');
      mkdirSync(bin);
      writeFileSync(
        join(bin, 'slatch'),
        `#!/bin/sh\nexec "${process.execPath}" "${PROJECT}/scripts/slatch.mjs" "$@"\n`,
        { mode: 0o755 },
      );
      if (tool === 'make') writeFileSync(join(at, 'Makefile'), BATCH_SNIPPETS.makefile);
      await promisify(execFile)('sh', ['-ec', BATCH_SNIPPETS[tool]], {
        cwd: at,
        env: { ...process.env, PATH: `${bin}:${process.env['PATH'] ?? ''}` },
      });
      const { out } = await run(planCommand, join(at, 'boats', 'same.json'), '--json');
      expect(readFileSync(join(at, 'plans', 'same.plan.json'), 'utf8')).toBe(out);
    },
  );
});
