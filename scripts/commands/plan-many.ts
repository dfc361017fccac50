import { mkdir } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { formatUtc, MS_PER_MIN } from '../../lib/time/index.ts';
import {
  command,
  instantOption,
  numberOption,
  reportProblems,
  takeApart,
  type TakenApart,
  WrongUse,
} from './arguments.ts';
import type { CommandIo } from './command.ts';
import { findPassages } from './plan-many/find-passages.ts';
import { hashesOnce, type PlanSettings, programHash } from './plan-many/made-of.ts';
import { planOne, type PassageOutcome, stoppedOutcome } from './plan-many/plan-one.ts';
import { runMany } from './plan-many/run-many.ts';
import { publishedSummary, type Summary, summaryText } from './plan-many/summary.ts';

const HELP = `slatch plan-many PASSAGE|FOLDER… --out FOLDER [--parallel N] [--now UTC] [--until UTC] [--seed N] [--again] [--json]

  Plans many passages side by side, each in a process of its own. For every passage NAME.json, FOLDER receives
    NAME.plan.json  the plan: the octets that slatch plan NAME.json --json prints, written whole or not at all
    NAME.made.json  what it was made of (hashes of passage, forecasts and program, settings), what it took, problems
  A passage that cannot be planned does not stop the others; a plan made before of the same is left as it is, so that the
  same command goes on where it was ended. A plan of earlier inputs stays until a new one is there.
  --parallel  so many at once; all processors of this machine. Each may hold some hundred MiB: see the table
  --now, --until, --seed
              as for slatch plan, the same for all; without --now passages with a live clock are planned from the minute
              in which the command began
  --again     plans anew what is there
  --json      what became of each passage as JSON instead of a table
  Exit code 0: every plan is there; 1: one is not.

  slatch plan-many sample-forecasts/demo-passage.json --out plans
  slatch plan-many boats --out plans --now 2026-05-27T18:00Z --parallel 4
`;

/** `slatch plan-many`. */
export const planManyCommand = command({ name: 'plan-many', help: HELP, run: planMany });

const MOST_PARALLEL = 1024;
const MOST_SEED = 2 ** 31 - 1;

async function planMany(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, {
    out: 'text',
    parallel: 'text',
    now: 'text',
    until: 'text',
    seed: 'text',
    again: 'flag',
    json: 'flag',
  });
  if (typeof given === 'string') throw new WrongUse(given);
  const outFolder = given.texts.get('out');
  if (outFolder === undefined || outFolder === '') throw new WrongUse('--out is missing: the folder for the plans.');
  if (given.files.length === 0) throw new WrongUse('no passage file and no folder is given.');
  const parallelCount = wholeOption(given, 'parallel', { least: 1, most: MOST_PARALLEL }) ?? availableParallelism();
  const settings = settingsOf(given);
  const asked = { outFolder, parallelCount, settings, again: given.flags.has('again') };
  const summary = await untilStopped((signal) => planAll(given.files, { ...asked, signal }, io));
  if (!summary.ok) {
    reportProblems(io, summary.problems);
    return 1;
  }
  const { value } = summary;
  io.out(given.flags.has('json') ? `${JSON.stringify(publishedSummary(value), null, 2)}\n` : summaryText(value));
  return value.passages.every(({ state }) => state === 'planned' || state === 'kept') ? 0 : 1;
}

interface Asked {
  readonly outFolder: string;
  readonly parallelCount: number;
  readonly settings: PlanSettings;
  readonly again: boolean;
  readonly signal: AbortSignal;
}

async function planAll(names: readonly string[], asked: Asked, io: CommandIo): Promise<Result<Summary>> {
  const { outFolder, parallelCount, signal } = asked;
  const found = await findPassages(names);
  const [first, ...rest] = [...found.problems, ...(await madeFolder(outFolder))];
  if (first !== undefined) return failed(first, ...rest);
  const beganEpochMs = io.nowEpochMs();
  const options = {
    ...asked,
    hashOf: hashesOnce(),
    programSha256: await programHash(),
    beganUtc: formatUtc(Math.floor(beganEpochMs / MS_PER_MIN) * MS_PER_MIN),
  };
  const say = tellingOf(found.passages.length, io);
  const passages = await runMany(found.passages, parallelCount, async (passage) => {
    const outcome = signal.aborted ? stoppedOutcome(passage) : await planOne(passage, options);
    say(outcome);
    return outcome;
  });
  const tookMs = io.nowEpochMs() - beganEpochMs;
  return ok({ outFolder, parallelCount, tookMs, passedOver: found.passedOver, passages });
}

/** Instants are read here, so that a wrong one is told once and not for every passage. */
function settingsOf(given: TakenApart): PlanSettings {
  const instant = (name: string): string | null => {
    const epochMs = instantOption(given, name);
    return epochMs === null ? null : formatUtc(epochMs);
  };
  const seed = wholeOption(given, 'seed', { least: 0, most: MOST_SEED });
  return { nowUtc: instant('now'), untilUtc: instant('until'), seed: seed === null ? null : String(seed) };
}

function wholeOption(given: TakenApart, name: string, range: { least: number; most: number }): number | null {
  const count = numberOption(given, name, range);
  if (count !== null && !Number.isInteger(count)) throw new WrongUse(`--${name} ${count}: expected a whole number.`);
  return count;
}

async function madeFolder(folder: string): Promise<Problem[]> {
  try {
    await mkdir(folder, { recursive: true });
    return [];
  } catch (error) {
    return [
      {
        code: 'file.not-written',
        where: folder,
        what: `The folder cannot be made: ${error instanceof Error ? error.message : String(error)}.`,
        expected: 'a folder that may be written',
        remedy: 'Name another folder.',
      },
    ];
  }
}

/** Says each outcome on standard error as it comes. */
function tellingOf(allCount: number, io: CommandIo): (outcome: PassageOutcome) => void {
  let doneCount = 0;
  return ({ name, state }) => {
    doneCount += 1;
    if (state !== 'stopped') io.err(`${doneCount}/${allCount} ${name}: ${state}\n`);
  };
}

const STOP_SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Hears a stop from outside: what is in the making is ended with it. */
async function untilStopped<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const stopping = new AbortController();
  const stop = (): void => stopping.abort();
  for (const name of STOP_SIGNALS) process.on(name, stop);
  try {
    return await work(stopping.signal);
  } finally {
    for (const name of STOP_SIGNALS) process.off(name, stop);
  }
}
