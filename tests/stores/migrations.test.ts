/** Stores of earlier and of later versions. */
import Database from 'libsql';
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { makeOldStore, NEWEST_VERSION, OLD_VERSIONS, rowsOf } from '../../scripts/kill-store/old-stores.ts';
import { openServerStore } from '../../server/open-server-store.ts';
import { openDatabase } from '../../server/stores/database.ts';
import { versionOnDisk } from '../../server/stores/disk-version.ts';
import { checkStore, openStore } from '../../server/stores/index.ts';
import { migrations } from '../../server/stores/migrations/index.ts';
import { codesOf, freshFolder, valueOf } from './store-fixture.ts';

const databaseIn = (folder: string): string => join(folder, 'slatch.db');

/** Every row of a database, opened as its version is; of tables and columns that came later nothing. */
function rowsIn(path: string, version: number, like?: ReturnType<typeof rowsOf>): ReturnType<typeof rowsOf> {
  const connection = valueOf(openDatabase(path, migrations.slice(0, version)));
  const rows = rowsOf(connection, like);
  connection.close();
  return rows;
}

/** Name, size, time and content of every file below a folder. */
const everyOctet = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .toSorted()
    .map((name) => {
      const path = join(folder, name);
      const { mtimeMs, size } = statSync(path);
      const content = statSync(path).isFile() ? createHash('sha256').update(readFileSync(path)).digest('hex') : '';
      return [name, size, mtimeMs, content].join(' ');
    });

const copyName = (more = ''): string => `slatch-before-${String(NEWEST_VERSION).padStart(4, '0')}${more}.db`;

const copiesIn = (folder: string): readonly string[] =>
  readdirSync(folder).filter((name) => name.startsWith('slatch-before') && name.endsWith('.db'));

describe('a store of an earlier version', () => {
  it.each(OLD_VERSIONS)(
    'of version %i: copied as it was, then brought up to date with all it held',
    async (version) => {
      const folder = freshFolder();
      makeOldStore(folder, version);
      const before = rowsIn(databaseIn(folder), version);
      expect(before.size).toBeGreaterThanOrEqual(3);
      valueOf(openStore(folder)).close();
      const report = valueOf(await checkStore(folder));
      expect({ version: report.version, faults: report.faults }).toEqual({ version: NEWEST_VERSION, faults: [] });
      expect(rowsIn(databaseIn(folder), NEWEST_VERSION, before)).toEqual(before);
      expect(copiesIn(folder)).toEqual([copyName()]);
      const copy = join(folder, copyName());
      expect(versionOnDisk(copy)).toBe(version);
      expect(rowsIn(copy, version)).toEqual(before);
      // Opened again there is nothing to copy.
      valueOf(openStore(folder)).close();
      expect(copiesIn(folder)).toHaveLength(1);
    },
  );

  it('brought up to date twice, as after a restored backup: both copies are kept', () => {
    const folder = freshFolder();
    makeOldStore(folder, 4);
    writeFileSync(join(folder, copyName()), 'the first');
    valueOf(openStore(folder)).close();
    expect(readFileSync(join(folder, copyName()), 'utf8')).toBe('the first');
    expect(copiesIn(folder)).toEqual([copyName('-2'), copyName()]);
  });

  it('a migration that fails in its second step: refused in words, and the store is as it was', () => {
    const folder = freshFolder();
    makeOldStore(folder, 6);
    const before = rowsIn(databaseIn(folder), 6);
    const steps = [...migrations.slice(0, 6), 'CREATE TABLE new_one (a)', 'INSERT INTO no_such_table VALUES (1)'];
    const refused = openDatabase(databaseIn(folder), steps);
    expect(codesOf(refused)).toEqual(['store.not-migrated']);
    expect(JSON.stringify(refused)).toContain('no_such_table');
    expect(versionOnDisk(databaseIn(folder))).toBe(6);
    expect(rowsIn(databaseIn(folder), 6)).toEqual(before);
    // The program it was written by goes on with it, and so does a later one that is mended.
    expect(valueOf(openStore(folder)).passages.list()).toMatchObject({ ok: true, value: [{ name: 'Old one' }, {}] });
  });

  it('a database of another program under our name: refused, nothing is added to it', () => {
    const folder = freshFolder();
    const other = new Database(databaseIn(folder));
    other.exec('CREATE TABLE songs (name TEXT)');
    other.close();
    expect(codesOf(openStore(folder))).toEqual(['store.damaged']);
    expect(rowsOf(valueOf(openDatabase(databaseIn(folder), [])))).toEqual(new Map([['songs', ['"name"']]]));
  });
});

describe('a store of a later version', () => {
  /** As a later program leaves it; with `isKilled` before its log was taken into the database. */
  function laterStore(isKilled: boolean): string {
    const folder = join(freshFolder(), 'later');
    mkdirSync(folder);
    const steps = [...migrations, 'CREATE TABLE later (a)'];
    valueOf(openDatabase(databaseIn(folder))).close();
    const later = valueOf(openDatabase(databaseIn(folder), steps));
    if (!isKilled) later.close();
    return folder;
  }

  it.each([
    ['closed', false],
    ['killed, its version in the log alone', true],
  ])('%s: refused by name, and not an octet in its folder is touched', async (_how, isKilled) => {
    const folder = laterStore(isKilled);
    const inFile = readFileSync(databaseIn(folder)).readUInt32BE(60);
    expect(inFile).toBe(isKilled ? NEWEST_VERSION : NEWEST_VERSION + 1);
    const before = everyOctet(folder);
    expect(codesOf(openStore(folder))).toEqual(['store.newer']);
    expect(codesOf(openServerStore(folder))).toEqual(['store.newer']);
    expect(codesOf(await checkStore(folder))).toEqual(['store.newer']);
    expect(everyOctet(folder)).toEqual(before);
  });
});

describe('versionOnDisk', () => {
  it('of no file or an empty one 0, of anything else null; a log that is torn or strange counts up to there', () => {
    const folder = freshFolder();
    const path = databaseIn(folder);
    expect(versionOnDisk(path)).toBe(0);
    writeFileSync(path, '');
    expect(versionOnDisk(path)).toBe(0);
    writeFileSync(path, 'Dear diary, today we had a good wind and sailed all night long. '.repeat(3));
    expect(versionOnDisk(path)).toBeNull();
    const whole = join(folder, 'whole.db');
    const connection = valueOf(openDatabase(whole, ['CREATE TABLE a (b)']));
    expect(versionOnDisk(whole)).toBe(1);
    const log = readFileSync(`${whole}-wal`);
    writeFileSync(path, readFileSync(whole));
    for (let cut = 0; cut < log.length; cut += 997) {
      writeFileSync(`${path}-wal`, log.subarray(0, cut));
      expect([0, 1]).toContain(versionOnDisk(path));
    }
    // Page size of four gigabytes.
    writeFileSync(`${path}-wal`, Buffer.concat([log.subarray(0, 8), Buffer.alloc(4, 0xff), log.subarray(12)]));
    expect(versionOnDisk(path)).toBe(0);
    connection.close();
  });
});
