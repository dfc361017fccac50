import { type LogRow, instantOf } from '../../lib/log/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { MS_PER_MIN } from '../../lib/time/index.ts';
import { statementShown, statementThatHolds } from './log-holds.ts';
import { statementWords } from './log-words.ts';
import { type TimeTexts, timeTexts } from './time-texts.ts';
import type { ShownUnits } from './units/shown-units.ts';

/** An entry of the log with what became of it. */
export interface LogRowView {
  readonly number: number;
  /** Weekday, date and hour on the ship's clock. */
  readonly when: string;
  /** `Wed 20:10 UTC` */
  readonly utc: string;
  readonly kind: string;
  readonly words: string;
  readonly isWithdrawn: boolean;
  /** When it was written down, where that was much later; empty: at once. */
  readonly written: string;
  /** What it said before, and when it was corrected or withdrawn; oldest first. */
  readonly corrections: readonly string[];
  /** Hidden field of its forms: the passage, and the correction that was seen. */
  readonly version: string;
}

/** The rows with the instant that holds, newest first. */
export interface RowsOf {
  readonly rows: readonly LogRow[];
  readonly passage: Passage;
  readonly passageNumber: number;
  /** When each entry was written down, by its number. */
  readonly writtenEpochMs: ReadonlyMap<number, number>;
  /** Of the reader. */
  readonly units: ShownUnits;
}

/** Later than this it is said when an entry was written down. */
const WRITTEN_LATER_MIN = 15;

const KINDS = { observation: 'seen', sleep: 'sleep', job: 'job', note: 'note' } as const;

/** Every entry that is no correction, by the time it holds for, the newest first. */
export function logRowViews(of: RowsOf): readonly LogRowView[] {
  const times = timeTexts(of.passage.settings.shipTimeOffsetMin);
  return of.rows
    .filter(({ entry }) => entry.kind !== 'correction')
    .map((row) => ({ row, statement: statementShown(row, of.rows) }))
    .map(({ row, statement }) => ({ row, statement, atEpochMs: instantOf(statement.atUtc) }))
    .toSorted((a, b) => b.atEpochMs - a.atEpochMs || b.row.number - a.row.number)
    .map(({ row, statement, atEpochMs }) => ({
      number: row.number,
      when: times.full(atEpochMs),
      utc: times.utc(atEpochMs),
      kind: KINDS[statement.kind],
      words: statementWords(statement, of.passage, of.units),
      isWithdrawn: statementThatHolds(row) === null,
      written: writtenText(statement.kind === 'sleep' ? instantOf(statement.endUtc) : atEpochMs, row, of, times),
      corrections: correctionTexts(row, of, times),
      version: `${of.passageNumber}.${row.correctedBy?.number ?? 0}`,
    }));
}

function writtenText(
  atEpochMs: number,
  { number }: LogRow,
  { writtenEpochMs, passage }: RowsOf,
  times: TimeTexts,
): string {
  // A clock that is held says nothing of when it was written.
  const written = passage.fixedNowEpochMs === null ? (writtenEpochMs.get(number) ?? atEpochMs) : atEpochMs;
  return written - atEpochMs > WRITTEN_LATER_MIN * MS_PER_MIN ? `written ${times.dayTime(written)}` : '';
}

/** Each correction with what stood there before it. */
function correctionTexts(
  { number, entry: first }: LogRow,
  { rows, passage, units }: RowsOf,
  times: TimeTexts,
): string[] {
  let before: string | null = first.kind === 'correction' ? null : said(first);
  return rows.flatMap(({ number: by, entry }) => {
    if (entry.kind !== 'correction' || entry.corrects !== number) return [];
    const when = `${times.dayTime(instantOf(entry.atUtc))}, entry ${by}`;
    const was = before === null ? 'it was withdrawn before.' : `before: ${before}`;
    const note = entry.note === undefined ? '' : ` ${entry.note}`;
    before = entry.by === null ? null : said(entry.by);
    // What was withdrawn stands above, struck out.
    return [entry.by === null ? `Withdrawn ${when}.${note}` : `Corrected ${when}; ${was}${note}`];
  });

  function said(statement: Parameters<typeof statementWords>[0]): string {
    return `${times.dayTime(instantOf(statement.atUtc))}, ${statementWords(statement, passage, units)}`;
  }
}
