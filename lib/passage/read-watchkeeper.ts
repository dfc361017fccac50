import type { z } from 'zod';
import type { Position } from '../geo/index.ts';
import {
  DEFAULT_BODY_KG,
  DEFAULT_GATES,
  DEFAULT_LEAST_SLEEP_H,
  DEFAULT_TIME_FACTORS,
  type Watchkeeper,
} from '../person/index.ts';
import { okUnless, type Problem, type Result } from '../result/index.ts';
import { MS_PER_H, MS_PER_MIN, parseUtc, utcInterval, type UtcInterval } from '../time/index.ts';
import type { watchkeeperFile } from './passage-file.ts';
import { DEFAULT_SLEEP_EFFICIENCY_RATIO } from './settings.ts';

export type WatchkeeperFile = z.infer<typeof watchkeeperFile>;

/** Defaults of the watchkeeper; engineering choices, no source. */
export const WATCHKEEPER_DEFAULTS = {
  wantedSleepHPer24H: 6,
  usualSleepLocal: '22:00',
  paceRatio: 1,
  bodyClockLagMin: 0,
  gloves: 'none',
  leastSleepHPer24H: DEFAULT_LEAST_SLEEP_H,
  bodyKg: DEFAULT_BODY_KG,
} as const;

const ASSUMED_NIGHTS = 3;
const H_PER_DAY = 24;

/** What of the rest of the file the watchkeeper's record refers to. */
export interface WatchkeeperContext {
  /** null: the start could not be read. */
  readonly startEpochMs: number | null;
  readonly start: Position;
  readonly shipTimeOffsetMin: number;
  readonly sleepEfficiencyRatio: number | undefined;
}

/**
 * The watchkeeper; without recorded sleeps the usual nights before the start are assumed.
 *
 * @returns the watchkeeper, or `time.not-an-instant`, `passage.sleep-order`, `passage.sleep-overlap`,
 *   `passage.sleep-none-before-start`
 */
export function readWatchkeeper(file: WatchkeeperFile, where: string, of: WatchkeeperContext): Result<Watchkeeper> {
  const { sleeps: _given, usualSleepLocal: _local, gates, timeFactors, ...own } = file;
  const { usualSleepLocal, ...defaults } = WATCHKEEPER_DEFAULTS;
  const local = file.usualSleepLocal ?? usualSleepLocal;
  const usualSleepSolarH = solarH(local, of);
  const wantedSleepHPer24H = file.wantedSleepHPer24H ?? WATCHKEEPER_DEFAULTS.wantedSleepHPer24H;
  const sleeps = readSleeps(file, where, of.startEpochMs);
  return okUnless(sleeps.ok ? [] : sleeps.problems, () => ({
    ...defaults,
    ...own,
    sleeps:
      sleeps.ok && sleeps.value.length > 0
        ? sleeps.value
        : assumedNights({ usualSleepSolarH, nightH: Math.max(1, wantedSleepHPer24H) }, of),
    usualSleepSolarH,
    sleepEfficiencyRatio: of.sleepEfficiencyRatio ?? DEFAULT_SLEEP_EFFICIENCY_RATIO,
    gates: { ...DEFAULT_GATES, ...gates },
    timeFactors: { ...DEFAULT_TIME_FACTORS, ...timeFactors },
  }));
}

/** Paths of the watchkeeper's figures that a file leaves to their default. */
export const defaultsOfWatchkeeper = (file: WatchkeeperFile): readonly string[] => [
  ...(file.sleeps === undefined || file.sleeps.length === 0 ? ['watchkeeper.sleeps'] : []),
  ...Object.keys(WATCHKEEPER_DEFAULTS)
    .filter((key) => !(key in file))
    .map((key) => `watchkeeper.${key}`),
  ...Object.keys(DEFAULT_GATES)
    .filter((key) => !(key in (file.gates ?? {})))
    .map((key) => `watchkeeper.gates.${key}`),
  ...Object.keys(DEFAULT_TIME_FACTORS)
    .filter((key) => !(key in (file.timeFactors ?? {})))
    .map((key) => `watchkeeper.timeFactors.${key}`),
];

