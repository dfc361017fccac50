/** `slatch store` and `slatch passage`: what a user keeps, as one file and back. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { makeOldStore, NEWEST_VERSION } from '../../scripts/kill-store/old-stores.ts';
import { contentsOf } from '../../scripts/kill-store/contents.ts';
import { linesOf } from '../../scripts/kill-store/lines.ts';
import { type StoreReport, takeServerLock } from '../../server/stores/index.ts';
import { projectFolder } from '../architecture/source-file.ts';
import { slatch } from '../end-to-end/run-slatch.ts';
import { folderWith, removeFolders } from '../end-to-end/small-passage.ts';
import { aPassage, aPlan, freshStore, valueOf } from '../stores/store-fixture.ts';

afterAll(removeFolders);

const WORKER = 'scripts/kill-store/worker-child.ts';
const WIND = Buffer.from('GRIB, as far as the store knows');

/** A store with something of every kind; its folder, and what is in it. */
async function filled(): Promise<{ folder: string; contents: ReturnType<typeof contentsOf>; hash: string }> {
  const folder = join(folderWith({}), 'store');
  const store = freshStore(folder);
  const taken = { ...aPassage, file: '/boat/tasman.json', folder: '/boat', inPlaceOf: null };
  const first = valueOf(store.documents.takeOver(taken));
  valueOf(store.documents.save(first, { ...aPassage, json: '{"slatch":1,"name":"Tasman","jobs":[]}' }));
  valueOf(store.log.append({ passageNumber: 1, kind: 'note', atEpochMs: 5, json: '{}', writtenAtEpochMs: 5 }));
  valueOf(store.plans.append({ ...aPlan, passageNumber: 1 }));
  const view = { passageNumber: 1, version: 1, logNumber: 0, madeBy: 'x', octets: Buffer.from('000000000001') };
  valueOf(store.planViews.keep(view));
  const forecast = { fileName: 'wind.grib2', content: [WIND], mostOctets: 1000, atEpochMs: 1 };
  const { hash } = valueOf(await store.forecasts.add(forecast));
  return { folder, contents: contentsOf(store), hash };
}

