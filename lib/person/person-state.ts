import { MS_PER_H, MS_PER_MIN, type UtcInterval } from '../time/index.ts';
import { bodyClockH } from './alertness/body-clock.ts';
import type { Homeostasis } from './alertness/homeostasis.ts';
import { simulateAlertness, type StartValue } from './alertness/simulate-alertness.ts';
import type { Watchkeeper } from './watchkeeper.ts';

const REMEMBERED_H = 48;

/** The person at the start of a plan: enough to know alertness and gates at any later instant. */
export interface PersonState extends Homeostasis {
  readonly epochMs: number;
  readonly awakeSinceEpochMs: number;
  /** Length of the last sleep, time in the bunk. */
  readonly lastSleepMin: number;
  /** Body-clock hour at which it ended. */
  readonly wokeTodH: number;
  /** Sleeps of the last 48 h, cut to them. */
  readonly recentSleeps: readonly UtcInterval[];
  /** The model wants two completed sleeps behind it before its figures are to be trusted. */
  readonly isTrusted: boolean;
}

/** Where a plan starts. */
export interface PersonStart {
  readonly epochMs: number;
  readonly lon: number;
  /** Default: S 7.96 where the record begins. */
  readonly start?: StartValue;
}

/**
 * The person at the start of a plan, from the recorded sleeps.
 *
 * A sleep still going on at the start ends there; later ones are left out. Throws without any sleep before the start:
 * the passage room fills in the usual nights.
 */
export function startState(watchkeeper: Watchkeeper, at: PersonStart): PersonState {
  const sleeps = sleepsBefore(watchkeeper.sleeps, at.epochMs);
  const last = sleeps.at(-1);
  if (last === undefined) throw new Error('no sleep before the start: fill in the usual nights first');
  const todAt = (epochMs: number): number => bodyClockH(epochMs, at.lon, watchkeeper.bodyClockLagMin);
  const [state] = simulateAlertness(sleeps, {
    atEpochMs: [at.epochMs],
    bodyClock: todAt,
    sleepEfficiencyRatio: watchkeeper.sleepEfficiencyRatio,
    ...(at.start === undefined ? {} : { start: at.start }),
  });
  if (state === null || state === undefined) throw new Error('the record begins before its first sleep');
  return {
    epochMs: at.epochMs,
    s: state.s,
    unified: state.unified,
    awakeSinceEpochMs: last.endEpochMs,
    lastSleepMin: (last.endEpochMs - last.startEpochMs) / MS_PER_MIN,
    wokeTodH: todAt(last.endEpochMs),
    recentSleeps: recent(sleeps, at.epochMs),
    isTrusted: sleeps.length >= 2,
  };
}

const sleepsBefore = (sleeps: readonly UtcInterval[], epochMs: number): readonly UtcInterval[] =>
  sleeps
    .filter((sleep) => sleep.startEpochMs < epochMs)
    .map((sleep) => ({ ...sleep, endEpochMs: Math.min(sleep.endEpochMs, epochMs) }));

function recent(sleeps: readonly UtcInterval[], epochMs: number): readonly UtcInterval[] {
  const fromEpochMs = epochMs - REMEMBERED_H * MS_PER_H;
  return sleeps
    .filter((sleep) => sleep.endEpochMs > fromEpochMs)
    .map((sleep) => ({ ...sleep, startEpochMs: Math.max(sleep.startEpochMs, fromEpochMs) }));
}
