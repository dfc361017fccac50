import { utcInterval, type UtcInterval } from '../time/index.ts';
import { effectiveEntries, instantOf, type EffectiveEntry } from './effective.ts';
import type { NumberedEntry } from './entry.ts';
import type { LogNote } from './log-note.ts';
import { utcWords } from './words.ts';

/** Sleeps of a log in order of time, those that overlap or touch made one, which is said. */
export interface MergedSleeps {
  readonly sleeps: readonly UtcInterval[];
  readonly notes: readonly LogNote[];
}

/** The sleeps of a log, corrections applied. */
export const mergedSleeps = (entries: readonly NumberedEntry[]): MergedSleeps => sleepsOf(effectiveEntries(entries));

interface OpenSleep {
  startEpochMs: number;
  endEpochMs: number;
  entryNumbers: number[];
}

/** `mergedSleeps` of entries whose corrections are applied. */
export function sleepsOf(effective: readonly EffectiveEntry[]): MergedSleeps {
  const found: OpenSleep[] = [];
  const overlapping = new Set<OpenSleep>();
  for (const { number, statement, atEpochMs } of effective) {
    if (statement.kind !== 'sleep') continue;
    const endEpochMs = instantOf(statement.endUtc);
    const last = found.at(-1);
    if (last === undefined || atEpochMs > last.endEpochMs) {
      found.push({ startEpochMs: atEpochMs, endEpochMs, entryNumbers: [number] });
      continue;
    }
    if (atEpochMs < last.endEpochMs) overlapping.add(last);
    last.endEpochMs = Math.max(last.endEpochMs, endEpochMs);
    last.entryNumbers.push(number);
  }
  return {
    sleeps: found.map(({ startEpochMs, endEpochMs }) => utcInterval(startEpochMs, endEpochMs)),
    notes: [...overlapping].map(({ startEpochMs, endEpochMs, entryNumbers }) => ({
      code: 'log.sleeps-overlap',
      entryNumbers,
      text: `Sleeps overlap and are taken as one, ${utcWords(startEpochMs)} to ${utcWords(endEpochMs)}.`,
    })),
  };
}

/** Intervals in any order as one list in order, without overlap. */
export function joined(sleeps: readonly UtcInterval[]): readonly UtcInterval[] {
  const found: UtcInterval[] = [];
  for (const sleep of sleeps.toSorted((a, b) => a.startEpochMs - b.startEpochMs)) {
    const last = found.at(-1);
    if (last === undefined || sleep.startEpochMs > last.endEpochMs) found.push(sleep);
    else found[found.length - 1] = { ...last, endEpochMs: Math.max(last.endEpochMs, sleep.endEpochMs) };
  }
  return found;
}
