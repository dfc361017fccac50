import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type BenchCase,
  caseOfRounds,
  exactCase,
  PART_NAMES,
  type PartName,
  spreadShareOf,
} from '../../scripts/bench/bench-case.ts';
import { compareCase, complaintsOf } from '../../scripts/bench/compare.ts';
import { fitGrowth } from '../../scripts/bench/growth-fit.ts';
import { PARTS } from '../../scripts/bench/parts.ts';
import { readRatios, writeRatios } from '../../scripts/bench/ratios-file.ts';
import { referenceWork } from '../../scripts/bench/reference-work.ts';
import { benchRow } from '../../scripts/bench/table.ts';

const ROOT = join(import.meta.dirname, '../..');
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'bench-test-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const measured = (costRatio: number, spreadShare = 0.02): BenchCase => ({
  ...exactCase('decode', 'ms', { ours: costRatio * 10, reference: 10 }),
  spreadShare,
});
const kept = { grib: { decode: { costRatio: 2, spreadShare: 0.02 } } };

describe('fitGrowth', () => {
  it('any powers of three factors, no scatter: finds them', () => {
    const exponent = fc.double({ min: -3, max: 3, noNaN: true });
    fc.assert(
      fc.property(exponent, exponent, exponent, fc.double({ min: 0.01, max: 1000, noNaN: true }), (a, b, c, scale) => {
        const grid = [3, 6, 12].flatMap((x) => [1, 11, 51].flatMap((y) => [24, 96].map((z) => [x, y, z] as const)));
        const fit = fitGrowth(
          grid.map(([x, y, z]) => ({ factors: [x, y, z], value: scale * x ** a * y ** b * z ** c })),
        );
        expect(fit?.exponents[0]).toBeCloseTo(a, 8);
        expect(fit?.exponents[1]).toBeCloseTo(b, 8);
        expect(fit?.exponents[2]).toBeCloseTo(c, 8);
        expect((fit?.scale ?? 0) / scale).toBeCloseTo(1, 7);
        expect(fit?.scatterRatio).toBeCloseTo(1, 7);
      }),
      { seed: 1, numRuns: 50 },
    );
  });

  // Worked by hand by the textbook formulas (slope S_xy / S_xx, its error sqrt(residual sum / (n - 2) / S_xx); from memory):
  // through (0, 1), (1, 3), (2, 4), (3, 3), (4, 5) S_xx = 10, S_xy = 8, line 1.6 + 0.8 x, residual sum 2.4.
  it('five points off a line in the logarithms: slope and standard error of ordinary least squares', () => {
    const points = [1, 3, 4, 3, 5].map((y, x) => ({ factors: [Math.exp(x)], value: Math.exp(y) }));
    const fit = fitGrowth(points);
    expect(fit?.exponents[0]).toBeCloseTo(0.8, 10);
    expect(fit?.exponentSds[0]).toBeCloseTo(Math.sqrt(2.4 / 3 / 10), 10);
    expect(fit?.residuals[2]).toBeCloseTo(4 - (1.6 + 0.8 * 2), 10);
  });

  it('a factor that never changes, or too few points: no fit', () => {
    const same = [1, 2, 3].map((value) => ({ factors: [7, value], value }));
    expect(fitGrowth(same)).toBeNull();
    expect(fitGrowth(same.slice(0, 2))).toBeNull();
  });

  it('as many points as unknowns: the error is not known', () => {
    const fit = fitGrowth([
      { factors: [1], value: 1 },
      { factors: [2], value: 4 },
    ]);
    expect(fit?.exponents[0]).toBeCloseTo(2, 10);
    expect(fit?.exponentSds[0]).toBeNaN();
  });
});

describe('compareCase', () => {
  it('30 % worse: named', () => {
    const compared = compareCase('grib', measured(2.6), kept);
    expect(compared.verdict).toBe('worse');
    expect(complaintsOf([compared])).toEqual(['grib, decode: 30 % worse than kept (2.60 against 2.00)']);
  });

  it('20 % worse: silent', () => {
    const compared = compareCase('grib', measured(2.4), kept);
    expect(compared.verdict).toBe('same');
    expect(complaintsOf([compared])).toEqual([]);
  });

  it('30 % worse, rounds 50 % apart: unsteady, not named', () => {
    const compared = compareCase('grib', measured(2.6, 0.5), kept);
    expect(compared.verdict).toBe('unsteady');
    expect(complaintsOf([compared])).toEqual([]);
  });

  it.each([
    [1.5, 'better'],
    [1.7, 'same'],
    [Number.NaN, 'worse'],
  ] as const)('ratio %d where 2 is kept: %s', (costRatio, verdict) => {
    expect(compareCase('grib', measured(costRatio), kept).verdict).toBe(verdict);
  });

  it('no ratio kept: new', () => {
    expect(compareCase('plan', measured(2), kept)).toMatchObject({ verdict: 'new', changeShare: null, kept: null });
  });
});

