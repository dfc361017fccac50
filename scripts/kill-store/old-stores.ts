/** Stores as earlier versions of the program left them, with something in every table they have. */
import { createHash } from 'node:crypto';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { type Connection, openDatabase } from '../../server/stores/database.ts';
import { migrations } from '../../server/stores/migrations/index.ts';
import { ok } from '../../lib/result/index.ts';
import { sha256, valueOf } from './contents.ts';

/** Every version before the present one, the oldest first. */
export const OLD_VERSIONS: readonly number[] = migrations.map((_, index) => index + 1).slice(0, -1);
export const NEWEST_VERSION = migrations.length;

/** Tables with rows of theirs, and the version that brought each. */
const TABLES: readonly { readonly since: number; readonly fill: (connection: Connection, folder: string) => void }[] = [
  { since: 1, fill: fillFirst },
  { since: 2, fill: fillForecasts },
  { since: 3, fill: fillSources },
  { since: 5, fill: fillMessages },
  { since: 8, fill: fillViews },
];

/** Makes a store of an earlier version in a folder that is new; so many log entries make it as large as wanted. */
export function makeOldStore(folder: string, version: number, logCount = 40): void {
  mkdirSync(join(folder, 'grib'), { recursive: true });
  const connection = valueOf(openDatabase(join(folder, 'slatch.db'), migrations.slice(0, version)));
  valueOf(
    connection.write(() => {
      for (const { since, fill } of TABLES) if (since <= version) fill(connection, folder);
      for (let number = 2; number <= logCount; number++) addLog(connection, number);
      return ok(null);
    }),
  );
  connection.close();
}

function fillFirst(connection: Connection): void {
  for (const [name, version] of [
    ['Old one', 3],
    ['Old two', 1],
  ] as const)
    connection.run('INSERT INTO passage (name, version, json, saved_at_epoch_ms) VALUES (:name, :version, :json, 7)', {
      name,
      version,
      json: JSON.stringify({ name, version }),
    });
  addLog(connection, 1);
  connection.run(
    'INSERT INTO plan (passage_number, number, seed, made_at_utc, json, written_at_epoch_ms) VALUES (1, 1, 5, :at, :json, 7)',
    { at: '2026-05-27T18:00Z', json: '{"number":1}' },
  );
}

function addLog(connection: Connection, number: number): void {
  connection.run(
    'INSERT INTO log_entry (passage_number, number, kind, at_epoch_ms, json, written_at_epoch_ms) ' +
      "VALUES (1, :number, 'note', :number, :json, 7)",
    { number, json: JSON.stringify({ number, text: 'reefed '.repeat(number % 200) }) },
  );
}

const GRIB_OCTETS = Buffer.from('GRIB, as far as this store knows');

function fillForecasts(connection: Connection, folder: string): void {
  const hash = createHash('sha256').update(GRIB_OCTETS).digest('hex');
  writeFileSync(join(folder, 'grib', `${hash}.grib`), GRIB_OCTETS);
  connection.run(
    'INSERT INTO forecast (hash, file_name, size_octets, added_at_epoch_ms) VALUES (:hash, :name, :size, 7)',
    {
      hash,
      name: 'old.grib2',
      size: GRIB_OCTETS.length,
    },
  );
}

function fillSources(connection: Connection): void {
  connection.run(
    'INSERT INTO passage_source (passage_number, file, folder, taken_hash, taken_at_epoch_ms) ' +
      "VALUES (1, '/boat/old.json', '/boat', :hash, 7)",
    { hash: sha256('taken') },
  );
  connection.run("INSERT INTO passage_shown (file, passage_number) VALUES ('/boat/old.json', 1)", {});
}

function fillMessages(connection: Connection): void {
  connection.run(
    'INSERT INTO message (passage_number, number, direction, kind, sender, counter_number, fingerprint, signature, ' +
      "made_at_epoch_ms, text, of_json, written_at_epoch_ms) VALUES (1, 1, 'sent', 'plan', 'SH', 4, 'F', 'unsigned', 7, 'text', '{}', 7)",
    {},
  );
}

function fillViews(connection: Connection): void {
  connection.run(
    "INSERT INTO plan_view (passage_number, version, log_number, made_by, octets) VALUES (1, 3, 1, 'x', :octets)",
    { octets: new Uint8Array(Buffer.from('000000000001')) },
  );
}

const nameSchema = z.object({ name: z.string() });
const rowSchema = z.record(z.string(), z.unknown());

/** Every row of every table there is, as text; of later columns and tables nothing, where the older store is told. */
export function rowsOf(
  connection: Connection,
  like?: ReadonlyMap<string, readonly string[]>,
): ReadonlyMap<string, readonly string[]> {
  const tables = connection.all(
    nameSchema,
    "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name",
    {},
  );
  const rows = new Map<string, readonly string[]>();
  for (const { name } of tables) {
    const wanted = like?.get(name);
    if (like !== undefined && wanted === undefined) continue;
    const columns = wanted?.[0] ?? columnsOf(connection, name);
    const found = connection.all(rowSchema, `SELECT ${columns} FROM "${name}" ORDER BY ${columns}`, {});
    rows.set(name, [columns, ...found.map((row) => JSON.stringify(row))]);
  }
  return rows;
}

const columnsOf = (connection: Connection, table: string): string =>
  connection
    .all(nameSchema, `SELECT name FROM pragma_table_info('${table}')`, {})
    .map(({ name }) => `"${name}"`)
    .join(', ');
