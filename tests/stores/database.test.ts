import Database from 'libsql';
import { spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openStore } from '../../server/stores/index.ts';
import { openDatabase } from '../../server/stores/database.ts';
import { migrations } from '../../server/stores/migrations/index.ts';
import { projectFolder } from '../architecture/source-file.ts';
import { aPassage, aPlan, codesOf, freshFolder, freshStore, valueOf } from './store-fixture.ts';

/** The database behind the store, opened beside it. */
function behind(folder: string): Database.Database {
  const database = new Database(join(folder, 'slatch.db'));
  onTestFinished(() => {
    database.close();
  });
  return database;
}

const rows = (database: Database.Database, sql: string): unknown[] =>
  database
    .prepare(sql)
    .all()
    .map((row) => Object.values(row as object)[0] as unknown);

/** In a child, because a superuser may write anywhere and has to become someone else first. */
function openAsNobody(folder: string): string {
  const child = spawnSync(
    process.execPath,
    ['--import', 'tsx', join(import.meta.dirname, 'open-as-nobody-child.ts'), folder],
    {
      cwd: projectFolder,
      encoding: 'utf8',
    },
  );
  return child.stdout + child.stderr;
}

describe('database', () => {
  it('a fresh store: write-ahead log, and one sync for every commit', () => {
    const folder = freshFolder();
    freshStore(folder);
    expect(rows(behind(folder), 'PRAGMA journal_mode')).toEqual(['wal']);
    // `synchronous` belongs to the connection: 2 is FULL (SQLite documentation, PRAGMA synchronous).
    const connection = valueOf(openDatabase(join(folder, 'slatch.db')));
    onTestFinished(() => {
      connection.close();
    });
    const synchronous = connection.all({ parse: (row: unknown) => row } as never, 'PRAGMA synchronous', {});
    expect(Object.values(synchronous[0] ?? {})[0]).toBe(2);
  });

  it('log and plans: cannot be changed or deleted, not even by SQL', () => {
    const folder = freshFolder();
    const store = freshStore(folder);
    store.passages.create(aPassage);
    store.plans.append({ ...aPlan, passageNumber: 1 });
    store.log.append({ passageNumber: 1, kind: 'note', atEpochMs: 1, json: '{}', writtenAtEpochMs: 1 });
    const database = behind(folder);
    for (const table of ['log_entry', 'plan', 'passage_version']) {
      expect(() => database.exec(`UPDATE ${table} SET json = '{"a":1}'`)).toThrow('only added to');
      expect(() => database.exec(`DELETE FROM ${table}`)).toThrow('only added to');
      expect(rows(database, `SELECT count(*) FROM ${table}`)).toEqual([1]);
    }
  });

  it('migrations: leave their number, and opening again runs none', () => {
    const folder = freshFolder();
    freshStore(folder).passages.create(aPassage);
    expect(rows(behind(folder), 'PRAGMA user_version')).toEqual([migrations.length]);
    expect(valueOf(freshStore(folder).passages.list())).toHaveLength(1);
    expect(rows(behind(folder), 'PRAGMA user_version')).toEqual([migrations.length]);
  });

  it('a store of the first migration: is brought up to date and keeps what it holds', () => {
    const folder = freshFolder();
    const old = behind(folder);
    old.exec(`${migrations[0] ?? ''}; PRAGMA user_version = 1;`);
    old.exec(`INSERT INTO passage (name, version, json, saved_at_epoch_ms) VALUES ('Old', 3, '{}', 1)`);
    const store = freshStore(folder);
    expect(valueOf(store.passages.find('Old'))?.version).toBe(3);
    expect(valueOf(store.forecasts.list())).toEqual([]);
  });

  it('a store of the second migration: its passages have a version to go back to', () => {
    const folder = freshFolder();
    const old = behind(folder);
    old.exec(`${migrations[0] ?? ''}; ${migrations[1] ?? ''}; PRAGMA user_version = 2;`);
    old.exec(`INSERT INTO passage (name, version, json, saved_at_epoch_ms) VALUES ('Old', 3, '{"a":1}', 1)`);
    const { documents, passages } = freshStore(folder);
    expect(valueOf(documents.versionText({ number: 1, version: 3 }))).toBe('{"a":1}');
    passages.save(1, { ...aPassage, expectedVersion: 3 });
    expect(valueOf(documents.versions(1)).map(({ version }) => version)).toEqual([3, 4]);
  });

  it('a store of a newer version: refused and left alone', () => {
    const folder = freshFolder();
    behind(folder).exec('PRAGMA user_version = 99');
    expect(codesOf(openStore(folder))).toEqual(['store.newer']);
    expect(rows(behind(folder), 'PRAGMA user_version')).toEqual([99]);
  });

  it('a file that is no database: refused in plain words', () => {
    const folder = freshFolder();
    writeFileSync(join(folder, 'slatch.db'), 'not a database at all, but long enough to be looked at '.repeat(20));
    expect(codesOf(openStore(folder))).toEqual(['store.damaged']);
  });

  it('closed: the one file slatch.db holds everything, as somebody may copy it', () => {
    const [folder, copy] = [freshFolder(), freshFolder()];
    const store = valueOf(openStore(folder));
    store.passages.create(aPassage);
    for (let number = 1; number <= 50; number++)
      store.log.append({ passageNumber: 1, kind: 'note', atEpochMs: 1, json: '{}', writtenAtEpochMs: 1 });
    store.close();
    copyFileSync(join(folder, 'slatch.db'), join(copy, 'slatch.db'));
    expect(valueOf(freshStore(copy).log.list(1))).toHaveLength(50);
  });

  it.skipIf(process.platform === 'win32')('a folder that is made: for its user alone, and those above it too', () => {
    const above = join(freshFolder(), 'above');
    freshStore(join(above, 'store'));
    const modes = [above, join(above, 'store'), join(above, 'store', 'grib')].map((one) => statSync(one).mode & 0o777);
    // XDG Base Directory Specification 0.8: a folder that has to be made has 0700.
    expect(modes).toEqual([0o700, 0o700, 0o700]);
  });

  it('a folder that is a file: refused in plain words', () => {
    const path = join(freshFolder(), 'taken');
    writeFileSync(path, '');
    expect(codesOf(openStore(path))).toEqual(['store.cannot-write']);
  });

  it('a read-only folder: refused in plain words, and nothing is left in it', () => {
    const folder = freshFolder();
    chmodSync(folder, 0o555);
    expect(openAsNobody(folder)).toBe('store.cannot-write\n');
    expect(readdirSync(folder)).toEqual([]);
  });

  it('a store that has become read-only: refused in plain words', () => {
    const folder = freshFolder();
    valueOf(openStore(folder)).close();
    chmodSync(join(folder, 'slatch.db'), 0o444);
    chmodSync(folder, 0o555);
    expect(openAsNobody(folder)).toBe('store.cannot-write\n');
  });
});
