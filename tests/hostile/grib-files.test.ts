/** What may stand under the name of a forecast file, and what its name may be: devices, pipes, folders, links, lies. */
import { execFileSync } from 'node:child_process';
import {
  appendFileSync,
  closeSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { forecastCommand } from '../../scripts/commands/forecast.ts';
import { readShared, readWholeFile } from '../../server/decoding/index.ts';
import { loadPassage } from '../../server/stores/passage-files.ts';
import { removeFolders, writePassage } from '../end-to-end/small-passage.ts';
import { readGoldenBytes } from '../grib/golden-files.ts';

const IS_POSIX = process.platform !== 'win32';
const PIPE_TOOL = 'mkfifo';
const SECRET = 'root:x:0:0:keep-this-to-yourself';
const UNSEEN = /[\p{Cc}\p{Cf}\u2028\u2029]/u;

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'slatch-hostile-'));
  mkdirSync(join(folder, 'folder.grib2'));
  writeFileSync(join(folder, 'secret'), `${SECRET}\n`);
  writeFileSync(join(folder, 'zeros.grib2'), '');
  // Holes take no room on the disk.
  truncateSync(join(folder, 'zeros.grib2'), 3_000_000_000);
  appendFileSync(join(folder, 'zeros.grib2'), 'GRIB\0\0\0\u0002');
  if (!IS_POSIX) return;
  execFileSync(PIPE_TOOL, [join(folder, 'pipe.grib2')]);
  symlinkSync(join(folder, 'secret'), join(folder, 'link.grib2'));
  symlinkSync(join(folder, 'circle.grib2'), join(folder, 'circle.grib2'));
  symlinkSync('/dev/zero', join(folder, 'zero.grib2'));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});
afterEach(removeFolders);

/** `slatch forecast list` of one file: its exit code and what it complains of. */
async function listed(file: string): Promise<{ code: number; err: string }> {
  let err = '';
  const code = await forecastCommand.run(['list', file], {
    out: () => undefined,
    err: (text) => void (err += text),
    readFile: (path) => readWholeFile(path),
    nowEpochMs: () => 0,
  });
  return { code, err };
}

/** The problems of a passage that names the file as its forecast. */
async function planned(file: string): Promise<string> {
  const loaded = await loadPassage(writePassage({ passage: { forecasts: [file] }, forecast: null }));
  return loaded.ok
    ? 'planned'
    : loaded.problems.map(({ where, what, remedy }) => `${where}: ${what} ${remedy}`).join('\n');
}

const CASES: readonly (readonly [name: string, said: RegExp])[] = [
  ['folder.grib2', /This is a folder, not a file\./],
  ['zeros.grib2', /Its first 4 MB of 3000 MB hold no GRIB message\.|It has 3000 MB or more\./],
  ['secret', /The file holds no GRIB message\./],
  ['nowhere.grib2', /There is no such file\./],
  ['secret/below', /A part of its path is a file, not a folder\./],
  [`${'long'.repeat(100)}.grib2`, /The name is too long for a file\.|does not fit\./],
  ['nul\0.grib2', /The name holds a character no file name may have\.|does not fit\./],
];
const POSIX_CASES: typeof CASES = [
  ['pipe.grib2', /This is a pipe, and nothing comes through it\./],
  ['link.grib2', /The file holds no GRIB message\./],
  ['circle.grib2', /Its links lead in a circle\./],
  ['zero.grib2', /This is a device, not a file\./],
];

describe('a forecast that is none', () => {
  it.each(IS_POSIX ? [...CASES, ...POSIX_CASES] : CASES)('%j, listed: refused in plain words', async (name, said) => {
    const { code, err } = await listed(join(folder, name));
    expect(code).toBe(1);
    expect(err).toMatch(said);
    expect(err).not.toContain(SECRET);
    expect(err).not.toMatch(/\bE[A-Z]{4,}\b|undefined/);
    expect(err.split('\n')).toHaveLength(2);
  });

  it.each(IS_POSIX ? [...CASES, ...POSIX_CASES] : CASES)(
    '%j, named by a passage: refused in plain words, with nothing of what it holds',
    async (name, said) => {
      const told = await planned(join(folder, name));
      expect(told).toMatch(said);
      expect(told).not.toContain(SECRET);
      expect(told).not.toMatch(/\bE[A-Z]{4,}\b|undefined/);
    },
  );
});

