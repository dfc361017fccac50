import type Database from 'libsql';
import { z } from 'zod';

/** Whether a database of whatever version has a table. */
export const hasTable = (database: Database.Database, table: string): boolean =>
  numberOf(database, `SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = '${table}'`) > 0;

/** The one number a query answers with. */
export const numberOf = (database: Database.Database, sql: string): number => {
  const row: unknown = database.prepare(sql).raw().get();
  return Array.isArray(row) && typeof row[0] === 'number' ? row[0] : 0;
};

const rowSchema = z.object({ hash: z.string(), sizeOctets: z.number() });

/** Size [octets] by hash of every forecast a database lists, whatever its version. */
export const forecastRows = (database: Database.Database): ReadonlyMap<string, number> =>
  hasTable(database, 'forecast')
    ? new Map(
        database
          .prepare('SELECT hash, size_octets AS sizeOctets FROM forecast')
          .all()
          .map((row) => rowSchema.parse(row))
          .map(({ hash, sizeOctets }) => [hash, sizeOctets]),
      )
    : new Map();
