import { describe, expect, it } from 'vitest';
import { MAIN, problemsOf } from './sail-cases.ts';

const TEAR = { counted: { panel: 6 }, lengthM: 0.9 };

describe('a file that cannot be', () => {
  it.each<[string, object, object, string, string]>([
    [
      'panel 9 of 7',
      { ...MAIN, panelCount: 7 },
      { ...TEAR, counted: { panel: 9 } },
      'damage.panel',
      'damage[0].counted.panel',
    ],
    ['negative length', MAIN, { ...TEAR, lengthM: -1 }, 'damage.value', 'damage[0].lengthM'],
    [
      'longer than the chord',
      MAIN,
      { ...TEAR, lengthM: 9, direction: 'fore-and-aft' },
      'damage.longer-than-sail',
      'damage[0].lengthM',
    ],
    ['batten 6 of 5', MAIN, { betweenBattens: [5, 6], lengthM: 1 }, 'damage.battens', 'damage[0].betweenBattens'],
    ['no neighbours', MAIN, { betweenBattens: [2, 4], lengthM: 1 }, 'damage.battens', 'damage[0].betweenBattens'],
    [
      'state of batten 6',
      { ...MAIN, battens: { count: 5, states: [{ batten: 6, state: 'missing' }] } },
      TEAR,
      'sail.batten',
      'sail.battens.states[0].batten',
    ],
    ['reef not there', MAIN, { ...TEAR, belowReef: 4 }, 'damage.reef', 'damage[0].belowReef'],
    ['reef set not there', { ...MAIN, reefs: { count: 2, set: 3 } }, TEAR, 'damage.reef', 'sail.reefs.set'],
    [
      'panel against battens',
      MAIN,
      { ...TEAR, betweenBattens: ['head', 1] },
      'damage.contradiction',
      'damage[0].counted and case.json, damage[0].betweenBattens',
    ],
    [
      'panel against reef',
      MAIN,
      { ...TEAR, counted: { panel: 11 }, belowReef: 1 },
      'damage.contradiction',
      'damage[0].belowReef',
    ],
    ['off the sail', MAIN, { ...TEAR, distanceFromLeechM: 8 }, 'damage.off-sail', 'damage[0].distanceFromLeechM'],
    ['no place', MAIN, { lengthM: 1 }, 'damage.value', 'damage[0]'],
    ['two measures', MAIN, { ...TEAR, distanceFromLeechM: 1, chordShare: 0.5 }, 'damage.value', 'damage[0]'],
    [
      'edge instead of a seam',
      MAIN,
      { ...TEAR, counted: { panel: 12, seam: 'next' } },
      'damage.seam',
      'damage[0].counted.seam',
    ],
    ['sides', { ...MAIN, leechM: 30 }, TEAR, 'sail.sides', 'sail.leechM'],
    [
      'gores that do not add up',
      { ...MAIN, cut: 'radial', gores: { tack: 3, clew: 3, head: 3 } },
      TEAR,
      'sail.gores',
      'sail.gores',
    ],
    [
      'reef heights fall',
      { ...MAIN, reefs: { count: 2, luffHeightsM: [4, 2] } },
      TEAR,
      'sail.heights',
      'sail.reefs.luffHeightsM',
    ],
    [
      'batten height beyond the leech',
      { ...MAIN, battens: { count: 1, leechHeightsM: [17] } },
      TEAR,
      'sail.heights',
      'sail.battens.leechHeightsM',
    ],
    [
      'heights of a sail without sides',
      { kind: 'mainsail', cut: 'cross-cut', panelCount: 9, reefs: { count: 1, luffHeightsM: [2] } },
      TEAR,
      'sail.heights',
      'sail.reefs.luffHeightsM',
    ],
    ['key misspelt', { ...MAIN, panelcount: 9 }, TEAR, 'damage.key-unknown', 'sail.panelcount'],
  ])('%s: code, place, expectation and remedy', (...[, sail, damage, code, where]) => {
    const problems = problemsOf(sail, [damage]);
    expect(problems.map((problem) => [problem.code, problem.where])).toEqual([[code, `case.json, ${where}`]]);
    for (const text of problems.flatMap(({ what, expected, remedy }) => [what, expected, remedy])) {
      expect(text).not.toBe('');
      expect(text).not.toMatch(/undefined|NaN|null/);
    }
  });

  it('several things wrong: all of them', () => {
    const sail = { ...MAIN, reefs: { count: 1, set: 2 } };
    const codes = problemsOf(sail, [
      { ...TEAR, belowReef: 2 },
      { ...TEAR, id: 'a' },
      { ...TEAR, id: 'a' },
    ]).map(({ code }) => code);
    expect(codes).toEqual(['damage.reef', 'damage.reef', 'damage.id']);
  });

  it('half a panel of disagreement between panel and battens: no contradiction', () => {
    // Panel 6 reaches from 6.25 to 7.5 m at the leech, battens 3 and 2 stand at 7.5 and 10 m.
    expect(problemsOf(MAIN, [{ ...TEAR, betweenBattens: [2, 3], distanceFromLeechM: 0.2 }])).toEqual([]);
  });

  it('a panel that does not reach between the battens named: says which do', () => {
    const [problem] = problemsOf(MAIN, [{ ...TEAR, counted: { panel: 2 }, betweenBattens: [1, 2] }]);
    // Between 10 m and 12.5 m: panels of 1.25 m each in height at the leech, 9 and 10, and what of 11 hangs down to the luff.
    expect(problem?.what).toContain('between batten 5 and the foot');
    expect(problem?.expected).toMatch(/^panel 9, 10, 11 counted from the clew/);
  });
});
