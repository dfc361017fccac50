import { type LogEntryFile, logEntryFile, type NumberedEntry } from '../lib/log/index.ts';
import { failed, ok, type Problem, type Result } from '../lib/result/index.ts';
import type { DocumentText, Documents, DocumentVersion } from './documents/index.ts';
import type { LogEntry, Store } from './stores/index.ts';

/** An entry as it was written down. */
export interface WrittenEntry extends NumberedEntry {
  readonly writtenAtEpochMs: number;
}

export interface LogOfPassage {
  readonly passageNumber: number;
  /** In the order they were written. */
  readonly entries: readonly WrittenEntry[];
}

export interface NewEntry {
  /** The passage its form was made for. */
  readonly passageNumber: number;
  readonly entry: LogEntryFile;
  readonly atEpochMs: number;
  /** Of its form: what comes twice from one form is written once. */
  readonly formToken: string;
}

/** The log of the passage that is shown. */
export interface PassageLog {
  readonly passageLog: () => Result<LogOfPassage>;
  /**
   * Adds an entry; on the disk when it returns. The same entry of the same form is there already: that one is the answer.
   *
   * @returns `log.other-passage` when another passage is shown meanwhile, or a failure of the store
   */
  readonly writeLog: (entry: NewEntry) => Promise<Result<WrittenEntry>>;
}

/** What a plan is made of: a state of the passage, and its log up to an entry. */
export interface PlannedOf extends DocumentVersion {
  /** Number of the last entry that can change a plan; 0: none can. */
  readonly logNumber: number;
}

/** The passage as text and its log, for the planner. */
export interface PlanText extends DocumentText, PlannedOf {
  readonly log: readonly NumberedEntry[];
}

interface Options {
  readonly store: Pick<Store, 'log'>;
  readonly documents: Pick<Documents, 'passageText'>;
  readonly nowEpochMs: () => number;
}

/** Keeps the log of whichever passage is shown in the store. */
export function keepLog({ store, documents, nowEpochMs }: Options): PassageLog {
  let known: LogOfPassage = { passageNumber: 0, entries: [] };

  const logOf = (passageNumber: number): Result<LogOfPassage> => {
    const before = known.passageNumber === passageNumber ? known.entries : [];
    const rows = store.log.list(passageNumber, before.at(-1)?.number ?? 0);
    if (!rows.ok) return rows;
    const entries = [...before];
    for (const row of rows.value) {
      const read = written(row);
      if (!read.ok) return read;
      entries.push(read.value);
    }
    known = { passageNumber, entries };
    return ok(known);
  };

  return {
    passageLog: () => {
      const text = documents.passageText();
      return text.ok ? logOf(text.value.number) : text;
    },
    writeLog: async ({ passageNumber, entry, atEpochMs, formToken }) => {
      const text = documents.passageText();
      if (!text.ok) return text;
      if (text.value.number !== passageNumber) return failed(otherPassage(passageNumber, text.value.number));
      const json = JSON.stringify(entry);
      const earlier = store.log.ofForm(passageNumber, formToken);
      if (!earlier.ok) return earlier;
      if (earlier.value !== null && isSame(earlier.value.json, json)) return written(earlier.value);
      const added = store.log.append({
        passageNumber,
        kind: entry.kind,
        atEpochMs,
        json,
        writtenAtEpochMs: nowEpochMs(),
        // A form that was changed and sent again, out of the browser's own store, is a further entry.
        ...(earlier.value === null ? { formToken } : {}),
      });
      return added.ok ? written(added.value) : added;
    },
  };
}

/** The passage that is shown with its log. */
export function planTextOf(documents: Pick<Documents, 'passageText'>, log: PassageLog): Result<PlanText> {
  const text = documents.passageText();
  if (!text.ok) return text;
  const kept = log.passageLog();
  if (!kept.ok) return kept;
  const { entries } = kept.value;
  return ok({ ...text.value, log: entries, logNumber: lastForPlans(entries) });
}

/** Number of the last entry that can change a plan: all but notes, and corrections of notes to other notes. */
export function lastForPlans(entries: readonly NumberedEntry[]): number {
  const byNumber = new Map(entries.map(({ number, entry }) => [number, entry]));
  const isNote = (entry: LogEntryFile | undefined): boolean => entry?.kind === 'note';
  const last = entries.findLast(({ entry }) =>
    entry.kind === 'correction'
      ? !isNote(byNumber.get(entry.corrects)) || (entry.by !== null && entry.by.kind !== 'note')
      : !isNote(entry),
  );
  return last?.number ?? 0;
}

function written({ number, json, writtenAtEpochMs, passageNumber }: LogEntry): Result<WrittenEntry> {
  const read = logEntryFile.safeParse(JSON.parse(json));
  return read.success
    ? ok({ number, entry: read.data, writtenAtEpochMs })
    : failed(unknownShape(passageNumber, number));
}

/** Whether two entries say the same; when they were said is left out, for an empty time means now. */
function isSame(one: string, other: string): boolean {
  const withoutTime = (json: string): string =>
    JSON.stringify(JSON.parse(json), (key, value: unknown) => (key === 'atUtc' ? undefined : value));
  return withoutTime(one) === withoutTime(other);
}

const otherPassage = (expected: number, found: number): Problem => ({
  code: 'log.other-passage',
  where: 'the log',
  what: `Another passage is shown meanwhile: passage ${found}; this was entered for passage ${expected}.`,
  expected: `passage ${expected}`,
  remedy: 'Show that passage again, or write it into the log of the one that is shown.',
});

const unknownShape = (passageNumber: number, number: number): Problem => ({
  code: 'log.unknown-shape',
  where: `passage ${passageNumber}, log entry ${number}`,
  what: 'It is not an entry this version of the program knows.',
  expected: 'an entry written by this version or an earlier one',
  remedy: 'Start the version that wrote it; the entry stays as it is.',
});
