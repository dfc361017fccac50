import { describe, expect, it } from 'vitest';
import { feathers } from '../../views/charts/barb.tsx';

/**
 * WMO-No. 485, Manual on the Global Data-processing and Forecasting System: shaft toward where the wind comes from,
 * half feather 5 kn, full 10, pennant 50, on the side of lower pressure (left of an observer with his back to the wind in
 * the northern hemisphere). The path is drawn for a northerly: an observer with his back to it faces south, so his left
 * is east, x > 0.
 */
const barb = { fromDegTrue: 0, calm: false, pennantCount: 0, fullCount: 0, halfCount: 0, side: 'left' } as const;

const farPoints = (path: string): { x: number; y: number }[] =>
  [...path.matchAll(/M0 (-?[\d.]+)L(-?[\d.]+)/g)].map(([, y, x]) => ({ y: Number(y), x: Number(x) }));

describe('feathers', () => {
  it('northern hemisphere, northerly: to the east; southern: to the west', () => {
    expect(farPoints(feathers({ ...barb, fullCount: 1 }))[0]?.x).toBeGreaterThan(0);
    expect(farPoints(feathers({ ...barb, fullCount: 1, side: 'right' }))[0]?.x).toBeLessThan(0);
  });

  it('65 kn: one pennant outermost, then a full, then a half feather half as long', () => {
    const points = farPoints(feathers({ ...barb, pennantCount: 1, fullCount: 1, halfCount: 1 }));
    expect(points).toHaveLength(3);
    expect(points.map((point) => point.y)).toEqual(points.map((point) => point.y).toSorted((a, b) => a - b));
    expect(points[2]?.x).toBe((points[1]?.x ?? 0) / 2);
  });

  it('5 kn: the lone half feather stands in from the end of the shaft', () => {
    const alone = farPoints(feathers({ ...barb, halfCount: 1 }))[0]?.y ?? 0;
    const full = farPoints(feathers({ ...barb, fullCount: 1 }))[0]?.y ?? 0;
    expect(alone).toBeGreaterThan(full);
  });
});
