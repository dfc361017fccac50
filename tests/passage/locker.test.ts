import { describe, expect, it } from 'vitest';
import { parsePassage, toLockerFile, type Passage } from '../../lib/passage/index.ts';
import { LOCKER_ITEM_DEFAULTS } from '../../lib/stock/index.ts';
import { sample } from './sample.ts';

// Keys of the locker; their rules are ours.

const ready = { item: 'epoxy', unit: 'ml', onBoard: 200, readyUtc: '2026-05-28T08:00Z' };
const rod = { item: 'batten rod', unit: 'pieces', onBoard: 2, kind: 'bar', lengthMm: 3000, diameterMm: 8 };
const withLines = (...lines: readonly object[]) => ({ ...sample(), locker: [...sample().locker, ...lines] });

function read(file: object): Passage {
  const result = parsePassage(JSON.stringify(file), 'a.json');
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}
const problemsOf = (file: object) => {
  const result = parsePassage(JSON.stringify(file), 'a.json');
  return result.ok ? [] : result.problems;
};

describe('locker of a passage', () => {
  it('kind, place, sizes and instant: read; left out, they are default', () => {
    const { locker } = read(withLines({ ...rod, keep: 1, place: 'tube, port' }, ready));
    expect(locker.items.slice(2)).toEqual([
      {
        item: 'batten rod',
        kind: 'bar',
        unit: 'pieces',
        onBoardAmount: 2,
        keepAmount: 1,
        place: 'tube, port',
        lengthMm: 3000,
        diameterMm: 8,
        readyEpochMs: null,
      },
      {
        ...LOCKER_ITEM_DEFAULTS,
        item: 'epoxy',
        unit: 'ml',
        onBoardAmount: 200,
        readyEpochMs: Date.UTC(2026, 4, 28, 8),
      },
    ]);
  });

  it('written as a file again and read: the same locker', () => {
    const { locker } = read(withLines({ ...rod, place: 'tube' }, { ...ready, kind: 'tool' }));
    expect(read({ ...sample(), locker: toLockerFile(locker) }).locker).toEqual(locker);
    expect(toLockerFile(locker).at(-1)).toEqual({ ...ready, kind: 'tool' });
  });

  it('bars of one item in several lengths, and a reserve above what is on board: allowed', () => {
    expect(problemsOf(withLines(rod, { ...rod, lengthMm: 1200 }, { ...ready, keep: 500 }))).toEqual([]);
  });

  it.each<[name: string, lines: readonly object[], code: string, where: string]>([
    ['a negative amount', [{ ...ready, onBoard: -1 }], 'passage.value', 'a.json, locker[2].onBoard'],
    ['a kind there is not', [{ ...ready, kind: 'tol' }], 'passage.value', 'a.json, locker[2].kind'],
    ['a bar without a length', [{ ...rod, lengthMm: undefined }], 'passage.bar-length', 'a.json, locker[2].lengthMm'],
    [
      'a bar without a diameter',
      [{ ...rod, diameterMm: undefined }],
      'passage.bar-diameter',
      'a.json, locker[2].diameterMm',
    ],
    ['a bar of negative length', [{ ...rod, lengthMm: -3000 }], 'passage.value', 'a.json, locker[2].lengthMm'],
    ['bars by the metre', [{ ...rod, unit: 'm' }], 'passage.bar-unit', 'a.json, locker[2].unit'],
    ['half a bar', [{ ...rod, onBoard: 1.5 }], 'passage.bar-count', 'a.json, locker[2].onBoard'],
    ['a length of what is no bar', [{ ...ready, lengthMm: 5 }], 'passage.not-a-bar', 'a.json, locker[2].lengthMm'],
    ['a bar twice in one size', [rod, { ...rod, item: ' Batten Rod' }], 'passage.item-twice', 'a.json, locker[3].item'],
    [
      'one item in two units',
      [rod, { ...ready, item: 'batten rod', unit: 'm' }],
      'passage.item-units',
      'a.json, locker[3].unit',
    ],
    ['an unknown key', [{ ...ready, plase: 'bow' }], 'passage.key-unknown', 'a.json, locker[2].plase'],
  ])('%s: is named with its remedy', (_, lines, code, where) => {
    const problems = problemsOf(withLines(...lines));
    expect(problems.map((problem) => [problem.code, problem.where])).toEqual([[code, where]]);
    for (const { remedy, expected } of problems) expect([remedy, expected]).not.toContain('');
  });

  it('what a job makes, counted otherwise than another job needs it: a problem, also where the locker has none', () => {
    const [drop, stitch, hoist] = sample().jobs;
    const jobs = [{ ...drop, makes: [{ item: 'needles', amount: 1, unit: 'box' }] }, stitch, hoist];
    const codes = problemsOf({ ...sample(), jobs, locker: [] }).map(({ code, where }) => [code, where]);
    expect(codes).toEqual([['stock.unit-mismatch', 'a.json, locker, needles']]);
  });
});

describe('orders from the locker', () => {
  const [drop, stitch, hoist] = sample().jobs;
  const own = (id: string, priority: number) => ({ ...stitch, id, priority, lengthM: 0.5, rows: 1 });

  it('bars of two sizes, one ready later: only the job that is left with that one waits for it', () => {
    const saw = (id: string, priority: number) => ({
      id,
      name: id,
      priority,
      steps: [
        {
          id: 'saw',
          name: 'Saw',
          place: 'below',
          work: { leastMin: 5, likelyMin: 5, mostMin: 5 },
          limits: {},
          materials: [{ item: 'batten rod', amount: 1, unit: 'pieces' }],
        },
      ],
    });
    const locker = [
      { ...rod, onBoard: 1, readyUtc: '2026-05-28T08:00Z' },
      { ...rod, onBoard: 1, lengthMm: 1200 },
    ];
    const { orders } = read({ ...sample(), jobs: [saw('low', 2), saw('high', 8)], locker });
    expect(orders.jobs.get('high')).toBeUndefined();
    expect(orders.jobs.get('low')?.notBeforeEpochMs).toBe(Date.UTC(2026, 4, 28, 8));
  });

  it('a tool that is ready at eight: the jobs that use it wait for it', () => {
    const locker = [
      ...sample().locker,
      { item: 'Test lamp', unit: 'pieces', onBoard: 1, kind: 'tool', readyUtc: ready.readyUtc },
    ];
    const jobs = [drop, { ...own('stitch', 5), needsTools: ['test lamp'], after: [] }, { ...hoist, needsTools: [] }];
    const { orders } = read({ ...sample(), jobs, locker });
    expect(orders.jobs.get('stitch')?.notBeforeEpochMs).toBe(Date.UTC(2026, 4, 28, 8));
    expect(orders.jobs.get('hoist')).toBeUndefined();
  });
});
