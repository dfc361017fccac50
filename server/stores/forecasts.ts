import { existsSync, rmSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { z } from 'zod';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import type { Connection } from './database.ts';
import { gribPath, writeGribFile } from './grib-files.ts';
import { attemptLater, forecastGone } from './store-problems.ts';

/** Whose forecast it is: to be named where it is shown. */
export interface ForecastCredit {
  readonly sourceName: string;
  /** As its owner asks to be named. */
  readonly attribution: string;
  readonly terms: string;
}

/** One forecast file of the store. */
export interface StoredForecast {
  /** SHA-256 of the content, 64 hexadecimal digits; the file is `grib/<hash>.grib`. */
  readonly hash: string;
  /** Name it came with. */
  readonly fileName: string;
  readonly sizeOctets: number;
  readonly addedAtEpochMs: number;
  /** What is inside, as JSON; null until it has been read. */
  readonly summaryJson: string | null;
  /** Of a file that was fetched from a source; null: it came another way, and nothing is known of it. */
  readonly credit: ForecastCredit | null;
}

export interface NewForecast {
  readonly fileName: string;
  readonly content: AsyncIterable<Uint8Array> | Iterable<Uint8Array>;
  /** A larger file is refused. */
  readonly mostOctets: number;
  readonly atEpochMs: number;
  readonly credit?: ForecastCredit;
}

export interface ForecastStore {
  /** Stores a file under the hash of its content; content that is there already keeps its entry, and gets a credit it lacked. `store.file-too-large`. */
  add(forecast: NewForecast): Promise<Result<StoredForecast>>;
  /** Keeps what was found inside; false when there is no such forecast. */
  summarise(hash: string, summaryJson: string): Result<boolean>;
  get(hash: string): Result<StoredForecast | null>;
  /** Content of a file, or null when the store has none of this hash. */
  read(hash: string): Promise<Result<Uint8Array | null>>;
  /** Removes entry and file; false when there is none. */
  remove(hash: string): Promise<Result<boolean>>;
  /** The last that came first, whatever the clock said. */
  list(): Result<readonly StoredForecast[]>;
}

const columns =
  'hash, file_name AS fileName, size_octets AS sizeOctets, added_at_epoch_ms AS addedAtEpochMs, summary_json AS summaryJson, ' +
  'credit_json AS creditJson';
const creditSchema = z.object({ sourceName: z.string(), attribution: z.string(), terms: z.string() });
const forecastSchema = z
  .object({
    hash: z.string(),
    fileName: z.string(),
    sizeOctets: z.number(),
    addedAtEpochMs: z.number(),
    summaryJson: z.string().nullable(),
    creditJson: z.string().nullable(),
  })
  .transform(({ creditJson, ...row }) => ({
    ...row,
    credit: creditJson === null ? null : creditSchema.parse(JSON.parse(creditJson)),
  }));

export function forecastStore(connection: Connection, folder: string): ForecastStore {
  const byHash = (hash: string): StoredForecast | null =>
    connection.first(forecastSchema, `SELECT ${columns} FROM forecast WHERE hash = :hash`, { hash });

  const enter = (row: Omit<StoredForecast, 'summaryJson'>): Result<StoredForecast> =>
    connection.write(() => {
      const { credit, ...rest } = row;
      // Another process may have removed the same content since it was written; it does so under this lock.
      if (!existsSync(gribPath(folder, row.hash))) return failed(forecastGone(row.fileName));
      connection.run(
        'INSERT INTO forecast (hash, file_name, size_octets, added_at_epoch_ms, credit_json, number) ' +
          'VALUES (:hash, :fileName, :sizeOctets, :addedAtEpochMs, :creditJson, ' +
          '(SELECT coalesce(max(number), 0) + 1 FROM forecast)) ' +
          'ON CONFLICT (hash) DO UPDATE SET credit_json = coalesce(credit_json, excluded.credit_json)',
        { ...rest, creditJson: credit === null ? null : JSON.stringify(credit) },
      );
      return ok(byHash(row.hash) ?? { ...row, summaryJson: null });
    });

  /** A file without an entry does no harm, an entry without a file does: looked at and removed under the lock of writers. */
  const removeUnlisted = (hash: string): Result<null> =>
    connection.write(() => {
      if (byHash(hash) === null) rmSync(gribPath(folder, hash), { force: true });
      return ok(null);
    });

  return {
    add: ({ fileName, content, mostOctets, atEpochMs, credit = null }) =>
      attemptLater(folder, async () => {
        const written = await writeGribFile(folder, content, { mostOctets, fileName });
        if (!written.ok) return written;
        const entered = enter({ ...written.value, fileName, addedAtEpochMs: atEpochMs, credit });
        // On a full disk it would be in the way of what makes room.
        if (!entered.ok) removeUnlisted(written.value.hash);
        return entered;
      }),

    summarise: (hash, summaryJson) =>
      connection.write(() =>
        ok(
          connection.run('UPDATE forecast SET summary_json = :summaryJson WHERE hash = :hash', { hash, summaryJson }) >
            0,
        ),
      ),

    get: (hash) => connection.read(() => byHash(hash)),

    read: (hash) =>
      attemptLater(folder, async () => {
        const path = gribPath(folder, hash);
        return ok(byHash(hash) === null || !existsSync(path) ? null : new Uint8Array(await readFile(path)));
      }),

    remove: (hash) =>
      attemptLater(folder, () => {
        // The entry goes first.
        const removed = connection.write(() =>
          ok(connection.run('DELETE FROM forecast WHERE hash = :hash', { hash }) > 0),
        );
        if (removed.ok && removed.value) removeUnlisted(hash);
        return Promise.resolve(removed);
      }),

    list: () =>
      connection.read(() => connection.all(forecastSchema, `SELECT ${columns} FROM forecast ORDER BY number DESC`, {})),
  };
}
