import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { failed } from '../../lib/result/index.ts';
import { type Connection, openDatabase } from '../../server/stores/database.ts';
import { type ForecastStore, forecastStore } from '../../server/stores/forecasts.ts';
import { codesOf, freshFolder, freshStore, valueOf } from './store-fixture.ts';

// FIPS 180-4, Secure Hash Standard, NIST 2015: SHA-256 of the three octets "abc" (example of the standard).
const HASH_OF_ABC = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';

const octets = (text: string): Uint8Array => new TextEncoder().encode(text);
const abc = { fileName: 'a.grib2', content: [octets('a'), octets('bc')], mostOctets: 100, atEpochMs: 5 };

describe('forecasts', () => {
  it('added: lies under the hash of its content and is listed', async () => {
    const folder = freshFolder();
    const { forecasts } = freshStore(folder);
    const added = valueOf(await forecasts.add(abc));
    const entry = {
      hash: HASH_OF_ABC,
      fileName: 'a.grib2',
      sizeOctets: 3,
      addedAtEpochMs: 5,
      summaryJson: null,
      credit: null,
    };
    expect(added).toEqual(entry);
    expect(readFileSync(join(folder, 'grib', `${HASH_OF_ABC}.grib`), 'latin1')).toBe('abc');
    expect(valueOf(forecasts.list())).toEqual([entry]);
    expect(valueOf(await forecasts.read(HASH_OF_ABC))).toEqual(octets('abc'));
    expect(readdirSync(join(folder, 'grib'))).toHaveLength(1);
  });

  it('the same content under another name: one file, and the first entry stays', async () => {
    const { forecasts } = freshStore();
    await forecasts.add(abc);
    valueOf(forecasts.summarise(HASH_OF_ABC, '{"messages":3}'));
    const again = valueOf(await forecasts.add({ ...abc, fileName: 'b.grib2', content: [octets('abc')] }));
    expect(again).toMatchObject({ fileName: 'a.grib2', summaryJson: '{"messages":3}' });
    expect(valueOf(forecasts.list())).toHaveLength(1);
  });

  it('fetched from a source: whose it is stays with it; a file without one gets it, and none is overwritten', async () => {
    const folder = freshFolder();
    const credit = { sourceName: 'Trial model', attribution: 'Data: the trial office.', terms: 'any use' };
    const { forecasts } = freshStore(folder);
    expect(valueOf(await forecasts.add(abc)).credit).toBeNull();
    expect(valueOf(await forecasts.add({ ...abc, credit })).credit).toEqual(credit);
    await forecasts.add({ ...abc, credit: { ...credit, sourceName: 'Another' } });
    await forecasts.add(abc);
    expect(valueOf(freshStore(folder).forecasts.list()).map((one) => one.credit)).toEqual([credit]);
  });

  it('several megabytes in pieces: arrive whole', async () => {
    const { forecasts } = freshStore();
    const pieces = Array.from({ length: 64 }, (_, i) => new Uint8Array(65_536).fill(i));
    const added = valueOf(await forecasts.add({ ...abc, content: pieces, mostOctets: 5_000_000 }));
    const wanted = createHash('sha256');
    for (const piece of pieces) wanted.update(piece);
    expect(added).toMatchObject({ hash: wanted.digest('hex'), sizeOctets: 64 * 65_536 });
  });

  it('one octet too long: refused, and nothing is left', async () => {
    const folder = freshFolder();
    const { forecasts } = freshStore(folder);
    expect(codesOf(await forecasts.add({ ...abc, mostOctets: 2 }))).toEqual(['store.file-too-large']);
    expect(valueOf(await forecasts.add({ ...abc, mostOctets: 3 })).sizeOctets).toBe(3);
    expect(readdirSync(join(folder, 'grib'))).toEqual([`${HASH_OF_ABC}.grib`]);
  });

  it('a stream that breaks off: throws on, and nothing is left', async () => {
    const folder = freshFolder();
    const { forecasts } = freshStore(folder);
    function* broken(): Iterable<Uint8Array> {
      yield octets('a');
      throw new Error('connection lost');
    }
    await expect(forecasts.add({ ...abc, content: broken() })).rejects.toThrow('connection lost');
    expect(readdirSync(join(folder, 'grib'))).toEqual([]);
    expect(valueOf(forecasts.list())).toEqual([]);
  });

  /** A store of forecasts over a connection whose first change is another. */
  function withFirstWrite(folder: string, first: (write: Connection['write']) => Connection['write']): ForecastStore {
    const connection = valueOf(openDatabase(join(folder, 'slatch.db')));
    onTestFinished(() => {
      connection.close();
    });
    mkdirSync(join(folder, 'grib'));
    const plain: Connection['write'] = (work) => connection.write(work);
    let next = first(plain);
    const write: Connection['write'] = (work) => {
      const now = next;
      next = plain;
      return now(work);
    };
    return forecastStore({ ...connection, write }, join(folder, 'grib'));
  }

  it('whose entry is refused when its file is there already, as by a full disk: the file goes too', async () => {
    const folder = freshFolder();
    const full = { code: 'store.disk-full', where: '', what: '', expected: '', remedy: '' };
    const forecasts = withFirstWrite(folder, () => () => failed(full));
    expect(codesOf(await forecasts.add(abc))).toEqual(['store.disk-full']);
    expect(readdirSync(join(folder, 'grib'))).toEqual([]);
    expect(valueOf(await forecasts.add(abc)).hash).toBe(HASH_OF_ABC);
  });

  it('whose file another program removes before it is entered: refused, and no entry without a file', async () => {
    const folder = freshFolder();
    const forecasts = withFirstWrite(folder, (write) => (work) => {
      rmSync(join(folder, 'grib', `${HASH_OF_ABC}.grib`));
      return write(work);
    });
    expect(codesOf(await forecasts.add(abc))).toEqual(['store.forecast-gone']);
    expect(valueOf(forecasts.list())).toEqual([]);
    expect(valueOf(await forecasts.add(abc)).hash).toBe(HASH_OF_ABC);
  });

  it('removed: entry and file are gone; removed again: false', async () => {
    const folder = freshFolder();
    const { forecasts } = freshStore(folder);
    await forecasts.add(abc);
    expect(valueOf(await forecasts.remove(HASH_OF_ABC))).toBe(true);
    expect(readdirSync(join(folder, 'grib'))).toEqual([]);
    expect(valueOf(forecasts.get(HASH_OF_ABC))).toBeNull();
    expect(valueOf(await forecasts.remove(HASH_OF_ABC))).toBe(false);
    expect(valueOf(await forecasts.read(HASH_OF_ABC))).toBeNull();
  });

  it('a hash that is none: finds nothing, whatever path it spells', async () => {
    const { forecasts } = freshStore();
    expect(valueOf(await forecasts.read('../slatch.db'))).toBeNull();
    expect(valueOf(forecasts.summarise('../slatch.db', '{}'))).toBe(false);
  });

  it('opening: sweeps the parts of dead writers and keeps those of live ones and whole files', async () => {
    const folder = freshFolder();
    await freshStore(folder).forecasts.add(abc);
    const dead = spawn(process.execPath, ['-e', '']);
    await once(dead, 'close');
    const [gone, own, nameless, alive] = [
      `${dead.pid}-x.part`,
      `${process.pid}-x.part`,
      'x.part',
      `${process.ppid}-x.part`,
    ];
    for (const name of [gone, own, nameless, alive]) writeFileSync(join(folder, 'grib', name), 'half');
    freshStore(folder);
    expect(readdirSync(join(folder, 'grib')).toSorted()).toEqual([alive, `${HASH_OF_ABC}.grib`].toSorted());
    expect(existsSync(join(folder, 'grib', own))).toBe(false);
  });

  it('opening while a file is being written: leaves it alone', async () => {
    const folder = freshFolder();
    const { forecasts } = freshStore(folder);
    async function* slowly(): AsyncIterable<Uint8Array> {
      yield octets('a');
      await Promise.resolve();
      freshStore(folder);
      yield octets('bc');
    }
    expect(valueOf(await forecasts.add({ ...abc, content: slowly() })).hash).toBe(HASH_OF_ABC);
  });
});
