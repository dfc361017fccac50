import type { Passage } from '../passage/index.ts';
import { ASSUMED_SLEEPS, watchkeeperNow } from './after/watchkeeper-now.ts';
import type { Known } from './after/known.ts';
import { paceNow, paceRatioOf } from './after/pace-now.ts';
import { lockerNow } from './after/locker-now.ts';
import { ordersNow } from './after/orders-now.ts';
import { placeNow } from './after/place-now.ts';
import { sailStateNow } from './after/sail-state-now.ts';
import { windNotes } from './after/wind-now.ts';
import { effectiveEntries, type EffectiveEntry } from './effective.ts';
import type { NumberedEntry } from './entry.ts';
import { jobStateNote } from './job-state-words.ts';
import type { JobState } from './job-state.ts';
import { jobStatesOf } from './job-states.ts';
import { utcWords } from './words.ts';
import type { LogNote } from './log-note.ts';
import type { PlanWithFactors } from './pace/planned-factors.ts';

/** What is known besides passage and log. */
export interface AfterLogOptions {
  /** When the locker was counted [epoch ms]; the start of the passage unless told. */
  readonly lockerCountedEpochMs?: number;
  /** Items counted later than that, by `itemKey` [epoch ms]. */
  readonly itemsCountedAt?: ReadonlyMap<string, number>;
  /** Air on deck [°C] where the log has none, for waits that go by it; NaN: not known. */
  readonly airCAt?: (epochMs: number) => number;
  /** Plans that were kept: what the hours of finished work were planned to cost, for the watchkeeper's own pace. */
  readonly plans?: readonly PlanWithFactors[];
}

/** A passage as it stands after the log. */
export interface PassageAfterLog {
  readonly passage: Passage;
  readonly jobStates: readonly JobState[];
  /** In words: where she is, what is set, what is done and under way, what is still running, what is odd. */
  readonly notes: readonly LogNote[];
}

/**
 * The passage to plan from, after what happened: place and track from there, what is set, sleeps and body clock, jobs
 * done and begun, running waits, the locker.
 *
 * Only what is of now or earlier is believed; corrections count whenever they were made. An empty log changes nothing. What the log says of place and sails before
 * the passage's own start is older than the passage file and gives way to it; finished work counts whenever it was.
 */
export function passageAfterLog(
  passage: Passage,
  entries: readonly NumberedEntry[],
  nowEpochMs: number,
  options: AfterLogOptions = {},
): PassageAfterLog {
  const all = effectiveEntries(entries);
  const effective = all.filter(({ atEpochMs }) => atEpochMs <= nowEpochMs);
  const numbers = new Set(effective.map(({ number }) => number));
  const written = entries.filter(({ number, entry }) => entry.kind === 'correction' || numbers.has(number));
  const { jobs, orders } = passage;
  const pace = paceNow(passage, written, options.plans ?? []);
  const states = jobStatesOf(effective, jobs, { orders: orders.jobs, paceRatioOf: paceRatioOf(pace.value) });
  const later = laterNotes(all, nowEpochMs);
  if (effective.length === 0) return { passage, jobStates: states, notes: later };
  const known: Known = { effective, states, nowEpochMs, airCAt: options.airCAt ?? (() => Number.NaN) };
  const place = placeNow(passage, known);
  const sails = sailStateNow(passage, known);
  const watchkeeper = watchkeeperNow({ ...passage, watchkeeper: pace.value }, known, place.value);
  const locker = lockerNow(passage, known, {
    allEpochMs: options.lockerCountedEpochMs ?? passage.start.epochMs,
    byItem: options.itemsCountedAt ?? new Map(),
  });
  const placed = ordersNow(passage, known, locker.value);
  const hasSleep = effective.some(({ statement }) => statement.kind === 'sleep');
  return {
    passage: {
      ...passage,
      start: { epochMs: place.value.epochMs, position: place.value.position, sailStateId: sails.value },
      track: place.value.track,
      watchkeeper: watchkeeper.value,
      locker: locker.value,
      orders: placed.value,
      defaultsUsed: hasSleep ? passage.defaultsUsed.filter((path) => path !== ASSUMED_SLEEPS) : passage.defaultsUsed,
    },
    jobStates: states,
    notes: [
      ...place.notes,
      ...sails.notes,
      ...windNotes(passage.boat, known),
      ...watchkeeper.notes,
      ...states.flatMap((state) => jobStateNote(state, jobs) ?? []),
      ...placed.notes,
      ...locker.notes,
      ...pace.notes,
      ...states.flatMap(({ notes }) => notes),
      ...strangeJobs(effective, passage),
      ...later,
    ],
  };
}

function laterNotes(all: readonly EffectiveEntry[], nowEpochMs: number): LogNote[] {
  const later = all.filter(({ atEpochMs }) => atEpochMs > nowEpochMs);
  if (later.length === 0) return [];
  const what = later.length === 1 ? '1 entry is' : `${later.length} entries are`;
  const text = `${what} of after ${utcWords(nowEpochMs)} and left out.`;
  return [{ code: 'log.later', entryNumbers: later.map(({ number }) => number), text }];
}

function strangeJobs(effective: readonly EffectiveEntry[], { jobs }: Passage): LogNote[] {
  const numbersOf = new Map<string, number[]>();
  for (const { number, statement } of effective) {
    if (statement.kind !== 'job' || jobs.some(({ id }) => id === statement.jobId)) continue;
    numbersOf.set(statement.jobId, [...(numbersOf.get(statement.jobId) ?? []), number]);
  }
  return [...numbersOf].map(([jobId, entryNumbers]) => ({
    code: 'log.job-unknown',
    entryNumbers,
    text: `The passage has no job "${jobId}": what the log says of it counts for nothing.`,
  }));
}
