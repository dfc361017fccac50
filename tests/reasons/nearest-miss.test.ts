import { describe, expect, test } from 'vitest';
import { nearestMiss, nearestMissText } from '../../lib/reasons/index.ts';
import { findWindows } from '../../lib/windows/index.ts';
import { littleJob, littleStep, onlyNoGo } from '../planner/little-world.ts';
import { blowing, smallSearch } from './small-world.ts';

const job = littleJob('sew', [littleStep('sew', 60, { deckWindKn: onlyNoGo(13) })]);

/** Two lulls of two hours, from 02:00 in six of ten, from 10:00 in seven of ten; 14 kn otherwise. */
const twoLulls = Array.from({ length: 10 }, (_, w) =>
  blowing((hourH) => {
    const isFirst = hourH >= 2 && hourH <= 4 && w < 6;
    const isSecond = hourH >= 10 && hourH <= 12 && w < 7;
    return isFirst || isSecond ? 10 : 14;
  }),
);

describe('nearest miss', () => {
  const search = smallSearch(twoLulls);
  const misses = nearestMiss(job, 0, search);

  test('the world has no window', () => expect(findWindows(job, search).windows).toEqual([]));

  test('the better lull first, then the other, at their first hours', () => {
    expect(misses.slice(0, 2).map(({ startSlot }) => startSlot)).toEqual([60, 12]);
    expect(misses[0]?.probability).toBeCloseTo(0.7, 6);
    expect(misses[1]?.probability).toBeCloseTo(0.6, 6);
  });

  test('what breaks it: which limit, in which share, since when, by how much', () => {
    const [worst] = misses[0]?.findings ?? [];
    expect(worst).toMatchObject({ rule: 'deck-wind', required: 13, unit: 'kn' });
    expect(worst?.scenarioShare).toBeCloseTo(0.3, 9);
    // Seven of ten are calm: the middle one has three knots to spare.
    expect(worst?.margin).toBeCloseTo(3, 4);
  });

  test('said in one sentence', () => {
    const wording = { shipTimeOffsetMin: 0, nameOf: (id: string) => id, grid: search.conditions.course.grid };
    expect(nearestMissText(misses, wording)).toBe(
      'Nearest Mon 1 Jun 10:00, hold-course, inside every limit in 70 of 100: wind over the deck above 13.0 kn in 30 of 100, first Mon 1 Jun 10:00 (10.0 kn expected, 3.0 kn to spare).',
    );
  });

  test('three at most, a reference period apart', () => {
    expect(misses).toHaveLength(3);
    const slots = misses.map(({ startSlot }) => startSlot).toSorted((a, b) => a - b);
    const gaps = slots.slice(1).map((slot, k) => slot - (slots[k] ?? 0));
    expect(Math.min(...gaps)).toBeGreaterThanOrEqual(9);
  });

  test('no scenario holds anywhere: the start that lacks least', () => {
    // 20 kn, but 14 at 08:00 to 12:00: a knot over instead of seven. Work slowed to 1.8 and its reserve need 17 slots.
    const windy = smallSearch([blowing((hourH) => (hourH >= 8 && hourH <= 12 ? 14 : 20))]);
    const [best] = nearestMiss(job, 0, windy);
    expect(best?.probability).toBe(0);
    expect(best?.startSlot).toBeGreaterThanOrEqual(48);
    expect(best?.startSlot).toBeLessThanOrEqual(72 - 17);
    expect(best?.findings[0]?.margin).toBeCloseTo(-1, 4);
  });

  test('work that would end after the plan does not come near', () => {
    expect(nearestMiss(job, 0, search, 60).map(({ startSlot }) => startSlot)).not.toContain(60);
    expect(nearestMiss(job, 0, search, 60)[0]?.startSlot).toBe(12);
  });

  test('no handling serves: no start at all, and that is said', () => {
    const none = nearestMiss({ ...job, handlings: ['close-reach-headsail'] }, 0, search);
    expect(none).toEqual([]);
    const wording = { shipTimeOffsetMin: 0, nameOf: (id: string) => id, grid: search.conditions.course.grid };
    expect(nearestMissText(none, wording)).toBe('No start is possible before the forecast ends.');
  });
});
