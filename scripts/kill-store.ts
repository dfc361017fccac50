/**
 * Kills a process that writes to a store, again and again, at drawn instants, and asks after each kill whether anything that
 * was acknowledged is lost: while it writes every kind of thing there is, opens the store, brings an older one up to date,
 * makes a backup, or restores one. Then spoils the end of the write-ahead log, as a power cut on a disk that lies may.
 *
 *     npm run kill-store -- [--kills N] [--cuts N] [--seed S] [--only INDEX]
 *
 * 200 kills and 60 spoiled logs unless told. The seed gives the instants; what a process has reached by then depends on the
 * machine. --only does one kill of a seed, on a store that is new. Exit code 0: nothing lost; 1: something, with seed and
 * index; 2: wrong use.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { type Ground, newGround, type Trial, TRIAL_KINDS, type TrialKind, tryKill } from './kill-store/trials.ts';

/** Of ten kills, six are while writing and one of each other kind. */
const ORDER: readonly TrialKind[] = [
  'writing',
  'writing',
  'opening',
  'writing',
  'migrating',
  'writing',
  'backing up',
  'writing',
  'restoring',
  'writing',
];
/** So that a store does not grow until looking at it takes longest. */
const KILLS_TO_A_STORE = 20;

interface Asked {
  readonly kills: number;
  readonly cuts: number;
  readonly seed: number;
  readonly only: number | null;
}

function asked(): Asked | null {
  const numbers = { kills: '200', cuts: '60', seed: '1', only: '' };
  try {
    const option = (value: string) => ({ type: 'string' as const, default: value });
    const options = Object.fromEntries(Object.entries(numbers).map(([name, value]) => [name, option(value)]));
    const { values } = parseArgs({ options });
    const [kills, cuts, seed, only] = Object.keys(numbers).map((name) => values[name] ?? '');
    const isWhole = [kills, cuts, seed].every((text) => /^\d{1,9}$/.test(text ?? '')) && /^\d{0,9}$/.test(only ?? '');
    if (!isWhole) return null;
    return { kills: Number(kills), cuts: Number(cuts), seed: Number(seed), only: only === '' ? null : Number(only) };
  } catch {
    return null;
  }
}

const kindAt = (index: number): TrialKind => ORDER[index % ORDER.length] ?? 'writing';

async function killAll({ kills, cuts, seed, only }: Asked, scratch: string): Promise<readonly Trial[]> {
  const indices = only === null ? Array.from({ length: kills }, (_, index) => index) : [only];
  const writingCount = indices.filter((index) => kindAt(index) === 'writing').length;
  const cutsEach = Math.ceil(cuts / Math.max(1, writingCount));
  const trials: Trial[] = [];
  let ground: Ground | null = null;
  for (const [place, index] of indices.entries()) {
    if (ground === null || place % KILLS_TO_A_STORE === 0) {
      rmSync(join(scratch, 'ground'), { recursive: true, force: true });
      ground = newGround(join(scratch, 'ground'));
    }
    // oxlint-disable-next-line no-await-in-loop
    const trial = await tryKill(ground, { kind: kindAt(index), seed: seed * 100_000 + index, cutCount: cutsEach });
    trials.push(trial);
    for (const fault of trial.faults)
      console.log(`--seed ${seed} --only ${index} (${trial.kind}, ${trial.afterMs} ms): ${fault}`);
    if (process.stderr.isTTY) process.stderr.write(`\r${place + 1} of ${indices.length} kills`);
  }
  return trials;
}

function table(trials: readonly Trial[]): string {
  const sum = (of: readonly Trial[], value: (trial: Trial) => number): number =>
    of.reduce((total, trial) => total + value(trial), 0);
  const row = (name: string, of: readonly Trial[]): string =>
    [
      name.padEnd(11),
      String(of.length).padStart(6),
      String(of.filter(({ isKilled }) => isKilled).length).padStart(8),
      String(sum(of, ({ acknowledgedCount }) => acknowledgedCount)).padStart(13),
      String(sum(of, ({ cutCount }) => cutCount)).padStart(6),
      String(sum(of, ({ lostToCutsCount }) => lostToCutsCount)).padStart(13),
      String(sum(of, ({ faults }) => faults.length)).padStart(8),
    ].join('');
  return [
    'killed       kills in time acknowledged  cuts  lost to cuts  faults',
    ...TRIAL_KINDS.map((kind) =>
      row(
        kind,
        trials.filter((trial) => trial.kind === kind),
      ),
    ),
    row('together', trials),
    '',
    'In time: the process was at work still. Lost to cuts: acknowledged writes that a spoiled log took along, the last ones',
    'each time; only a disk that says it has written what it has not can lose them.',
    ...(trials.every(({ faults }) => faults.length === 0)
      ? ['Everything that was acknowledged was there after each kill.']
      : []),
  ].join('\n');
}

const given = asked();
if (given === null) {
  console.error('Use: npm run kill-store -- [--kills N] [--cuts N] [--seed S] [--only INDEX]');
  process.exit(2);
}
const scratch = mkdtempSync(join(tmpdir(), 'kill-store-'));
const trials = await killAll(given, scratch);
rmSync(scratch, { recursive: true, force: true });
console.log(table(trials));
process.exitCode = trials.some(({ faults }) => faults.length > 0) ? 1 : 0;
