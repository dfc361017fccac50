import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isSameKey, keyDigest } from '../../server/access/access-key.ts';
import { readAccessKey } from '../../server/access/index.ts';
import { slatch } from '../end-to-end/run-slatch.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'slatch-access-key-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('slatch access-key', () => {
  it('a new file: one key, printed, that its owner alone may read and the server takes', async () => {
    const path = join(folder, 'key.txt');
    const { code, out, err } = await slatch('access-key', path);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^[a-z2-9]{5}(-[a-z2-9]{5}){3}\n$/);
    expect(readFileSync(path, 'utf8')).toBe(out);
    expect(statSync(path).mode & 0o777).toBe(0o600);
    const read = readAccessKey(path, process.platform);
    expect(read.ok && isSameKey(read.value, keyDigest(out))).toBe(true);
  });

  it('a file that is there: left as it is, and said', async () => {
    const path = join(folder, 'there.txt');
    writeFileSync(path, 'something');
    const { code, out, err } = await slatch('access-key', path);
    expect([code, out, readFileSync(path, 'utf8')]).toEqual([1, '', 'something']);
    expect(err).toContain('There is a file of this name already; it was left as it is.');
  });

  it('a folder that is not there: said, and no key printed', async () => {
    const { code, out, err } = await slatch('access-key', join(folder, 'none', 'key.txt'));
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain('The file cannot be written (ENOENT).');
  });

  it.each([[[]], [['a', 'b']], [['--loud', 'a']]])('%j: wrong use', async (args) => {
    const { code, out, err } = await slatch('access-key', ...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('slatch access-key FILE');
  });
});
