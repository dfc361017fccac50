import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MS_PER_H, MS_PER_MIN, slotEpochMs, slotGrid, utcInterval } from '../../lib/time/index.ts';

describe('utcInterval', () => {
  it('end after start: kept', () => {
    expect(utcInterval(5, 6)).toEqual({ startEpochMs: 5, endEpochMs: 6 });
  });

  it.each([
    [5, 5],
    [6, 5],
    [Number.NaN, 5],
    [5, Number.NaN],
  ])('from %d to %d: throws', (startEpochMs, endEpochMs) => {
    expect(() => utcInterval(startEpochMs, endEpochMs)).toThrow('must end after it starts');
  });
});

describe('slotGrid', () => {
  it('both ends on a slot: both belong to it', () => {
    expect(slotGrid({ fromEpochMs: 0, toEpochMs: MS_PER_H }, 10)).toEqual({
      firstEpochMs: 0,
      slotMin: 10,
      slotCount: 7,
    });
  });

  it('a span inside one slot: no slots', () => {
    expect(slotGrid({ fromEpochMs: 1, toEpochMs: 2 }, 10).slotCount).toBe(0);
  });

  it('a span that ends before it begins: no slots', () => {
    expect(slotGrid({ fromEpochMs: MS_PER_H, toEpochMs: 0 }, 10).slotCount).toBe(0);
  });

  it('before 1970: slots still lie on multiples', () => {
    expect(slotGrid({ fromEpochMs: -MS_PER_MIN, toEpochMs: 0 }, 10)).toMatchObject({ slotCount: 1 });
    expect(slotEpochMs(slotGrid({ fromEpochMs: -11 * MS_PER_MIN, toEpochMs: 0 }, 10), 0)).toBe(-10 * MS_PER_MIN);
  });

  it('any span: holds every multiple inside it and no other', () => {
    const aSpan = fc.record({
      fromEpochMs: fc.integer({ min: -1e9, max: 1e9 }),
      lengthMs: fc.integer({ min: 0, max: 1e8 }),
      slotMin: fc.constantFrom(1, 5, 10, 15, 60),
    });
    fc.assert(
      fc.property(aSpan, ({ fromEpochMs, lengthMs, slotMin }) => {
        const toEpochMs = fromEpochMs + lengthMs;
        const grid = slotGrid({ fromEpochMs, toEpochMs }, slotMin);
        const multiples = [];
        for (let at = Math.floor(fromEpochMs / MS_PER_MIN) * MS_PER_MIN; at <= toEpochMs; at += MS_PER_MIN)
          if (at >= fromEpochMs && at % (slotMin * MS_PER_MIN) === 0) multiples.push(at);
        expect(Array.from({ length: grid.slotCount }, (_, i) => slotEpochMs(grid, i) + 0)).toEqual(
          multiples.map((at) => at + 0),
        );
      }),
      { seed: 10 },
    );
  });
});
