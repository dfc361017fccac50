import { describe, expect, it } from 'vitest';
import { seamCommand } from '../../scripts/commands/seam.ts';
import type { SeamFigures } from '../../scripts/commands/seam/seam-figures.ts';

interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

async function run(...args: readonly string[]): Promise<Ran> {
  const said = { out: '', err: '' };
  const code = await seamCommand.run(args, {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    readFile: () => Promise.reject(new Error('no file is read')),
    nowEpochMs: () => 0,
  });
  return { code, ...said };
}

const figures = async (...args: readonly string[]): Promise<SeamFigures> =>
  JSON.parse((await run(...args, '--json')).out) as SeamFigures;

const LEECH_TEAR = ['--length-m', '0.9', '--rows', '2', '--overlap-mm', '100', '--layers', '2'] as const;

describe('slatch seam (check values: common practice, no source)', () => {
  it('36 feet at a foot an hour: 36.0 h with the needle, in text and in JSON', async () => {
    const args = ['--length-ft', '36', '--rate-m-per-h', '0.3048'];
    const { code, out } = await run(...args);
    expect(code).toBe(0);
    expect(out).toMatch(/^With the needle +36\.0 h likely, 24\.0 h least, 54\.0 h most$/m);
    expect((await figures(...args)).needleH).toBeCloseTo(36, 6);
  });

  it('36 feet in the usual cloth: 36.6 h; in metres the same', async () => {
    expect((await run('--length-ft', '36')).out).toContain('36.6 h likely');
    expect(await figures('--length-ft', '36')).toEqual(await figures('--length-m', '10.9728'));
  });

  it('0.9 m in two rows, patched at the leech: 6.0 h, 360 stitches, 24.8 m of twine, 0.97 m²', async () => {
    const of = await figures(...LEECH_TEAR);
    expect(of.hours).toEqual({ leastH: 4, likelyH: 6, mostH: 9 });
    expect(of.hoursPerRow).toEqual({ leastH: 2, likelyH: 3, mostH: 4.5 });
    expect(of.stitches).toBe(360);
    expect(of.twineM).toBeCloseTo(24.84, 6);
    expect(of.patchAreaM2).toBeCloseTo(0.968, 6);
    expect(of.patch.cloths).toHaveLength(4);
    const { out } = await run(...LEECH_TEAR);
    for (const text of ['360', '24.8 m', '6.0 h likely', '0.97 m²', '1100 x 220 mm']) expect(out).toContain(text);
  });

  // PERT by hand: (15, 28, 50), (240, 360, 540), (8, 14, 25) min have means 29.5, 370, 14.833 and sd 5.833, 50, 2.833;
  // sd of the sum, correlated 0.5: sqrt(0.5 · 58.667² + 0.5 · 2542.06) = 54.70 min.
  it('the whole job: mean 6.91 h, P90 within two minutes of mean + 1.2816 sd', async () => {
    const { totals } = await figures(...LEECH_TEAR);
    expect(totals.meanH * 60).toBeCloseTo(414.333, 2);
    expect(Math.abs(totals.p90H * 60 - (414.333 + 1.2816 * 54.7))).toBeLessThan(2);
    expect(Math.abs(totals.p80H * 60 - (414.333 + 0.8416 * 54.7))).toBeLessThan(2);
    expect(Math.abs(totals.p50H * 60 - 414.333)).toBeLessThan(2);
  });

  // By hand: after three hours 180 min of clock have done 162.545 min of 2160; the rest takes half as long again.
  it('36 hours with pace loss and no long rest: 52.9 h; with a rest each hour none is lost', async () => {
    const foot = ['--length-ft', '36', '--rate-m-per-h', '0.3048', '--pace-loss'];
    expect((await figures(...foot)).needleH).toBeCloseTo((180 + (2160 - 162.5454545) * 1.5) / 60, 5);
    const rested = await figures(...foot, '--stretch-h', '1', '--rest-h', '2');
    expect(rested.needleH).toBeCloseTo(36, 6);
    expect(rested.longRests).toBe(35);
  });

  it('sessions: six of an hour with five pauses, set-up and finish before and after', async () => {
    const of = await figures('--length-m', '1.8');
    expect(of.sessions).toBe(6);
    expect(of.elapsed.likelyH * 60).toBeCloseTo(360 + 5 * 20 + 28 + 14, 4);
    expect((await figures('--length-m', '1.8', '--session-min', '45')).sessions).toBe(8);
  });

  it('stitches 4 mm apart: the formula in place of 6; single twine: half', async () => {
    const of = await figures('--length-m', '1', '--pitch-mm', '4', '--thickness-mm', '1');
    expect(of.stitches).toBe(250);
    expect(of.twineM).toBeCloseTo(((2 * (Math.hypot(15, 4) + 1)) / 4) * 2 * 1.15, 6);
    expect((await figures('--length-m', '1', '--single')).twineM).toBeCloseTo(6.9, 6);
  });

  it('one side, one layer: one cloth, two rows round it, and tape wide enough', async () => {
    const { patch } = await figures('--length-m', '1', '--sides', '1');
    expect(patch.edgeRows).toBe(2);
    expect(patch.edgeSewnM).toBeCloseTo(2 * (2 * (1.1 + 0.12) - (8 - 2 * Math.PI) * 0.025), 5);
    expect(patch.cloths.map(({ stuff }) => stuff)).toEqual([{ kind: 'tape', widthMm: 150, lengthM: 1.1 }]);
  });

  it('an overlap below 50 mm, stitches 12 mm apart: said', async () => {
    const { out } = await run('--length-m', '1', '--overlap-mm', '25', '--pitch-mm', '12');
    expect(out).toContain('too short an overlap');
    expect(out).toContain('usual: pitch 4 to 8 mm');
  });

  it('every line of text: no longer than a terminal of 132', async () => {
    const { out } = await run(...LEECH_TEAR, '--pace-loss', '--stretch-h', '2');
    for (const text of out.split('\n')) expect(text.length).toBeLessThanOrEqual(132);
  });
});

