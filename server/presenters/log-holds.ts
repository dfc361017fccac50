import type { LogRow, StatementFile } from '../../lib/log/index.ts';

/** What an entry says after its corrections; null: it was withdrawn, or is itself a correction. */
export function statementThatHolds({ entry, correctedBy }: LogRow): StatementFile | null {
  if (correctedBy?.entry.kind === 'correction') return correctedBy.entry.by;
  return entry.kind === 'correction' ? null : entry;
}

/** What an entry says, or said before it was withdrawn. */
export function statementShown(row: LogRow, rows: readonly LogRow[]): StatementFile {
  const holds = statementThatHolds(row);
  if (holds !== null) return holds;
  const said = rows.flatMap(({ entry }) =>
    entry.kind === 'correction' && entry.corrects === row.number && entry.by !== null ? [entry.by] : [],
  );
  const last = said.at(-1) ?? row.entry;
  if (last.kind === 'correction') throw new Error('a correction is not corrected');
  return last;
}