describe('slatch store backup and restore', () => {
  it('while the store is open and in use: one file; restored elsewhere it holds the same', async () => {
    const { folder, contents } = await filled();
    const to = folderWith({});
    const backup = await slatch('store', 'backup', to, '--store', folder);
    expect(backup).toMatchObject({ code: 0, err: '' });
    const [name = ''] = readdirSync(to);
    expect(name).toMatch(/^slatch-store-\d{8}T\d{4}Z\.tar$/);
    expect(statSync(join(to, name)).mode & 0o777).toBe(0o600);
    const other = join(to, 'other');
    const restored = await slatch('store', 'restore', join(to, name), '--store', other, '--json');
    expect(JSON.parse(restored.out)).toMatchObject({ folder: other, asideFolder: null, fileCount: 2, remarks: [] });
    expect(statSync(other).mode & 0o777).toBe(0o700);
    expect(contentsOf(freshStore(other))).toEqual(contents);
    // What is there is not written over.
    expect((await slatch('store', 'backup', join(to, name), '--store', folder)).err).toContain('--force');
    expect((await slatch('store', 'backup', join(to, name), '--store', folder, '--force')).code).toBe(0);
  });

  it('while another program writes without pause: one state, with everything that was acknowledged before', async () => {
    const folder = join(folderWith({}), 'store');
    const child = spawn(process.execPath, ['--import', 'tsx', WORKER, 'write', folder, '3'], { cwd: projectFolder });
    let said = '';
    child.stdout.on('data', (chunk: Buffer) => (said += chunk.toString()));
    const keptSoFar = () => linesOf(said).flatMap((line) => (line.say === 'kept' ? [line] : []));
    await expect.poll(() => keptSoFar().length, { timeout: 60_000 }).toBeGreaterThan(5);
    const before = keptSoFar();
    const file = join(folder, '..', 'b.tar');
    const backup = await slatch('store', 'backup', file, '--store', folder);
    child.kill('SIGKILL');
    await once(child, 'close');
    const after = keptSoFar();
    // A forecast may have been removed meanwhile: then that is said.
    expect(backup.err.replaceAll(/^grib.* was left out: it is not there\.\n/gm, '')).toBe('');
    const other = join(folder, '..', 'other');
    expect(await slatch('store', 'restore', file, '--store', other)).toMatchObject({ code: 0 });
    const contents = contentsOf(freshStore(other));
    const lasting = before.filter(({ key }) => !/^(view|forecast) /.test(key));
    expect(lasting.filter(({ key, mark }) => contents.get(key) !== mark)).toEqual([]);
    expect(contents.size).toBeLessThanOrEqual(after.length + 2);
    const { faults } = JSON.parse((await slatch('store', 'check', '--store', other, '--json')).out) as StoreReport;
    expect(faults.filter(({ code }) => code !== 'store.forecast-missing')).toEqual([]);
  });

  it('over a store that is there: refused; with --force the old one is kept beside it, whole', async () => {
    const { folder, contents } = await filled();
    const file = join(folderWith({}), 'b.tar');
    await slatch('store', 'backup', file, '--store', folder);
    valueOf(freshStore(folder).passages.create({ ...aPassage, name: 'Later' }));
    const refused = await slatch('store', 'restore', file, '--store', folder);
    expect(refused).toMatchObject({ code: 1, out: '' });
    expect(refused.err).toContain('or use --force');
    const forced = await slatch('store', 'restore', file, '--store', folder, '--force', '--json');
    const { asideFolder } = JSON.parse(forced.out) as { asideFolder: string };
    expect(contentsOf(freshStore(folder))).toEqual(contents);
    expect(valueOf(freshStore(asideFolder).passages.find('Later'))).not.toBeNull();
    expect(readdirSync(join(folder, '..')).filter((name) => name.includes('unpacking'))).toEqual([]);
  });

  it('while a server uses the store: refused, with who it is; nothing is changed', async () => {
    const { folder } = await filled();
    const file = join(folderWith({}), 'b.tar');
    await slatch('store', 'backup', file, '--store', folder);
    const lock = valueOf(takeServerLock(folder));
    lock.note('http://127.0.0.1:4137/, process 7');
    const refused = await slatch('store', 'restore', file, '--store', folder, '--force');
    expect(refused).toMatchObject({ code: 1, out: '' });
    expect(refused.err).toContain('(http://127.0.0.1:4137/, process 7)');
    expect((await slatch('store', 'check', '--store', folder)).out).toContain(
      'running: http://127.0.0.1:4137/, process 7',
    );
    lock.release();
    expect(readdirSync(join(folder, '..'))).toEqual(['store']);
  });

  it('a backup that was spoiled on the way: refused, and nothing is there', async () => {
    const { folder } = await filled();
    const file = join(folderWith({}), 'b.tar');
    await slatch('store', 'backup', file, '--store', folder);
    const octets = readFileSync(file);
    octets.writeUInt8(octets.readUInt8(5000) ^ 1, 5000);
    writeFileSync(file, octets);
    const other = join(folder, '..', 'other');
    const refused = await slatch('store', 'restore', file, '--store', other);
    expect(refused).toMatchObject({ code: 1, out: '' });
    expect(refused.err).toContain('slatch.db: Its content is not what was put in');
    expect(readdirSync(join(folder, '..'))).toEqual(['store']);
  });

  it('with a forecast file that is damaged: all the rest is in it, the file is named, exit code 1', async () => {
    const { folder, hash } = await filled();
    writeFileSync(join(folder, 'grib', `${hash}.grib`), 'spoiled');
    const file = join(folderWith({}), 'b.tar');
    const backup = await slatch('store', 'backup', file, '--store', folder);
    expect(backup.code).toBe(1);
    expect(backup.err).toBe(`grib/${hash}.grib was left out: it is damaged, its content is not what its name says.\n`);
    const other = join(folder, '..', 'other');
    expect(await slatch('store', 'restore', file, '--store', other)).toMatchObject({ code: 0 });
    expect((await slatch('store', 'check', '--store', other)).out).toContain('its file is not there');
  });

  it('of an older store: backed up as it is, and brought up to date only when it is used', async () => {
    const folder = join(folderWith({}), 'old');
    makeOldStore(folder, 5);
    const file = join(folder, '..', 'b.tar');
    expect(await slatch('store', 'backup', file, '--store', folder)).toMatchObject({ code: 0 });
    const other = join(folder, '..', 'other');
    expect(await slatch('store', 'restore', file, '--store', other)).toMatchObject({ code: 0 });
    const { out } = await slatch('store', 'check', '--store', other);
    expect(out).toContain(`version 5; opening it makes it ${NEWEST_VERSION}`);
    expect(freshStore(other).log.list(1)).toMatchObject({ ok: true, value: { length: 40 } });
  });

  it('wrong use: exit code 2 and the help', async () => {
    const wrong = [['backup'], ['backup', 'a', 'b'], ['restore'], ['check', 'x'], ['check', '--store', ' '], ['mend']];
    for (const args of wrong) {
      // oxlint-disable-next-line no-await-in-loop
      const ran = await slatch('store', ...args);
      expect(ran.code, args.join(' ')).toBe(2);
      expect(ran.err).toContain('slatch store');
    }
    const nowhere = join(folderWith({}), 'nowhere');
    expect(await slatch('store', 'backup', 'b.tar', '--store', nowhere)).toMatchObject({ code: 1, out: '' });
    expect(existsSync(nowhere)).toBe(false);
  });
});

