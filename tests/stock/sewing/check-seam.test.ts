import { describe, expect, it } from 'vitest';
import { clothProblems, seamFigureProblems, STITCH_RATES, type SeamFigure } from '../../../lib/stock/index.ts';

const named = (figure: SeamFigure): string => `--${figure}`;

describe('seamFigureProblems', () => {
  it('usual figures and those left out: nothing wrong', () => {
    expect(seamFigureProblems({ lengthM: 0.9, rowCount: 2, pitchMm: 5, overlapM: 0, edgeRowCount: 0 }, named)).toEqual(
      [],
    );
  });

  it.each<[string, Partial<Record<SeamFigure, number>>]>([
    ['no length', { lengthM: 0 }],
    ['a length below nothing', { lengthM: -1 }],
    ['a length that is no number', { lengthM: Number.NaN }],
    ['a length without end', { lengthM: Number.POSITIVE_INFINITY }],
    ['no row', { rowCount: 0 }],
    ['a row and a half', { rowCount: 1.5 }],
    ['a pitch of nothing', { pitchMm: 0 }],
    ['a rate of nothing', { likelyMPerH: 0 }],
    ['three sides', { sideCount: 3 }],
    ['an overlap below nothing', { overlapM: -0.05 }],
    ['a session of a minute', { sessionMin: 1 }],
  ])('%s: one problem that names it, with what is expected and a remedy', (_, figures) => {
    const problems = seamFigureProblems(figures, named);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatchObject({ code: 'stock.seam-figure', where: `--${Object.keys(figures)[0]}` });
    expect(problems[0]?.expected).toMatch(/^a (whole )?number (above|from) \d/);
    expect(problems[0]?.remedy).not.toBe('');
  });

  it('two wrong figures: two problems', () => {
    expect(seamFigureProblems({ lengthM: -1, rowCount: 0, pitchMm: 5 }, named)).toHaveLength(2);
  });
});

describe('clothProblems', () => {
  it.each(STITCH_RATES)('$cloth: known', ({ cloth }) => {
    expect(clothProblems(cloth, 'cloth')).toEqual([]);
  });

  it('a slip of the pen: did you mean, and the list', () => {
    const [problem] = clothProblems('wovn-heavy', '--cloth');
    expect(problem).toMatchObject({
      code: 'stock.cloth-unknown',
      where: '--cloth',
      remedy: 'Did you mean "woven-heavy"?',
    });
    for (const { cloth } of STITCH_RATES) expect(problem?.expected).toContain(cloth);
  });

  it('a cloth like none of them: choose the nearest', () => {
    expect(clothProblems('canvas of flax', '--cloth')[0]?.remedy).toContain('nearest');
  });
});