describe('slatch seam, bad input', () => {
  it('four wrong figures: each named with its option, what is expected and a remedy; exit code 1', async () => {
    const { code, out, err } = await run(
      '--length-ft',
      '-3',
      '--rows',
      '0',
      '--cloth',
      'tuff-laminate',
      '--pitch-mm',
      'x',
    );
    expect(code).toBe(1);
    expect(out).toBe('');
    const lines = err.trimEnd().split('\n');
    expect(lines).toHaveLength(4);
    expect(lines[0]).toMatch(/^--length-ft -3: .*above 0 m/);
    expect(lines[1]).toMatch(/^--rows 0: .*whole number from 1/);
    expect(lines[2]).toMatch(/^--pitch-mm x: It is no number/);
    expect(lines[3]).toMatch(/^--cloth tuff-laminate: .*webbing\. Did you mean "tough-laminate"\?/);
  });

  it.each([
    ['an empty length', ['--length-m', '']],
    ['a rate of nothing', ['--length-m', '1', '--rate-m-per-h', '0']],
    ['three sides', ['--length-m', '1', '--sides', '3']],
  ])('%s: exit code 1', async (_, args) => {
    const { code, err } = await run(...args);
    expect(code).toBe(1);
    expect(err).toContain('Expected');
  });

  it.each([
    ['no length', ['--rows', '2']],
    ['two lengths', ['--length-m', '1', '--length-ft', '3']],
    ['an unknown option', ['--length-m', '1', '--colour', 'red']],
    ['a stray word', ['--length-m', '1', 'please']],
  ])('%s: wrong use, exit code 2, with the help', async (_, args) => {
    const { code, err } = await run(...args);
    expect(code).toBe(2);
    expect(err).toContain('slatch seam --length-m');
  });

  it('--help: what each figure means, the cloths, and an example that runs', async () => {
    const { code, out } = await run('--help');
    expect(code).toBe(0);
    for (const word of ['needlefuls', 'whole job', 'tough-laminate', '0.20 / 0.30 / 0.45']) expect(out).toContain(word);
    const example = out.trimEnd().split('\n').at(-1)?.trim().split(' ').slice(2) ?? [];
    expect((await run(...example)).code).toBe(0);
  });
});
