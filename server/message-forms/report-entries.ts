import { appendProblems, type LogEntryFile, type NumberedEntry } from '../../lib/log/index.ts';
import { entriesOfReport, type ReportMessage } from '../../lib/message/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { ok, type Problem, type Result } from '../../lib/result/index.ts';

/** The log a report is held against. */
export interface ReportedInto {
  readonly passage: Passage;
  readonly entries: readonly NumberedEntry[];
  readonly nowEpochMs: number;
}

export interface EntryToWrite {
  readonly entry: LogEntryFile;
  /** The same for the same entry of the same message, whenever it is asked. */
  readonly formToken: string;
}

/** What a report has for the log. */
export interface ReportEntries {
  readonly toWrite: readonly EntryToWrite[];
  /** Of its entries the log has so many already. */
  readonly knownCount: number;
  /** Entries that do not fit this log: a job the passage does not have, a time still to come. */
  readonly refused: readonly { readonly entry: LogEntryFile; readonly problems: readonly Problem[] }[];
}

/** The entries of a report that are new to the log, or why none is to be taken. */
export function reportEntries(message: ReportMessage, fingerprint: string, into: ReportedInto): Result<ReportEntries> {
  const { passage, entries, nowEpochMs } = into;
  const all = entriesOfReport(message);
  const fresh = entriesOfReport(message, entries);
  if (!all.ok) return all;
  if (!fresh.ok) return fresh;
  const places = all.value.map((entry) => JSON.stringify(entry));
  const judged = fresh.value.map((entry) => ({
    entry,
    formToken: `report.${fingerprint}.${places.indexOf(JSON.stringify(entry))}`,
    problems: appendProblems({ entry, entries, jobs: passage.jobs, nowEpochMs }, 'report'),
  }));
  return ok({
    toWrite: judged
      .filter(({ problems }) => problems.length === 0)
      .map(({ entry, formToken }) => ({ entry, formToken })),
    knownCount: all.value.length - fresh.value.length,
    refused: judged.filter(({ problems }) => problems.length > 0).map(({ entry, problems }) => ({ entry, problems })),
  });
}
