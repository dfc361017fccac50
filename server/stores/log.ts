import { z } from 'zod';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import type { Connection } from './database.ts';
import { noSuchPassage } from './store-problems.ts';

/** One thing that happened, numbered within its passage. Entries are never changed; a correction is a new entry. */
export interface LogEntry {
  readonly passageNumber: number;
  readonly number: number;
  readonly kind: string;
  /** When it happened. */
  readonly atEpochMs: number;
  readonly json: string;
  /** When it was written down. */
  readonly writtenAtEpochMs: number;
  /** Of the form it came from, its own within the passage; null: it came from none. */
  readonly formToken: string | null;
}

export type NewLogEntry = Omit<LogEntry, 'number' | 'formToken'> & { readonly formToken?: string };

export interface LogStore {
  append(entry: NewLogEntry): Result<LogEntry>;
  /** In the order they were written; `afterNumber` leaves out what is known. */
  list(passageNumber: number, afterNumber?: number): Result<readonly LogEntry[]>;
  /** The entry that came from a form; null: none did. */
  ofForm(passageNumber: number, formToken: string): Result<LogEntry | null>;
}

const columns =
  'passage_number AS passageNumber, number, kind, at_epoch_ms AS atEpochMs, json, written_at_epoch_ms AS writtenAtEpochMs, form_token AS formToken';
const entrySchema = z.object({
  passageNumber: z.number(),
  number: z.number(),
  kind: z.string(),
  atEpochMs: z.number(),
  json: z.string(),
  writtenAtEpochMs: z.number(),
  formToken: z.string().nullable(),
});

export function logStore(connection: Connection): LogStore {
  return {
    append: (entry) =>
      connection.write(() => {
        const number = nextNumber(connection, 'log_entry', entry.passageNumber);
        if (number === null) return failed(noSuchPassage(entry.passageNumber));
        const row = { ...entry, number, formToken: entry.formToken ?? null };
        connection.run(
          'INSERT INTO log_entry (passage_number, number, kind, at_epoch_ms, json, written_at_epoch_ms, form_token) ' +
            'VALUES (:passageNumber, :number, :kind, :atEpochMs, :json, :writtenAtEpochMs, :formToken)',
          row,
        );
        return ok(row);
      }),

    list: (passageNumber, afterNumber = 0) =>
      connection.read(() =>
        connection.all(
          entrySchema,
          `SELECT ${columns} FROM log_entry WHERE passage_number = :passageNumber AND number > :afterNumber ORDER BY number`,
          { passageNumber, afterNumber },
        ),
      ),

    ofForm: (passageNumber, formToken) =>
      connection.read(() =>
        connection.first(
          entrySchema,
          `SELECT ${columns} FROM log_entry WHERE passage_number = :passageNumber AND form_token = :formToken`,
          { passageNumber, formToken },
        ),
      ),
  };
}

const nextSchema = z.object({ next: z.number() });

/** Number the next row of a passage gets; null when there is no such passage. */
export function nextNumber(
  connection: Connection,
  table: 'log_entry' | 'plan' | 'message',
  passageNumber: number,
): number | null {
  const row = connection.first(
    nextSchema,
    `SELECT (SELECT coalesce(max(number), 0) + 1 FROM ${table} WHERE passage_number = :passageNumber) AS next ` +
      'FROM passage WHERE number = :passageNumber',
    { passageNumber },
  );
  return row?.next ?? null;
}
