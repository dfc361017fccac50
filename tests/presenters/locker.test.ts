import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  barsOf,
  cutPlan,
  cutRequestOf,
  type CuttingFile,
  type Locker,
  type LockerItem,
} from '../../lib/stock/index.ts';
import { lockerAfterSawing } from '../../server/locker-forms/index.ts';
import { barDrawing, joinedDrawing, longestDrawnMm } from '../../server/presenters/locker-bars.ts';
import { changeViews } from '../../server/presenters/locker-words.ts';
import { lockerRows } from '../../server/presenters/locker-rows.ts';
import { timeTexts } from '../../server/presenters/time-texts.ts';
import { documentWith } from './jobs-document.ts';

const bar = (of: Partial<LockerItem>): LockerItem => ({
  item: 'rod',
  kind: 'bar',
  unit: 'pieces',
  onBoardAmount: 1,
  keepAmount: 0,
  place: null,
  lengthMm: 2000,
  diameterMm: 8,
  readyEpochMs: null,
  ...of,
});
const cut = (locker: Locker, pieces: CuttingFile['pieces']) => {
  const request = cutRequestOf({ kerfMm: 3, pieces }, barsOf(locker));
  return { request, plan: cutPlan(request) };
};
const lengthOf = ({ items }: Locker): number =>
  items.reduce((sum, { lengthMm, onBoardAmount }) => sum + (lengthMm ?? 0) * onBoardAmount, 0);

describe('the locker once it is sawn', () => {
  it('bars out, left-overs in under the name and at the place of their bar, the reserve kept', () => {
    const locker = { items: [bar({ onBoardAmount: 3, keepAmount: 1, place: 'port berth' })] };
    const { plan } = cut(locker, [{ id: 'batten', lengthMm: 1200.5, diameterMm: 8, count: 2 }]);
    expect(lockerAfterSawing(locker, plan).items).toEqual([
      bar({ onBoardAmount: 1, keepAmount: 1, place: 'port berth' }),
      // 2000 - 1200.5 - 3 = 796.5 mm, to the millimetre below.
      bar({ onBoardAmount: 2, place: 'port berth', lengthMm: 796 }),
    ]);
  });

  it('a left-over as long as bars there are is counted with them, whatever the capitals', () => {
    const locker = { items: [bar({ item: 'Rod' }), bar({ lengthMm: 797, onBoardAmount: 4 })] };
    const { plan } = cut(locker, [{ id: 'batten', lengthMm: 1200, diameterMm: 8 }]);
    expect(lockerAfterSawing(locker, plan).items).toEqual([bar({ lengthMm: 797, onBoardAmount: 5 })]);
  });

  it('what goes out is what was sawn and scrap: no length is made of nothing', () => {
    const line = fc.record({
      lengthMm: fc.integer({ min: 300, max: 4000 }),
      onBoardAmount: fc.integer({ min: 0, max: 3 }),
    });
    const piece = fc.record({ lengthMm: fc.integer({ min: 100, max: 3500 }), count: fc.integer({ min: 1, max: 3 }) });
    fc.assert(
      fc.property(
        fc.uniqueArray(line, { maxLength: 3, selector: ({ lengthMm }) => lengthMm }),
        fc.array(piece, { minLength: 1, maxLength: 3 }),
        (lines, wanted) => {
          const locker = { items: lines.map(bar) };
          const pieces = wanted.map((of, index) => ({ id: `p${index}`, diameterMm: 8, ...of }));
          const { plan } = cut(locker, pieces);
          const after = lockerAfterSawing(locker, plan);
          const sawnMm = plan.bars.flatMap(({ cuts }) => cuts).reduce((sum, { lengthMm }) => sum + lengthMm, 0);
          expect(lengthOf(after)).toBeLessThanOrEqual(lengthOf(locker) - sawnMm);
          expect(after.items.every(({ onBoardAmount }) => onBoardAmount >= 0)).toBe(true);
          const scrapMm = plan.bars.reduce(
            (sum, { leftOverMm, isLeftOverUseful }) => sum + (isLeftOverUseful ? 0 : leftOverMm),
            0,
          );
          // Three millimetres a cut, and less than one for each left-over.
          const cutCount = plan.bars.reduce((sum, { cuts }) => sum + cuts.length, 0);
          expect(lengthOf(after)).toBeGreaterThanOrEqual(lengthOf(locker) - sawnMm - scrapMm - 4 * cutCount);
        },
      ),
      { seed: 6, numRuns: 60 },
    );
  });
});

