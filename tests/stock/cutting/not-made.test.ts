import { describe, expect, it } from 'vitest';
import { cutPlan, readCutFile, type CutPlan } from '../../../lib/stock/index.ts';
import { inchesText } from '../../../lib/stock/cutting/inches.ts';

function planOf(file: object): CutPlan {
  const result = readCutFile(JSON.stringify({ kerfMm: 5, ...file }), 'test');
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return cutPlan(result.value);
}

const bar = (id: string, lengthMm: number, diameterMm = 10, count = 1) => ({ id, lengthMm, diameterMm, count });

describe('a piece that cannot be made', () => {
  it('longer than any bar, no join allowed: names its field, a bar as long as it is cut, and the join that would do', () => {
    const plan = planOf({
      stock: [bar('rod', 3000), bar('stub', 1000)],
      pieces: [{ id: 'long', lengthMm: 3500, diameterMm: 10, endAllowanceMm: 20, overlapMm: 200 }],
    });
    expect(plan.madeIds).toEqual([]);
    expect(plan.isOptimal).toBe(true);
    expect(plan.notMade).toHaveLength(1);
    // One joint: 3000 + 1000 less the overlap of 200 reach 3800 mm, and 3520 are wanted.
    expect(plan.notMade[0]).toMatchObject({
      pieceId: 'long#1',
      field: 'pieces[0].lengthMm',
      reason: 'cannot-be-made',
      neededBarMm: 3520,
      neededJointCount: 1,
    });
    expect(plan.notMade[0]?.remedy).toContain('10 mm at least 3520 mm long');
    expect(plan.notMade[0]?.remedy).toContain('maxJoins 1');
  });

  it('one join allowed, 100 mm short of stock: the shortest further bar that would do', () => {
    // 3900 mm with a joint of 200 take 4100 mm, of which a bar of 3000 gives 3000: 1100 are missing, 1000 are there. More joints only take more.
    const plan = planOf({
      stock: [bar('rod', 3000), bar('stub', 1000)],
      pieces: [{ id: 'long', lengthMm: 3900, diameterMm: 10, maxJoins: 1, overlapMm: 200, shortestPartMm: 300 }],
    });
    expect(plan.notMade[0]).toMatchObject({ reason: 'cannot-be-made', neededBarMm: 1100, neededJointCount: null });
  });

  it('another diameter: says which there are', () => {
    const plan = planOf({
      stock: [bar('rod', 3000, 10), bar('thick', 3000, 12), bar('gone', 3000, 8, 0)],
      pieces: [{ id: 'thin', lengthMm: 500, diameterMm: 8 }],
    });
    expect(plan.notMade[0]).toMatchObject({ field: 'pieces[0].diameterMm', reason: 'no-stock', neededBarMm: 500 });
    expect(plan.notMade[0]?.what).toContain('there is 10, 12 mm');
  });

  it('stock used up by others: the less important stays out, and a bar that would make it too is named', () => {
    const plan = planOf({
      stock: [bar('rod', 2000)],
      pieces: [
        { id: 'least', lengthMm: 1000, diameterMm: 10, priority: 2 },
        { id: 'most', lengthMm: 1000, diameterMm: 10, priority: 8 },
      ],
    });
    // 1000 + 5 + 1000 + 5 > 2000 + 5: the saw cut makes the difference. A bar of just 1000 needs no cut.
    expect(plan.madeIds).toEqual(['most#1']);
    expect(plan.notMade[0]).toMatchObject({ pieceId: 'least#1', reason: 'stock-short', neededBarMm: 1000 });
  });
});

describe('what is made of what', () => {
  it('two middling pieces or one important one: the greater sum of priorities', () => {
    const file = (priority: number): object => ({
      stock: [bar('rod', 2005)],
      pieces: [
        { id: 'one', lengthMm: 2000, diameterMm: 10, priority },
        { id: 'two', lengthMm: 1000, diameterMm: 10, priority: 4, count: 2 },
      ],
    });
    expect(planOf(file(7)).madeIds).toEqual(['two#1', 'two#2']);
    expect(planOf(file(9)).madeIds).toEqual(['one#1']);
    // Equal sums: more pieces.
    expect(planOf(file(8)).madeIds).toEqual(['two#1', 'two#2']);
  });

  it('a joint may touch the edge of a zone, not enter it', () => {
    // 3500 from two bars of 3000: the joint of 100 may end anywhere from 600 to 3000 but for the zone.
    const file = (zone: readonly [number, number]): object => ({
      stock: [bar('rod', 3000, 10, 2)],
      pieces: [
        {
          id: 'p',
          lengthMm: 3500,
          diameterMm: 10,
          maxJoins: 1,
          overlapMm: 100,
          shortestPartMm: 500,
          noJoinZonesMm: [zone, [0, 500]],
        },
      ],
    });
    expect(planOf(file([600, 3500])).joined[0]?.joints).toEqual([{ fromMm: 500, toMm: 600 }]);
    expect(planOf(file([599, 3500])).madeIds).toEqual([]);
  });

  it('an end allowance: cut longer by it, and no joint in what is trimmed', () => {
    const plan = planOf({
      stock: [bar('rod', 2000, 10, 2)],
      pieces: [
        {
          id: 'p',
          lengthMm: 3000,
          diameterMm: 10,
          maxJoins: 1,
          overlapMm: 100,
          shortestPartMm: 100,
          endAllowanceMm: 800,
        },
      ],
    });
    // 3800 + 100 of 4000: part 1 ends between 1900 and 2000, well inside the 3000 that stay.
    const [piece] = plan.joined;
    expect(piece?.parts.reduce((sum, { lengthMm }) => sum + lengthMm, 0)).toBe(3900);
    expect(piece).toMatchObject({ lengthMm: 3000, endAllowanceMm: 800 });
    const trimmed = planOf({
      stock: [bar('rod', 3500), bar('stub', 500)],
      pieces: [
        {
          id: 'p',
          lengthMm: 3000,
          diameterMm: 10,
          maxJoins: 1,
          overlapMm: 100,
          shortestPartMm: 100,
          endAllowanceMm: 800,
          noJoinZonesMm: [[0, 2900]],
        },
      ],
    });
    // Long part last: the joint would end at 400, in the zone. Long part first: it ends at 3300 or more, in the allowance.
    expect(trimmed.madeIds).toEqual([]);
  });

  it('an untouched bar is no left-over, a bar that is cut has one', () => {
    const plan = planOf({
      stock: [bar('short', 1200), bar('long', 6000)],
      pieces: [{ id: 'p', lengthMm: 1000, diameterMm: 10 }],
    });
    expect(plan.barCount).toBe(1);
    // Either bar would do; the longer left-over is better.
    expect(plan.longestLeftOverMm).toBe(4995);
  });
});

describe('millimetres as inches', () => {
  it.each([
    [25.4, '1 in'],
    [0, '0 in'],
    [12.7, '1/2 in'],
    [1500, '59 1/16 in'],
    [3175, '125 in'],
    [2438.4, '96 in'],
    [1.5875, '1/16 in'],
    [25.3, '1 in'],
  ])('%d mm: %s (the inch is 25.4 mm by definition, international yard agreement of 1959)', (lengthMm, text) => {
    expect(inchesText(lengthMm)).toBe(text);
  });
});
