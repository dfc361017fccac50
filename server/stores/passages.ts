import { z } from 'zod';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import type { Connection } from './database.ts';
import { nameTaken, noSuchPassage, versionConflict } from './store-problems.ts';

/** A stored passage: a document with a number for good and a version that counts its changes. */
export interface StoredPassage {
  readonly number: number;
  readonly name: string;
  readonly version: number;
  /** The passage file as text. */
  readonly json: string;
  readonly savedAtEpochMs: number;
}

export type PassageSummary = Omit<StoredPassage, 'json'>;

export interface PassageStore {
  /** A new passage, version 1; `store.name-taken`. */
  create(passage: { name: string; json: string; atEpochMs: number }): Result<StoredPassage>;
  /** The next version of a passage, if it is still at the version the change was made to; else `store.version-conflict`. */
  save(
    number: number,
    change: { expectedVersion: number; name: string; json: string; atEpochMs: number },
  ): Result<StoredPassage>;
  get(number: number): Result<StoredPassage | null>;
  /** By name, as in `store:NAME`. */
  find(name: string): Result<StoredPassage | null>;
  /** By number. */
  list(): Result<readonly PassageSummary[]>;
}

const summaryColumns = 'number, name, version, saved_at_epoch_ms AS savedAtEpochMs';
const summarySchema = z.object({
  number: z.number(),
  name: z.string(),
  version: z.number(),
  savedAtEpochMs: z.number(),
});
const passageSchema = summarySchema.extend({ json: z.string() });

export function passageStore(connection: Connection): PassageStore {
  const byNumber = (number: number): StoredPassage | null =>
    connection.first(passageSchema, `SELECT ${summaryColumns}, json FROM passage WHERE number = :number`, { number });
  const byName = (name: string): StoredPassage | null =>
    connection.first(passageSchema, `SELECT ${summaryColumns}, json FROM passage WHERE name = :name`, { name });
  const written = (number: number): Result<StoredPassage> => {
    const passage = byNumber(number);
    return passage === null ? failed(noSuchPassage(number)) : ok(passage);
  };

  return {
    create: ({ name, json, atEpochMs }) =>
      connection.write(() => {
        if (byName(name) !== null) return failed(nameTaken(name));
        const values = { name, json, atEpochMs };
        connection.run(
          'INSERT INTO passage (name, version, json, saved_at_epoch_ms) VALUES (:name, 1, :json, :atEpochMs)',
          values,
        );
        return written(byName(name)?.number ?? 0);
      }),

    save: (number, { expectedVersion, name, json, atEpochMs }) =>
      connection.write(() => {
        const found = byNumber(number);
        if (found === null) return failed(noSuchPassage(number));
        if (found.version !== expectedVersion)
          return failed(versionConflict(number, { expected: expectedVersion, found: found.version }));
        if (name !== found.name && byName(name) !== null) return failed(nameTaken(name));
        connection.run(
          'UPDATE passage SET name = :name, json = :json, version = version + 1, saved_at_epoch_ms = :atEpochMs ' +
            'WHERE number = :number',
          { number, name, json, atEpochMs },
        );
        return written(number);
      }),

    get: (number) => connection.read(() => byNumber(number)),
    find: (name) => connection.read(() => byName(name)),
    list: () =>
      connection.read(() => connection.all(summarySchema, `SELECT ${summaryColumns} FROM passage ORDER BY number`, {})),
  };
}
