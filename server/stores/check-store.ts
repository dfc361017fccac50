/** What state a store is in, without changing it. */
import type Database from 'libsql';
import { existsSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { migrations } from './migrations/index.ts';
import { forecastRows, hasTable, numberOf } from './read-rows.ts';
import { GRIB_NAME } from './grib-files.ts';
import { sha256OfFile } from './file-hash.ts';
import { databasePath, gribFolderOf, refuseNewer } from './open-store.ts';
import { leftParts } from './part-files.ts';
import { openReading } from './open-reading.ts';
import { serverOf } from './server-lock.ts';
import { integrityOf, isCopyBefore } from './snapshot.ts';
import { attemptLater, noStore, notWhole, troubleOf } from './store-problems.ts';
import {
  forecastDamaged,
  forecastMissing,
  gapIn,
  openToOthers,
  partLeft,
  serverKilled,
  sizeDiffers,
  unlisted,
} from './check-problems.ts';

export interface StoreReport {
  readonly folder: string;
  /** Number of migrations the database has had; null: it cannot be read. */
  readonly version: number | null;
  /** The one this program makes of it when it opens it. */
  readonly newestVersion: number;
  readonly databaseOctets: number;
  /** Of the write-ahead log, which belongs to the database. */
  readonly logOctets: number;
  readonly forecastCount: number;
  readonly forecastOctets: number;
  /** Rows of the tables people ask after; none of a database that cannot be read. */
  readonly rowCounts: Readonly<Record<string, number>>;
  readonly server: { readonly isRunning: boolean | null; readonly note: string };
  /** Copies kept before the store was brought up to date. */
  readonly copies: readonly { readonly name: string; readonly sizeOctets: number }[];
  /** What is wrong, and costs something. */
  readonly faults: readonly Problem[];
  /** What is odd, and does no harm. */
  readonly notes: readonly Problem[];
}

interface Findings {
  readonly faults: Problem[];
  readonly notes: Problem[];
}

/**
 * Looks a store through: the database by SQLite's own checks, the numbering, every forecast file by its hash, and what lies
 * beside. It may be in use, of an older version, or on a disk that can only be read.
 *
 * @returns `store.none`, `store.newer`; what is wrong inside is in the report
 */
export function checkStore(folder: string): Promise<Result<StoreReport>> {
  return attemptLater(folder, async () => {
    const path = databasePath(folder);
    if (!existsSync(path)) return failed(noStore(folder));
    const untouched = refuseNewer(folder);
    if (!untouched.ok) return untouched;
    const found: Findings = { faults: [], notes: [] };
    const held = readDatabase(path, found);
    const files = await checkForecasts(gribFolderOf(folder), held?.forecasts ?? null, found);
    lookAround(folder, found);
    const server = serverOf(folder);
    if (server.isRunning === false && server.note !== '') found.notes.push(serverKilled(folder, server.note));
    return ok({
      folder,
      version: held?.version ?? null,
      newestVersion: migrations.length,
      databaseOctets: sizeOf(path),
      logOctets: sizeOf(`${path}-wal`),
      ...files,
      rowCounts: held?.rowCounts ?? {},
      server,
      copies: copiesIn(folder),
      ...found,
    });
  });
}

const sizeOf = (path: string): number => statSync(path, { throwIfNoEntry: false })?.size ?? 0;

const copiesIn = (folder: string): StoreReport['copies'] =>
  readdirSync(folder)
    .filter(isCopyBefore)
    .toSorted()
    .map((name) => ({ name, sizeOctets: sizeOf(join(folder, name)) }));

interface Held {
  readonly version: number;
  readonly rowCounts: Readonly<Record<string, number>>;
  readonly forecasts: ReadonlyMap<string, number>;
}

/** Null: it cannot be read, and the fault is told. */
function readDatabase(path: string, found: Findings): Held | null {
  try {
    return openReading(path, (database) => {
      const faults = integrityOf(database);
      if (faults.length > 0) found.faults.push(notWhole(path, faults));
      found.faults.push(...gapsIn(database, path));
      return {
        version: numberOf(database, 'PRAGMA user_version'),
        rowCounts: rowCounts(database),
        forecasts: forecastRows(database),
      };
    });
  } catch (error) {
    const problem = troubleOf(error, path);
    if (problem === null) throw error;
    found.faults.push(problem);
    return null;
  }
}

const TABLES = ['passage', 'passage_version', 'log_entry', 'plan', 'message', 'forecast'];
/** Numbered from 1 within a passage, and only ever added to. */
const NUMBERED: readonly (readonly [table: string, column: string])[] = [
  ['log_entry', 'number'],
  ['plan', 'number'],
  ['message', 'number'],
];

const rowCounts = (database: Database.Database): Record<string, number> =>
  Object.fromEntries(
    TABLES.filter((table) => hasTable(database, table)).map((table) => [
      table,
      numberOf(database, `SELECT count(*) FROM ${table}`),
    ]),
  );

const gapSchema = z.object({ passage: z.number(), most: z.number(), held: z.number() });

function gapsIn(database: Database.Database, where: string): readonly Problem[] {
  return NUMBERED.filter(([table]) => hasTable(database, table)).flatMap(([table, column]) =>
    database
      .prepare(
        `SELECT passage_number AS passage, max(${column}) AS most, count(*) AS held FROM ${table} ` +
          `GROUP BY passage_number HAVING max(${column}) <> count(*) OR min(${column}) <> 1`,
      )
      .all()
      .map((row) => gapIn(where, { table, ...gapSchema.parse(row) })),
  );
}

/** @param rows size by hash as the database has it; null: it cannot be read */
async function checkForecasts(
  folder: string,
  rows: ReadonlyMap<string, number> | null,
  { faults, notes }: Findings,
): Promise<Pick<StoreReport, 'forecastCount' | 'forecastOctets'>> {
  const names = existsSync(folder) ? readdirSync(folder).toSorted() : [];
  const there = new Set<string>();
  let forecastOctets = 0;
  for (const name of names) {
    const hash = GRIB_NAME.exec(name)?.[1];
    if (hash === undefined) continue;
    const path = join(folder, name);
    const sizeOctets = sizeOf(path);
    there.add(hash);
    forecastOctets += sizeOctets;
    const row = rows?.get(hash);
    // oxlint-disable-next-line no-await-in-loop
    if ((await sha256OfFile(path)) !== hash) faults.push(forecastDamaged(path));
    else if (row !== undefined && row !== sizeOctets) faults.push(sizeDiffers(path, row, sizeOctets));
    if (rows !== null && row === undefined) notes.push(unlisted(path, sizeOctets));
  }
  for (const hash of rows?.keys() ?? []) if (!there.has(hash)) faults.push(forecastMissing(folder, hash));
  return { forecastCount: there.size, forecastOctets };
}

function lookAround(folder: string, { notes }: Findings): void {
  const parts = [...leftParts(folder), ...leftParts(gribFolderOf(folder), true)];
  for (const path of parts) notes.push(partLeft(path, sizeOf(path)));
  const { mode } = statSync(folder);
  if (process.platform !== 'win32' && (mode & 0o077) !== 0) notes.push(openToOthers(folder, mode));
}