describe('drawings', () => {
  const locker = { items: [bar({ onBoardAmount: 2 })] };

  it('bar: cuts to scale from the first end, marks where the saw goes, the left-over behind', () => {
    const { plan } = cut(locker, [{ id: 'a', lengthMm: 1000, diameterMm: 8 }]);
    const [first] = plan.bars;
    if (first === undefined) throw new Error('no bar');
    const drawing = barDrawing(first, 4000);
    expect(drawing).toMatchObject({
      lengthShare: 0.5,
      parts: [
        { kind: 'piece', fromShare: 0, toShare: 0.25, label: '1' },
        { kind: 'left-over', fromShare: 1003 / 4000, toShare: 0.5 },
      ],
      marks: [{ atShare: 0.25, text: '1000' }],
    });
    expect(drawing.description).toContain('1, a#1, from 0 to 1000 mm; 997 mm left over');
  });

  it('joined piece: its joint outside the zones, both said', () => {
    const wanted = { id: 'a', lengthMm: 3000, diameterMm: 8, maxJoins: 1, overlapMm: 100 };
    const zone: [number, number] = [1000, 1500];
    const { request, plan } = cut(locker, [{ ...wanted, noJoinZonesMm: [zone] }]);
    const [joined] = plan.joined;
    if (joined === undefined) throw new Error('not joined');
    expect(longestDrawnMm(plan)).toBe(3000);
    const { parts, description } = joinedDrawing(joined, request, 3000);
    const [, kept, joint] = parts;
    expect([kept?.kind, joint?.kind]).toEqual(['zone', 'joint']);
    expect([kept?.fromShare, kept?.toShare]).toEqual([1 / 3, 0.5]);
    expect((joint?.toShare ?? 0) <= 1 / 3 || (joint?.fromShare ?? 0) >= 0.5).toBe(true);
    expect(description).toContain('no join from 1000 to 1500 mm');
  });
});

describe('lines of the locker', () => {
  const job = (id: string, amount: number, more: object = {}) => ({
    id,
    name: id,
    steps: [
      {
        id: 's',
        name: 's',
        place: 'below',
        work: { leastMin: 1, likelyMin: 2, mostMin: 3 },
        limits: { deckWindKn: null, seaHeightM: null },
        materials: [{ item: 'Tape', amount, unit: 'm' }],
      },
    ],
    ...more,
  });
  const rowsOf = (jobs: readonly object[], locker: readonly object[]) =>
    lockerRows(documentWith(jobs, { locker }).passage);

  it('jobs take less than there is above the reserve: what is left; a done job takes nothing', () => {
    const rows = rowsOf(
      [job('one', 2.5), job('two', 4, { done: true })],
      [{ item: 'tape', unit: 'm', onBoard: 5, keep: 1 }],
    );
    expect(rows.stock).toMatchObject([
      { free: '4 m', takes: [{ href: '/jobs/one', text: '2.5 m: one' }], left: 'leaves 1.5 m', isShort: false },
    ]);
  });

  it('they take more: short by so much, and below its reserve it is said too', () => {
    const rows = rowsOf([job('one', 2), job('two', 1)], [{ item: 'tape', unit: 'm', onBoard: 0.5, keep: 1 }]);
    expect(rows.stock).toMatchObject([
      { free: '0 m', left: '3 m short for all of them', isShort: true, notes: ['below its reserve by 0.5 m'] },
    ]);
  });

  it('tools stand apart, with the jobs that want them', () => {
    const rows = rowsOf(
      [job('one', 1, { needsTools: ['Awl'] })],
      [{ item: 'awl', unit: 'pieces', onBoard: 1, kind: 'tool' }],
    );
    expect(rows).toMatchObject({ stock: [], tools: [{ item: 'awl', takes: [{ text: 'one' }] }] });
  });
});

describe('what changes, in words', () => {
  it('comes in, goes out, and only what is different', () => {
    const before = bar({ place: 'port berth' });
    const changes = [
      { change: 'added', before: null, after: bar({}) },
      { change: 'taken-out', before: bar({ keepAmount: 1 }), after: null },
      { change: 'changed', before, after: bar({ onBoardAmount: 2, item: 'ROD' }) },
    ] as const;
    const size = { item: 'rod', lengthMm: 2000, diameterMm: 8 };
    expect(
      changeViews(
        changes.map((change) => ({ ...size, ...change })),
        timeTexts(0),
      ),
    ).toEqual([
      { word: 'Comes in', name: 'rod, 2000 mm long, 8 mm thick', text: '1 piece, a bar' },
      { word: 'Goes out', name: 'rod, 2000 mm long, 8 mm thick', text: '1 piece, 1 piece in reserve, a bar' },
      {
        word: 'Changes',
        name: 'rod, 2000 mm long, 8 mm thick',
        text: 'written “rod” before; 1 piece before, 2 pieces now; port berth before, no place said now',
      },
    ]);
  });
});
