import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { labelRows } from '../../views/charts/label-rows.ts';
import { spreadLabels } from '../../views/charts/spread-labels.ts';

const SEED = { seed: 11 };

describe('spreadLabels', () => {
  const px = fc.array(fc.integer({ min: 0, max: 100 }), { minLength: 1, maxLength: 8 });

  it('room for all: none nearer than the gap, none outside, order kept', () => {
    fc.assert(
      fc.property(px, (wanted) => {
        const places = spreadLabels(wanted, { gapPx: 12, fromPx: 0, toPx: 100 });
        const sorted = places.toSorted((a, b) => a - b);
        sorted.slice(1).forEach((place, i) => expect(place - (sorted[i] ?? 0)).toBeGreaterThanOrEqual(12 - 1e-9));
        expect(sorted[0]).toBeGreaterThanOrEqual(0);
        expect(sorted.at(-1)).toBeLessThanOrEqual(100 + 1e-9);
        const byPlace = wanted.map((_, i) => i).toSorted((a, b) => (places[a] ?? 0) - (places[b] ?? 0));
        expect(byPlace.map((i) => wanted[i])).toEqual(wanted.toSorted((a, b) => a - b));
      }),
      SEED,
    );
  });

  it('apart already: left where they are', () => {
    expect(spreadLabels([80, 10, 40], { gapPx: 12, fromPx: 0, toPx: 100 })).toEqual([80, 10, 40]);
  });

  it('too little room: equal distances', () => {
    expect(spreadLabels([5, 5, 5], { gapPx: 12, fromPx: 0, toPx: 10 })).toEqual([0, 5, 10]);
  });
});

describe('labelRows', () => {
  const label = fc.record({
    fromPx: fc.integer({ min: 0, max: 600 }),
    longPx: fc.integer({ min: 3, max: 90 }),
    widthPx: fc.integer({ min: 20, max: 180 }),
  });

  it('any blocks in order: no label on another, none past the edge', () => {
    fc.assert(
      fc.property(fc.array(label, { maxLength: 12 }), (labels) => {
        const sorted = labels.toSorted((a, b) => a.fromPx - b.fromPx);
        const places = labelRows(
          sorted.map(({ fromPx, longPx, widthPx }) => ({ block: { fromPx, toPx: fromPx + longPx }, widthPx })),
          { gapPx: 8, toPx: 660 },
        );
        const below = places.flatMap((place) => (place.inside ? [] : [place]));
        for (const [i, one] of below.entries()) {
          expect(one.toPx).toBeLessThanOrEqual(660);
          for (const other of below.slice(i + 1)) {
            const apart = one.rowIndex !== other.rowIndex || one.toPx <= other.fromPx || other.toPx <= one.fromPx;
            expect(apart).toBe(true);
          }
        }
      }),
      SEED,
    );
  });

  it('fits its block: stands inside', () => {
    expect(labelRows([{ block: { fromPx: 0, toPx: 100 }, widthPx: 60 }], { gapPx: 8, toPx: 660 })).toEqual([
      { inside: true },
    ]);
  });
});
