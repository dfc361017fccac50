import { effectiveEntries, type LogEntryFile, type NumberedEntry, readLogEntry } from '../../log/index.ts';
import { assertNever, okUnless, type Result } from '../../result/index.ts';
import type { ReportMessage } from './report-message.ts';
import { isBaseTime } from '../frames/base-time.ts';
import { wholeMinute } from '../text/times.ts';
import {
  instant,
  jobEventToSend,
  noteToSend,
  observationToSend,
  rawJobEvent,
  rawNote,
  rawObservation,
  rawSleep,
  sleepToSend,
} from './statements.ts';
import { jobItem, noteItem, observationItem, sleepItem } from './write-report.ts';

/**
 * Entries for the log of the one who got the report, in order of kind and time; what `known` holds already, as it would
 * be sent, is left out: reports overlap, and the same one may come twice.
 *
 * Course, speed and trend are reckoned from entries, and become none.
 *
 * @param known the log there is
 * @returns the new entries, or the problems of `readLogEntry`: then none is to be taken
 */
export function entriesOfReport(
  message: ReportMessage,
  known: readonly NumberedEntry[] = [],
): Result<readonly LogEntryFile[]> {
  const base = message.madeEpochMs;
  const seen = new Set(itemsOf(known, base));
  const raws = [
    ...message.observations.map((of) => ({ item: observationItem(of, base), raw: rawObservation(of) })),
    ...message.sleeps.map((of) => ({ item: sleepItem(of, base), raw: rawSleep(of) })),
    ...message.jobEvents.map((of) => ({ item: jobItem(of, base), raw: rawJobEvent(of) })),
    ...message.notes.map((of) => ({ item: noteItem(of, base), raw: rawNote(of) })),
  ].filter(({ item }) => !seen.has(item));
  const read = raws.map(({ raw }, index) => readLogEntry(raw, `report, entry ${index + 1}`));
  return okUnless(
    read.flatMap((entry) => (entry.ok ? [] : entry.problems)),
    () => read.flatMap((entry) => (entry.ok ? [entry.value] : [])),
  );
}

/** What the entries would be in a report of that base time. */
function itemsOf(known: readonly NumberedEntry[], baseEpochMs: number): string[] {
  return effectiveEntries(known).flatMap(({ statement, atEpochMs }) => {
    const endEpochMs = statement.kind === 'sleep' ? instant(statement.endUtc) : atEpochMs;
    // What no report can carry is in none.
    if (!isBaseTime(wholeMinute(atEpochMs)) || !isBaseTime(wholeMinute(endEpochMs))) return [];
    switch (statement.kind) {
      case 'observation':
        return [observationItem(observationToSend(atEpochMs, statement), baseEpochMs)];
      case 'sleep':
        return [sleepItem(sleepToSend(atEpochMs, statement), baseEpochMs)];
      case 'job':
        return [jobItem(jobEventToSend(atEpochMs, statement), baseEpochMs)];
      case 'note': {
        const note = noteToSend(atEpochMs, statement.note);
        return note === null ? [] : [noteItem(note, baseEpochMs)];
      }
      default:
        return assertNever(statement);
    }
  });
}
