import { describe, expect, it } from 'vitest';
import { parsePassage } from '../../lib/passage/index.ts';
import { barsOf, cutPlan, cutRequestOf } from '../../lib/stock/index.ts';

const BASE = {
  slatch: 1,
  name: 'Short passage',
  start: { timeUtc: '2026-06-01T00:00Z', lat: -36, lon: 178 },
  track: [
    { lat: -36, lon: 178 },
    { lat: -35, lon: 180 },
  ],
  boat: { speedTables: { 'full-main': [{ twaDeg: 90, twsKn: 10, boatSpeedKn: 6 }] } },
};

const read = (more: object) => parsePassage(JSON.stringify({ ...BASE, ...more }), 'p.json');

const sail = { kind: 'mainsail', cut: 'cross-cut', panelCount: 7, reefs: { count: 2 } };
const tear = { counted: { panel: 3 }, lengthM: 0.5 };
const piece = { id: 'batten', lengthMm: 2800, diameterMm: 10 };

describe('sails of a passage', () => {
  it('left out: none', () => {
    expect(read({})).toMatchObject({ ok: true, value: { sails: [], cutting: null } });
  });

  it('as the file of slatch damage: kept as they are', () => {
    const sails = [{ sail, damage: [tear] }];
    expect(read({ sails })).toMatchObject({ ok: true, value: { sails } });
  });

  it.each([
    ['a panel there is not', { sail, damage: [{ ...tear, counted: { panel: 9 } }] }, /sails\[0\]/],
    ['a reef there is not', { sail, damage: [{ ...tear, belowReef: 3 }] }, /reef 3/],
    ['a negative length', { sail, damage: [{ ...tear, lengthM: -1 }] }, /sails\[0\]\.damage\[0\]\.lengthM/],
    ['a key that is none', { sail: { ...sail, panels: 7 } }, /"panels"/],
  ])('%s: refused with its place', (_, one, wanted) => {
    const passage = read({ sails: [one] });
    const problems = passage.ok ? [] : passage.problems;
    expect(problems.map(({ where, what }) => `${where} ${what}`).join('\n')).toMatch(wanted);
  });
});

describe('pieces to cut', () => {
  const rod = { item: 'batten rod', unit: 'pieces', onBoard: 2, kind: 'bar', lengthMm: 3000, diameterMm: 10 };

  it('from the bars of the locker: what slatch cut would make of them', () => {
    const passage = read({ cutting: { kerfMm: 3, pieces: [{ ...piece, count: 3 }] }, locker: [rod] });
    if (!passage.ok || passage.value.cutting === null) throw new Error('it is read');
    const plan = cutPlan(cutRequestOf(passage.value.cutting, barsOf(passage.value.locker)));
    // Two bars, one piece of each: the third finds none.
    expect([plan.madeIds.length, plan.notMade.map(({ pieceId }) => pieceId)]).toEqual([2, ['batten#3']]);
  });

  it('a reserve: those bars are not cut', () => {
    const passage = read({ cutting: { pieces: [{ ...piece, count: 2 }] }, locker: [{ ...rod, keep: 1 }] });
    if (!passage.ok || passage.value.cutting === null) throw new Error('it is read');
    expect(cutPlan(cutRequestOf(passage.value.cutting, barsOf(passage.value.locker))).madeIds).toHaveLength(1);
  });

  it.each([
    ['a negative length', { ...piece, lengthMm: -5 }, /cutting\.pieces\[0\]\.lengthMm/],
    ['both overlaps', { ...piece, overlapMm: 100, overlapRatio: 20 }, /overlapRatio/],
    ['a zone the wrong way round', { ...piece, noJoinZonesMm: [[500, 200]] }, /noJoinZonesMm\[0\]/],
  ])('%s: refused at its field', (_, one, wanted) => {
    const passage = read({ cutting: { pieces: [one] } });
    expect(passage.ok ? '' : passage.problems.map(({ where }) => where).join('\n')).toMatch(wanted);
  });
});