function readSleeps(file: WatchkeeperFile, where: string, startEpochMs: number | null): Result<readonly UtcInterval[]> {
  const given = file.sleeps ?? [];
  const read = given.map((sleep, index) => readSleep(sleep, `${where}.sleeps[${index}]`));
  const sleeps = read.flatMap((sleep) => (sleep.ok ? [sleep.value] : []));
  const problems = read.flatMap((sleep) => (sleep.ok ? [] : sleep.problems));
  const isComplete = problems.length === 0;
  return okUnless(
    [
      ...problems,
      ...(isComplete ? overlapProblems(sleeps, where) : []),
      ...(isComplete && sleeps.length > 0 && startEpochMs !== null ? noneBefore(sleeps, where, startEpochMs) : []),
    ],
    () => sleeps.toSorted((a, b) => a.startEpochMs - b.startEpochMs),
  );
}

function readSleep(sleep: { startUtc: string; endUtc: string }, where: string): Result<UtcInterval> {
  const start = parseUtc(sleep.startUtc, `${where}.startUtc`);
  const end = parseUtc(sleep.endUtc, `${where}.endUtc`);
  if (!start.ok || !end.ok)
    return okUnless([...(start.ok ? [] : start.problems), ...(end.ok ? [] : end.problems)], () => {
      throw new Error('a problem was lost');
    });
  if (end.value > start.value) return { ok: true, value: utcInterval(start.value, end.value) };
  return { ok: false, problems: [endsBeforeStart(sleep, where)] };
}

const endsBeforeStart = (sleep: { startUtc: string; endUtc: string }, where: string): Problem => ({
  code: 'passage.sleep-order',
  where,
  what: `The sleep ends at ${sleep.endUtc}, not after it begins at ${sleep.startUtc}.`,
  expected: 'an end after the start',
  remedy: 'Exchange the two, or correct the date.',
});

/** Sleeps may be written in any order, but no two at the same time. */
function overlapProblems(sleeps: readonly UtcInterval[], where: string): readonly Problem[] {
  const inOrder = sleeps
    .map((sleep, index) => ({ ...sleep, index }))
    .toSorted((a, b) => a.startEpochMs - b.startEpochMs);
  return inOrder.flatMap((sleep, at) => {
    const before = inOrder[at - 1];
    if (before === undefined || before.endEpochMs <= sleep.startEpochMs) return [];
    return [
      {
        code: 'passage.sleep-overlap',
        where: `${where}.sleeps[${sleep.index}]`,
        what: `It begins before sleeps[${before.index}] ends.`,
        expected: 'sleeps that do not overlap',
        remedy: 'Shorten one of the two or make them one.',
      },
    ];
  });
}

function noneBefore(sleeps: readonly UtcInterval[], where: string, startEpochMs: number): readonly Problem[] {
  if (sleeps.some((sleep) => sleep.startEpochMs < startEpochMs)) return [];
  return [
    {
      code: 'passage.sleep-none-before-start',
      where: `${where}.sleeps`,
      what: 'No sleep begins before the start of the passage.',
      expected: 'the sleeps of at least the last 72 h before it',
      remedy: 'Add them; leave the list out to have the usual nights assumed.',
    },
  ];
}

/** Hours after local solar midnight of a time on the ship's clock. */
function solarH(local: string, of: WatchkeeperContext): number {
  const clockH = Number(local.slice(0, 2)) + Number(local.slice(3, 5)) / 60;
  return (((clockH - of.shipTimeOffsetMin / 60 + of.start.lon / 15) % H_PER_DAY) + H_PER_DAY) % H_PER_DAY;
}

/** The last nights that begin before the start, each at the usual hour and of the wanted length. */
function assumedNights(
  usual: { usualSleepSolarH: number; nightH: number },
  of: WatchkeeperContext,
): readonly UtcInterval[] {
  if (of.startEpochMs === null) return [];
  const onsetUtcH = usual.usualSleepSolarH - of.start.lon / 15;
  const dayMs = H_PER_DAY * MS_PER_H;
  const firstMs = Math.round((onsetUtcH * 60) % (H_PER_DAY * 60)) * MS_PER_MIN;
  const lastMs = Math.floor((of.startEpochMs - 1 - firstMs) / dayMs) * dayMs + firstMs;
  return Array.from({ length: ASSUMED_NIGHTS }, (_, k) => {
    const startEpochMs = lastMs - (ASSUMED_NIGHTS - 1 - k) * dayMs;
    return utcInterval(startEpochMs, startEpochMs + usual.nightH * MS_PER_H);
  });
}
