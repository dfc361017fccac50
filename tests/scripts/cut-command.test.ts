import { describe, expect, it } from 'vitest';
import { cutCommand } from '../../scripts/commands/cut.ts';

const FILE = {
  kerfMm: 3,
  stock: [
    { id: 'rod', lengthMm: 3000, diameterMm: 10, count: 2 },
    { id: 'tube', lengthMm: 2000, diameterMm: 25 },
  ],
  pieces: [
    { id: 'batten', lengthMm: 3500, diameterMm: 10, priority: 7, maxJoins: 1, overlapMm: 100, shortestPartMm: 500 },
    { id: 'short', lengthMm: 700, diameterMm: 10, count: 3 },
    { id: 'stay', lengthMm: 2500, diameterMm: 25 },
  ],
};

async function run(file: unknown, ...args: readonly string[]): Promise<{ code: number; out: string; err: string }> {
  const said = { out: '', err: '' };
  const code = await cutCommand.run(args, {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    readFile: (path) =>
      path === 'battens.json'
        ? Promise.resolve(new TextEncoder().encode(typeof file === 'string' ? file : JSON.stringify(file)))
        : Promise.reject(Object.assign(new Error('none'), { code: 'ENOENT' })),
    nowEpochMs: () => 0,
  });
  return { code, ...said };
}

describe('slatch cut', () => {
  it('as JSON: what is made, joins, bars, the longest left-over, proven, every cut', async () => {
    const { code, out } = await run(FILE, 'battens.json', '--json');
    expect(code).toBe(0);
    const plan = JSON.parse(out) as Record<string, unknown> & { cuts: { piece: string; lengthMm: number }[] };
    // 3500 + 100 + 2 × 3 and 3 × 703 of 2 × 3003 leave 291 in all, and all of it can be in one bar.
    expect(plan).toMatchObject({
      made: ['batten#1', 'short#1', 'short#2', 'short#3'],
      joins: 1,
      barsUsed: 2,
      longestLeftOverMm: 288,
      optimal: true,
      notProven: null,
      notMade: [{ piece: 'stay#1', field: 'pieces[2].lengthMm', reason: 'cannot-be-made', neededBarMm: 2500 }],
    });
    expect(plan.cuts).toHaveLength(5);
    expect(plan.cuts.reduce((sum, { lengthMm }) => sum + lengthMm, 0)).toBe(3600 + 3 * 700);
  });

  it('as a sheet: bar by bar in mm and inches, the joint, what is not made and why, what to mind', async () => {
    const { code, out } = await run(FILE, 'battens.json');
    expect(code).toBe(0);
    expect(out).toContain('4 of 5 pieces made, 1 join, 2 bars cut');
    expect(out).toMatch(/Bar rod#1: 10 mm, 3000 mm \(118 1\/8 in\) long/);
    expect(out).toMatch(/mark at \d+ mm \(\d+( \d+\/\d+)? in\), saw beyond the mark \(3 mm lost\)/);
    expect(out).toMatch(/Join part 1 to part 2: overlap 100 mm \(3 15\/16 in\), on the finished piece from \d+ mm/);
    expect(out).toContain('stay#1 (pieces[2].lengthMm)');
    expect(out).toContain('mask, glasses, gloves');
    expect(out).toContain('120 mm at least (12:1)');
  });

  it('--kerf-mm: taken instead of the kerf of the file', async () => {
    const { out } = await run(FILE, 'battens.json', '--json', '--kerf-mm', '0');
    expect(JSON.parse(out)).toMatchObject({ kerfMm: 0, longestLeftOverMm: 300 });
  });

  it.each([
    ['a file that is wrong', { ...FILE, kerfMm: 'wide' }, 'battens.json', 'battens.json, kerfMm'],
    ['a file that is not there', FILE, 'none.json', 'There is no such file'],
    ['no JSON', 'kerf: 3', 'battens.json', 'not JSON'],
  ])('%s: a problem on standard error, exit code 1', async (_, file, name, says) => {
    const { code, out, err } = await run(file, name);
    expect(code).toBe(1);
    expect(out).toBe('');
    expect(err).toContain(says);
  });

  it.each([
    ['no file', []],
    ['two files', ['battens.json', 'more.json']],
    ['a kerf of -1', ['battens.json', '--kerf-mm', '-1']],
    ['a kerf in thousandths', ['battens.json', '--kerf-mm', '1.234']],
    ['an unknown option', ['battens.json', '--svg']],
  ])('%s: wrong use, exit code 2, with the help', async (_, args) => {
    const { code, err } = await run(FILE, ...args);
    expect(code).toBe(2);
    expect(err).toContain('slatch cut FILE');
  });

  it('--help: an example and what every key means', async () => {
    const { code, out } = await run(FILE, '--help');
    expect(code).toBe(0);
    expect(out).toContain('slatch cut battens.json');
    expect(out).toContain('endAllowanceMm');
  });
});
