/** Everything a store holds, as one hash: all rows of all tables, and all files beside the database. */
import Database from 'libsql';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';

export function storeHash(folder: string): string {
  const hash = createHash('sha256');
  for (const part of [...tablesOf(folder), ...filesOf(folder)]) hash.update(`${part}\n`);
  return hash.digest('hex');
}

/** Tables with their rows, in words. */
export function tablesOf(folder: string): readonly string[] {
  const database = new Database(join(folder, 'slatch.db'));
  try {
    const names = database.prepare("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name").all() as {
      name: string;
    }[];
    return names.map(({ name }) => `${name} ${JSON.stringify(database.prepare(`SELECT * FROM "${name}"`).all())}`);
  } finally {
    database.close();
  }
}

const filesOf = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => !name.startsWith('slatch.db') && statSync(join(folder, name)).isFile())
    .toSorted()
    .map(
      (name) =>
        `${name} ${createHash('sha256')
          .update(readFileSync(join(folder, name)))
          .digest('hex')}`,
    );
