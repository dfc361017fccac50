import { parseUtc } from '../time/index.ts';
import type { LogEntryFile, NumberedEntry, StatementFile } from './entry.ts';

/** What holds after all corrections. */
export interface EffectiveEntry {
  /** Number of the entry it was first written as. */
  readonly number: number;
  readonly statement: StatementFile;
  /** Instant of the statement; of a sleep when it began. */
  readonly atEpochMs: number;
  /** The correction that holds; null: as first written. */
  readonly correctedBy: NumberedEntry | null;
}

/** An entry of the log as it is listed: nothing is left out. */
export interface LogRow extends NumberedEntry {
  readonly atEpochMs: number;
  /** The correction that holds, beside the entry it corrects; null: none. */
  readonly correctedBy: NumberedEntry | null;
  /** It did not happen, says the correction that holds. */
  readonly isWithdrawn: boolean;
}

/** Instant of a text of a checked entry; throws for any other. */
export function instantOf(text: string): number {
  const read = parseUtc(text, 'log');
  if (!read.ok) throw new Error(`a checked entry has an instant: ${text}`);
  return read.value;
}

/** Instant of an entry [epoch ms]. */
const atOf = (entry: LogEntryFile): number => instantOf(entry.atUtc);

/**
 * The log as it is to be believed: corrections applied, withdrawn entries left out, in order of time and of number where
 * times are the same.
 *
 * Of several corrections of an entry the one written last holds, whatever instant it bears. A correction that names a
 * later entry, itself, another correction or no entry at all corrects nothing (`logProblems` says so).
 */
export function effectiveEntries(entries: readonly NumberedEntry[]): readonly EffectiveEntry[] {
  const corrections = holdingCorrections(entries);
  return entries
    .flatMap(({ number, entry }): EffectiveEntry[] => {
      if (entry.kind === 'correction') return [];
      const correctedBy = corrections.get(number) ?? null;
      const statement = correctedBy?.entry.kind === 'correction' ? correctedBy.entry.by : entry;
      return statement === null ? [] : [{ number, statement, atEpochMs: atOf(statement), correctedBy }];
    })
    .toSorted((a, b) => a.atEpochMs - b.atEpochMs || a.number - b.number);
}

/** Every entry in the order it was written, with what became of it. */
export function logRows(entries: readonly NumberedEntry[]): readonly LogRow[] {
  const corrections = holdingCorrections(entries);
  return inWrittenOrder(entries).map((numbered) => {
    const correctedBy = corrections.get(numbered.number) ?? null;
    const isWithdrawn = correctedBy?.entry.kind === 'correction' && correctedBy.entry.by === null;
    return { ...numbered, atEpochMs: atOf(numbered.entry), correctedBy, isWithdrawn };
  });
}

const inWrittenOrder = (entries: readonly NumberedEntry[]): NumberedEntry[] =>
  entries.toSorted((a, b) => a.number - b.number);

/** The last correction of each entry that may be corrected, by the number of the entry. */
function holdingCorrections(entries: readonly NumberedEntry[]): ReadonlyMap<number, NumberedEntry> {
  const correctable = new Set<number>();
  const holding = new Map<number, NumberedEntry>();
  for (const numbered of inWrittenOrder(entries)) {
    if (numbered.entry.kind !== 'correction') correctable.add(numbered.number);
    else if (correctable.has(numbered.entry.corrects)) holding.set(numbered.entry.corrects, numbered);
  }
  return holding;
}