describe('caseOfRounds', () => {
  it('the best of ours over the best of the reference, and how far the pairs lie apart', () => {
    const pairs = [
      { ours: 30, reference: 10 },
      { ours: 20, reference: 10 },
      { ours: 22, reference: 8 },
    ];
    const found = caseOfRounds('x', 'ms', pairs);
    expect(found.costRatio).toBe(20 / 8);
    expect(found.spreadShare).toBeCloseTo((3 - 2) / 2.75, 12);
  });

  it('spread of many: the middle half, so that one odd round tells nothing', () => {
    expect(spreadShareOf([10, 10, 10, 10, 10, 10, 10, 90])).toBe(0);
    expect(spreadShareOf([8, 10, 10, 12])).toBe(0);
    expect(spreadShareOf([7, 8, 8, 10, 10, 12, 12, 13])).toBeCloseTo(0.4, 12);
  });
});

describe('benchRow', () => {
  it('amounts, ratio, change, verdict', () => {
    const row = benchRow(compareCase('grib', measured(2.6), kept));
    expect(row.split(/\s{2,}/)).toEqual([
      'grib',
      'decode',
      '26.0 ms',
      '10.0 ms',
      '2.60',
      '± 1 %',
      '2.00',
      '+30 %',
      'worse',
    ]);
  });
});

describe('ratios.json', () => {
  it('what is written is read; ratios of cases not measured stay, those of cases that are gone go', () => {
    const path = join(folder, 'ratios.json');
    const names: Partial<Record<PartName, readonly string[]>> = { grib: ['decode', 'index'], plan: ['6 jobs'] };
    const measuredNow = new Map([['plan' as const, [exactCase('6 jobs', 'ms', { ours: 50, reference: 4 })]]]);
    const options = {
      kept: { ...kept, plan: { '5 jobs': { costRatio: 1, spreadShare: 0 } } },
      caseNames: (part: PartName) => names[part] ?? [],
      nowEpochMs: 0,
      path,
    };
    expect(writeRatios(measuredNow, options)).toEqual({ grib: ['index'] });
    const { ratios, unmeasured } = readRatios(path);
    expect(ratios).toMatchObject({ ...kept, plan: { '6 jobs': { costRatio: 12.5, spreadShare: 0 } } });
    expect(ratios.plan).not.toHaveProperty('5 jobs');
    expect(unmeasured).toEqual({ grib: ['index'] });
  });

  it.each(PART_NAMES)('%s: holds every case of the part once, with its ratio or as not measured', (part: PartName) => {
    const names = PARTS[part].caseNames();
    expect(names.length).toBeGreaterThan(0);
    const { ratios, unmeasured } = readRatios();
    const held = [...Object.keys(ratios[part] ?? {}), ...(unmeasured[part] ?? [])];
    expect(held.toSorted()).toEqual([...names].toSorted());
  });

  // They are the same on every machine: nobody has to wait for a quiet one.
  it('every case has one', () => expect(readRatios().unmeasured).toEqual({}));
});

describe('referenceWork', () => {
  // The same figure on every machine: IEEE 754 arithmetic in a fixed order.
  it('twice: the same', () => expect(referenceWork()).toBe(referenceWork()));
});

describe('npm run bench', () => {
  const bench = (...words: readonly string[]) =>
    spawnSync(process.execPath, ['--import', 'tsx', 'scripts/bench.ts', ...words], { cwd: ROOT, encoding: 'utf8' });

  it('--quick --parts messages: octets as kept, a table and JSON', { timeout: 300_000 }, () => {
    const path = join(folder, 'bench.json');
    const { status, stdout, stderr } = bench('--quick', '--parts', 'messages', '--json', path);
    expect([status, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/messages\s+plan of 3 jobs, short, sms\s+\d+ B\s+\d+ B\s+0\.\d+/);
    expect(stdout).toContain('nothing has become worse');
    const document: unknown = JSON.parse(readFileSync(path, 'utf8'));
    expect(document).toMatchObject({
      isQuick: true,
      machine: { versions: { node: process.versions.node } },
      parts: [{ part: 'messages' }],
    });
  });

  it('a part that is not there: says which there are', () => {
    const { status, stderr } = bench('--parts', 'boats');
    expect([status, stderr]).toEqual([
      2,
      'There is no part boats. Take from: grib, plan, windows, messages, pages, start, memory.\n',
    ]);
  });
});