describe('slatch store check', () => {
  it('a whole store: what it holds, nothing wrong, exit code 0', async () => {
    const { folder } = await filled();
    const ran = await slatch('store', 'check', '--store', folder);
    expect(ran).toMatchObject({ code: 0, err: '' });
    expect(ran.out).toContain('1 passage, 2 versions of passages, 1 log entry, 1 plan, 0 messages, 1 forecast listed');
    expect(ran.out).toContain('Nothing is wrong.');
    expect(ran.out).not.toContain('Odd');
  });

  it('what is odd is told, and is no fault: a stray file, a half-written one, a folder open to others, a server that was killed', async () => {
    const { folder } = await filled();
    writeFileSync(join(folder, 'grib', `${'0'.repeat(64)}.grib`), '');
    writeFileSync(join(folder, 'grib', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855.grib'), '');
    writeFileSync(join(folder, 'grib', 'x.part'), 'half');
    writeFileSync(join(folder, 'server.txt'), 'http://127.0.0.1:4137/, process 7');
    chmodSync(folder, 0o755);
    const { code, out } = await slatch('store', 'check', '--store', folder, '--json');
    const { faults, notes } = JSON.parse(out) as Record<'faults' | 'notes', readonly { code: string }[]>;
    expect(code).toBe(1);
    // Of the two files one is not even what its name says.
    expect(faults.map((one) => one.code)).toEqual(['store.forecast-damaged']);
    expect(notes.map((one) => one.code)).toEqual([
      'store.forecast-unlisted',
      'store.forecast-unlisted',
      'store.part-left',
      'store.open-to-others',
      'store.server-killed',
    ]);
  });

  it('a forecast file that is gone, and a database that is not whole: each told with what to do, exit code 1', async () => {
    const { folder, hash } = await filled();
    rmSync(join(folder, 'grib', `${hash}.grib`));
    const gone = await slatch('store', 'check', '--store', folder);
    expect(gone.code).toBe(1);
    expect(gone.out).toContain('its file is not there');
    const spoiled = join(folder, '..', 'spoiled');
    mkdirSync(spoiled);
    await slatch('store', 'backup', join(folder, '..', 'b.tar'), '--store', folder);
    await slatch('store', 'restore', join(folder, '..', 'b.tar'), '--store', spoiled);
    const octets = readFileSync(join(spoiled, 'slatch.db'));
    // Everything behind the first page (4096 octets).
    writeFileSync(join(spoiled, 'slatch.db'), octets.fill(0x55, 4096));
    const damaged = await slatch('store', 'check', '--store', spoiled);
    expect(damaged.code).toBe(1);
    expect(damaged.out).toContain('slatch store restore FILE --force');
    expect((await slatch('store', 'backup', join(folder, '..', 'c.tar'), '--store', spoiled)).code).toBe(1);
    expect(existsSync(join(folder, '..', 'c.tar'))).toBe(false);
  });
});
