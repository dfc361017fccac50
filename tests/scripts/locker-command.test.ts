import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { lockerCommand } from '../../scripts/commands/locker.ts';
import { sample } from '../passage/sample.ts';

// What the command prints of an invented passage; the words are ours.

const folder = mkdtempSync(join(tmpdir(), 'locker-'));
afterAll(() => rmSync(folder, { recursive: true }));
const DEMO = fileURLToPath(new URL('../../sample-forecasts/demo-passage.json', import.meta.url));

const write = (name: string, content: string | Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};

async function run(...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  let [out, err] = ['', ''];
  const code = await lockerCommand.run(args, {
    out: (text) => (out += text),
    err: (text) => (err += text),
    readFile: (path) => readFile(path),
    nowEpochMs: () => Date.UTC(2026, 4, 28),
  });
  return { code, out, err };
}

const passage = write('passage.json', JSON.stringify(sample()));
const HEADER = 'item,kind,amount,unit,keep,place,length_mm,diameter_mm,ready_utc';

describe('slatch locker', () => {
  test('text: amount, reserve and what may be taken; below the reserve it says by how much', async () => {
    const locker = [
      { item: 'waxed twine', unit: 'm', onBoard: 60, keep: 15, place: 'bag' },
      { item: 'epoxy', unit: 'ml', onBoard: 30, keep: 40 },
      { item: 'batten rod', unit: 'pieces', onBoard: 2, kind: 'bar', lengthMm: 3000, diameterMm: 8 },
    ];
    const { code, out } = await run(write('own.json', JSON.stringify({ ...sample(), locker })));
    expect(code).toBe(0);
    const lines = out.split('\n').map((line) => line.replaceAll(/ {2,}/g, ' | '));
    expect(lines).toContain('waxed twine | material | 60 m | 15 | 45 | bag');
    expect(lines.find((line) => line.startsWith('epoxy'))).toContain('| 0 | below its reserve by 10 ml');
    expect(lines.find((line) => line.startsWith('batten rod'))).toContain('3000 mm, 8 mm thick');
  });

  test('--csv: a table; read back with --read: it changes nothing, and the JSON is that of the passage', async () => {
    const table = await run(DEMO, '--csv');
    expect(table.out.split('\r\n')[0]).toBe(HEADER);
    const same = await run(DEMO, '--read', write('same.csv', table.out));
    expect(same.out).toMatch(/^The table changes nothing\.\n/);
    const [json, own] = [await run(DEMO, '--read', write('same.csv', table.out), '--json'), await run(DEMO, '--json')];
    expect(JSON.parse(json.out)).toEqual({ ...(JSON.parse(own.out) as object), changes: [] });
  });

  test('--read: what is new, gone and otherwise, then the locker for the passage file', async () => {
    const file = write(
      'new.csv',
      '\uFEFFitem;amount;unit;keep;kind\r\nWaxed twine;22,5;m;15;\r\nawl;1;pieces;;tool\r\n',
    );
    const { code, out } = await run(passage, '--read', file);
    expect(code).toBe(0);
    const json = out.indexOf('{');
    expect(out.slice(0, json).trim().split('\n')).toEqual([
      '~ Waxed twine: 60 m, reserve 15, material -> 22.5 m, reserve 15, material',
      '+ awl: 1 pieces, tool',
      '- needles: 6 pieces, reserve 2, material',
    ]);
    expect(JSON.parse(out.slice(json))).toEqual({
      locker: [
        { item: 'Waxed twine', unit: 'm', onBoard: 22.5, keep: 15 },
        { item: 'awl', unit: 'pieces', onBoard: 1, kind: 'tool' },
      ],
    });
  });

  test.each<[name: string, content: string | Uint8Array, says: string]>([
    [
      'an amount below nothing',
      'item,amount,unit\nx,-1,m',
      'row 2, amount: "-1" does not fit. Expected a number from 0',
    ],
    ['another unit than a job needs', 'item,amount,unit\nwaxed twine,99,ft', 'Count waxed twine in m in the locker'],
    ['an empty file', '', 'The table is empty.'],
    ['letters that are not UTF-8', Uint8Array.of(0x69, 0xe9), 'The file is not written in UTF-8.'],
  ])('a table with %s: exit code 1, and what to do', async (_, content, says) => {
    const { code, out, err } = await run(passage, '--read', write('bad.csv', content));
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain(says);
  });

  test('no such table: exit code 1; no passage, two of them, or two forms: exit code 2', async () => {
    expect((await run(passage, '--read', join(folder, 'none.csv'))).code).toBe(1);
    expect((await run()).code).toBe(2);
    expect((await run(passage, passage)).code).toBe(2);
    expect((await run(passage, '--csv', '--json')).code).toBe(2);
  });
});
