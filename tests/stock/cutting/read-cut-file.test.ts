import { describe, expect, it } from 'vitest';
import { formatProblem } from '../../../lib/result/index.ts';
import { readCutFile } from '../../../lib/stock/index.ts';

const BAR = { id: 'rod', lengthMm: 3000, diameterMm: 10 };
const PIECE = { id: 'batten', lengthMm: 2400, diameterMm: 10 };

const read = (file: unknown) => readCutFile(typeof file === 'string' ? file : JSON.stringify(file), 'battens.json');

const problemsOf = (file: unknown): readonly string[] => {
  const result = read(file);
  return result.ok ? [] : result.problems.map((problem) => `${problem.code} ${formatProblem(problem)}`);
};

describe('cut file with only what must be', () => {
  it('defaults: one of each, priority 5, no joins; only those that matter are told', () => {
    const result = read({ stock: [BAR], pieces: [PIECE] });
    expect(result).toEqual({
      ok: true,
      value: {
        kerfMm: 3,
        stock: [{ ...BAR, count: 1 }],
        pieces: [
          {
            ...PIECE,
            count: 1,
            priority: 5,
            maxJoinCount: 0,
            overlapMm: 200,
            endAllowanceMm: 0,
            shortestPartMm: 400,
            noJoinZonesMm: [],
          },
        ],
        defaultsUsed: ['kerfMm: 3'],
      },
    });
  });

  it('a joined piece of 12 mm: overlap 20 diameters, shortest part two overlaps, both told', () => {
    const result = read({ kerfMm: 2, stock: [BAR], pieces: [{ ...PIECE, diameterMm: 12, maxJoins: 1 }] });
    expect(result.ok && result.value.pieces[0]).toMatchObject({ overlapMm: 240, shortestPartMm: 480 });
    expect(result.ok && result.value.defaultsUsed).toEqual([
      'pieces[0].overlapMm: 240',
      'pieces[0].shortestPartMm: 480',
    ]);
  });

  it('overlap by ratio: 12 times 9.5 mm are 114 mm', () => {
    const result = read({ stock: [BAR], pieces: [{ ...PIECE, diameterMm: 9.5, maxJoins: 1, overlapRatio: 12 }] });
    expect(result.ok && result.value.pieces[0]?.overlapMm).toBe(114);
  });
});

describe('cut file that is wrong', () => {
  it.each([
    ['a negative length', { stock: [{ ...BAR, lengthMm: -3 }], pieces: [PIECE] }, 'stock[0].lengthMm', 'more than 0'],
    ['a length as text', { stock: [BAR], pieces: [{ ...PIECE, lengthMm: '2 m' }] }, 'pieces[0].lengthMm', 'a number'],
    ['no diameter', { stock: [BAR], pieces: [{ id: 'x', lengthMm: 3 }] }, 'pieces[0].diameterMm', 'Add it'],
    ['half a piece', { stock: [BAR], pieces: [{ ...PIECE, count: 0.5 }] }, 'pieces[0].count', 'whole number'],
    ['an unknown key', { stock: [BAR], pieces: [{ ...PIECE, maxJoints: 1 }] }, 'pieces[0].maxJoints', '"maxJoins"'],
    ['an unknown list', { stok: [BAR], stock: [BAR], pieces: [PIECE] }, 'stok', 'Did you mean "stock"?'],
    ['no pieces', { stock: [BAR], pieces: [] }, 'pieces', 'at least 1'],
    ['a kerf of -1', { kerfMm: -1, stock: [BAR], pieces: [PIECE] }, 'kerfMm', 'at least 0'],
    [
      'an overlap given twice',
      { stock: [BAR], pieces: [{ ...PIECE, overlapMm: 100, overlapRatio: 12 }] },
      'pieces[0].overlapRatio',
      'not both',
    ],
    [
      'a zone the wrong way round',
      { stock: [BAR], pieces: [{ ...PIECE, noJoinZonesMm: [[600, 0]] }] },
      'pieces[0].noJoinZonesMm[0]',
      'Write [0, 600].',
    ],
    [
      'a zone beyond the piece',
      { stock: [BAR], pieces: [{ ...PIECE, noJoinZonesMm: [[2500, 2600]] }] },
      'pieces[0].noJoinZonesMm[0]',
      'other end',
    ],
    ['one id twice', { stock: [BAR, BAR], pieces: [PIECE] }, 'stock[1].id', 'Rename one'],
    ['a thousandth', { stock: [BAR], pieces: [{ ...PIECE, lengthMm: 1.234 }] }, 'pieces[0].lengthMm', 'Write 1.23.'],
    [
      'too many bars',
      { stock: Array.from({ length: 6 }, (_, k) => ({ ...BAR, id: `${k}`, count: 5000 })), pieces: [PIECE] },
      'stock',
      'at most 20000',
    ],
  ])('%s: told with its field and a remedy', (_, file, field, remedy) => {
    const problems = problemsOf(file);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toContain(`battens.json, ${field}: `);
    expect(problems[0]).toContain(remedy);
    expect(problems[0]).toMatch(/^cut\./);
  });

  it('several things: all told at once', () => {
    const problems = problemsOf({
      kerfMm: -1,
      stock: [{ ...BAR, lengthMm: 0 }],
      pieces: [{ ...PIECE, noJoinZonesMm: [[5, 2]], overlapMm: 1, overlapRatio: 1 }, PIECE],
    });
    expect(problems).toHaveLength(5);
  });

  it('no JSON, no object: told', () => {
    expect(problemsOf('{')[0]).toMatch(/^cut\.not-json battens\.json, line 1, column 2: /);
    expect(problemsOf([])[0]).toMatch(/^cut\.type battens\.json: .*an object/);
  });
});
