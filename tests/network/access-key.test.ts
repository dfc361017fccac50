import { chmodSync, mkdtempSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { drawAccessKey, isSameKey, isStrongKey, keyDigest } from '../../server/access/access-key.ts';
import { readAccessKey } from '../../server/access/key-file.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'slatch-key-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const KEY = 'h4wn7-p2kqe-r9txm-3vbza';

/** A file with that content and those permissions. */
function keyFile(content: string | Uint8Array, mode = 0o600): string {
  const path = join(folder, 'key.txt');
  writeFileSync(path, content);
  chmodSync(path, mode);
  return path;
}

const codes = (path: string, platform: NodeJS.Platform = 'linux'): readonly string[] => {
  const read = readAccessKey(path, platform);
  return read.ok ? [] : read.problems.map(({ code }) => code);
};

describe('drawAccessKey', () => {
  it('four groups of five, none of i, l, o, 0, 1, strong, never the same', () => {
    const drawn = Array.from({ length: 500 }, drawAccessKey);
    for (const key of drawn) expect(key).toMatch(/^[a-hjkmnp-z2-9]{5}(-[a-hjkmnp-z2-9]{5}){3}$/);
    expect(drawn.filter((key) => !isStrongKey(key))).toEqual([]);
    expect(new Set(drawn).size).toBe(500);
  });

  /** Chi-square, 30 degrees of freedom: once in a thousand above 59.7 (NIST/SEMATECH e-Handbook §1.3.6.7.4, from memory). */
  it('every letter as often as any other', () => {
    const letters = Array.from({ length: 2000 }, drawAccessKey).join('').replaceAll('-', '');
    const counts = new Map<string, number>();
    for (const letter of letters) counts.set(letter, (counts.get(letter) ?? 0) + 1);
    const expected = letters.length / 31;
    const chiSquare = [...counts.values()].reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
    expect(counts.size).toBe(31);
    // The letters are truly random: the bound is far out, so that chance never fails it.
    expect(chiSquare).toBeLessThan(120);
  });
});

describe('keys compared', () => {
  it.each(['H4WN7-P2KQE-R9TXM-3VBZA', ' h4wn7p2kqer9txm3vbza\n', 'h4wn7 p2kqe r9txm 3vbza', 'H4wn7–p2kqe‑r9txm-3vbza'])(
    '%j: the same key',
    (typed) => {
      expect(isSameKey(keyDigest(typed), keyDigest(KEY))).toBe(true);
    },
  );

  it.each(['', 'h4wn7-p2kqe-r9txm-3vbz', `${KEY}a`, KEY.replace('h', 'j')])('%j: another', (typed) => {
    expect(isSameKey(keyDigest(typed), keyDigest(KEY))).toBe(false);
  });

  it('any other text: another key', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 40 }), (typed) => {
        fc.pre(
          typed
            .toLowerCase()
            .normalize('NFKC')
            .replaceAll(/[\s\p{Pd}]/gu, '') !== KEY.replaceAll('-', ''),
        );
        expect(isSameKey(keyDigest(typed), keyDigest(KEY))).toBe(false);
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});

/** At least 15 characters: NIST SP 800-63B-4 §3.1.1.2; one more, and eight different, are ours. */
describe('isStrongKey', () => {
  it.each([
    ['abcdefghabcdefgh', true],
    ['abcdefghabcdefg', false],
    ['abcdefgaabcdefga', false],
    ['a-b-c-d-e-f-g-h-', false],
    ['', false],
    ['ein sehr langer Satz über Segel', true],
  ])('%j: %s', (text, strong) => {
    expect(isStrongKey(text)).toBe(strong);
  });
});

describe('readAccessKey', () => {
  it('one line, its owner alone: its hash', () => {
    const read = readAccessKey(keyFile(`${KEY}\n`), 'linux');
    expect(read.ok && isSameKey(read.value, keyDigest(KEY))).toBe(true);
  });

  it.each([0o640, 0o604, 0o620, 0o602, 0o644, 0o660])('permissions %o: refused, with what to do', (mode) => {
    const path = keyFile(KEY, mode);
    const read = readAccessKey(path, 'linux');
    expect(read.ok ? '' : read.problems[0]).toMatchObject({ code: 'access.key-open', where: path });
    expect(read.ok ? '' : read.problems[0].remedy).toContain(`chmod 600 ${path}`);
    expect(codes(path, 'win32')).toEqual([]);
  });

  it.each([
    ['short', 'secret-but-short', 'access.key-weak'],
    ['spaces', ' '.repeat(30), 'access.key-weak'],
    ['two lines', `${KEY}\n${KEY}\n`, 'access.key-file'],
    ['a book', `${KEY}${'x'.repeat(5000)}`, 'access.key-file'],
  ])('%s: refused, and nothing of it is said', (_, content, code) => {
    const read = readAccessKey(keyFile(content), 'linux');
    expect(read.ok ? '' : read.problems.map((problem) => problem.code)).toEqual([code]);
    expect(JSON.stringify(read)).not.toContain(content.slice(0, 12));
  });

  it('no file, a folder: refused', () => {
    mkdirSync(join(folder, 'folder'));
    expect(codes(join(folder, 'none'))).toEqual(['access.key-file']);
    expect(codes(join(folder, 'folder'))).toEqual(['access.key-file']);
  });
});