describe('a track in a file of its own', () => {
  it.each(IS_POSIX ? ['secret', 'link.grib2', 'zero.grib2', 'pipe.grib2'] : ['secret'])(
    '%s, named by a passage: refused, with nothing of what it holds',
    async (name) => {
      const track = { gpx: join(folder, name) } as unknown as unknown[];
      const loaded = await loadPassage(writePassage({ passage: { track } }));
      expect(loaded.ok).toBe(false);
      expect(JSON.stringify(loaded)).not.toContain(SECRET);
    },
  );
});

describe('names of forecasts', () => {
  it.each(['evil\u202E2birg.txt', 'two\nlines.grib2', 'red\u001B[31m.grib2', 'zero\u200Bwidth.grib2'])(
    '%j: told without what a terminal obeys',
    async (name) => {
      const { err } = await listed(join(folder, name));
      expect(err).toContain('There is no such file.');
      expect(err.trimEnd()).not.toMatch(UNSEEN);
      // A passage names no files with characters that are not seen.
      expect(await planned(name)).toMatch(/There is no such file\.|does not fit\./);
    },
  );

  it('a path out of the folder of the passage: only where it looked is said', async () => {
    const told = await planned('../../../../../../../../etc/hostname');
    expect(told).toMatch(/holds no GRIB message|There is no such file/);
  });

  it.each(['store:../../etc/hostname', `store:${'g'.repeat(64)}`, 'store:'])(
    '%s, no hash: a file of that name, which is not there',
    async (name) => {
      expect(await planned(name)).toContain('There is no such file.');
    },
  );

  it('an address: not fetched, and said', async () => {
    expect(await planned('http://127.0.0.1:1/x.grib2')).toContain('is an address');
  });
});

describe('readWholeFile', () => {
  it('a file that grows while it is read: refused, since it is not whole', async () => {
    const path = join(folder, 'growing.grib2');
    writeFileSync(path, readGoldenBytes('am_bm_simple.grib2'));
    const growing = readWholeFile(path, (sizeOctets) => {
      appendFileSync(path, 'more');
      return new Uint8Array(sizeOctets);
    });
    await expect(growing).rejects.toThrow(/changed while it was read, from \d+ to \d+ octets/);
  });

  it('a file that shrinks while it is read: refused', async () => {
    const path = join(folder, 'shrinking.grib2');
    writeFileSync(path, readGoldenBytes('am_bm_simple.grib2'));
    const shrinking = readWholeFile(path, (sizeOctets) => {
      truncateSync(path, 100);
      return new Uint8Array(sizeOctets);
    });
    await expect(shrinking).rejects.toThrow('changed while it was read');
  });

  it.runIf(IS_POSIX)('a pipe that is written to: what comes through it', async () => {
    const path = join(folder, 'written.pipe');
    execFileSync(PIPE_TOOL, [path]);
    const octets = readGoldenBytes('am_bm_simple.grib2');
    // Open for both, so that opening waits for nobody; the octets fit into the pipe.
    const writer = openSync(path, 'r+');
    writeSync(writer, octets);
    const reading = readShared(path);
    setTimeout(() => closeSync(writer), 50);
    expect(Buffer.from(await reading).equals(octets)).toBe(true);
  });

  it.runIf(process.platform === 'linux')('a file that says no size: all of it', async () => {
    expect(new TextDecoder().decode(await readWholeFile('/proc/self/status'))).toMatch(/^Name:.*VmRSS/s);
  });
});
