import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boatSpeedKn, isSpeedEstimated, tableSpeedKn } from '../../lib/boat/index.ts';
import { fullSail, testBoat } from './test-boat.ts';

describe('tableSpeedKn', () => {
  it('every row of the table: its own speed, on either tack', () => {
    for (const { twaDeg, twsKn, boatSpeedKn: speedKn } of fullSail) {
      expect(tableSpeedKn(fullSail, { twaDeg, twsKn })).toBe(speedKn);
      expect(tableSpeedKn(fullSail, { twaDeg: -twaDeg, twsKn })).toBe(speedKn);
      expect(tableSpeedKn(fullSail, { twaDeg: 360 - twaDeg, twsKn })).toBe(speedKn);
    }
  });

  it('between four rows: bilinear (worked by hand)', () => {
    // At 45°: 5 + 0.5 · 1 = 5.5; at 90°: 7 + 0.5 · 2 = 8; a third of the way: 5.5 + 2.5 / 3.
    expect(tableSpeedKn(fullSail, { twaDeg: 60, twsKn: 15 })).toBeCloseTo(5.5 + 2.5 / 3, 12);
  });

  it('no wind: no speed; half the first wind: half its speed; beyond the last: the last', () => {
    expect(tableSpeedKn(fullSail, { twaDeg: 90, twsKn: 0 })).toBe(0);
    expect(tableSpeedKn(fullSail, { twaDeg: 90, twsKn: 5 })).toBe(3.5);
    expect(tableSpeedKn(fullSail, { twaDeg: 90, twsKn: 45 })).toBe(9);
  });

  it('closer to the wind than the table: its closest angle', () => {
    expect(tableSpeedKn(fullSail, { twaDeg: 10, twsKn: 10 })).toBe(5);
  });

  it('rows in any order, angles with different winds: the same table', () => {
    const ragged = [...fullSail, { twaDeg: 135, twsKn: 10, boatSpeedKn: 6 }].toReversed();
    expect(tableSpeedKn(ragged, { twaDeg: 60, twsKn: 15 })).toBeCloseTo(5.5 + 2.5 / 3, 12);
    expect(tableSpeedKn(ragged, { twaDeg: 135, twsKn: 30 })).toBe(6);
  });

  it('any wind: continuous, never above the fastest row', () => {
    const angle = fc.double({ min: 0, max: 180, noNaN: true });
    fc.assert(
      fc.property(angle, fc.double({ min: 0, max: 60, noNaN: true }), (twaDeg, twsKn) => {
        const speedKn = tableSpeedKn(fullSail, { twaDeg, twsKn });
        expect(speedKn).toBeGreaterThanOrEqual(0);
        expect(speedKn).toBeLessThanOrEqual(9);
        const near = tableSpeedKn(fullSail, { twaDeg: twaDeg + 1e-6, twsKn: twsKn + 1e-6 });
        expect(Math.abs(near - speedKn)).toBeLessThan(1e-5);
      }),
      { seed: 4 },
    );
  });
});

describe('boatSpeedKn', () => {
  it('a state with a table: from it, not estimated', () => {
    expect(isSpeedEstimated(testBoat, 'full-main')).toBe(false);
    expect(boatSpeedKn(testBoat, 'full-main', { twaDeg: 90, twsKn: 10 })).toBe(7);
  });

  it('a state without: full sail × area ratio to the power 0.5, 0.33, 0.2 below 10, to 16, above 16 kn', () => {
    expect(isSpeedEstimated(testBoat, 'deep-reef')).toBe(true);
    const reefed = (twsKn: number): number => boatSpeedKn(testBoat, 'deep-reef', { twaDeg: 90, twsKn });
    expect(reefed(5)).toBeCloseTo(3.5 * 0.5 ** 0.5, 12);
    expect(reefed(10)).toBeCloseTo(7 * 0.5 ** 0.33, 12);
    expect(reefed(16)).toBeCloseTo(8.2 * 0.5 ** 0.33, 12);
    expect(reefed(20)).toBeCloseTo(9 * 0.5 ** 0.2, 12);
  });

  it('the fullest of several tables is the one estimated from', () => {
    const slow = [{ twaDeg: 90, twsKn: 10, boatSpeedKn: 1 }];
    const boat = { ...testBoat, speedTables: { 'headsail-only': slow, 'full-main': fullSail } };
    expect(boatSpeedKn(boat, 'deep-reef', { twaDeg: 90, twsKn: 20 })).toBeCloseTo(9 * 0.5 ** 0.2, 12);
    expect(boatSpeedKn(boat, 'headsail-only', { twaDeg: 90, twsKn: 20 })).toBe(1);
  });

  it('bare poles before 10, 20, 30 kn: near the 1.8, 3.6, 4.9 kn of a drag balance (common practice, no source)', () => {
    const rows = [
      { twaDeg: 170, twsKn: 10, boatSpeedKn: 4.8 },
      { twaDeg: 170, twsKn: 20, boatSpeedKn: 7.9 },
      { twaDeg: 170, twsKn: 30, boatSpeedKn: 9.8 },
    ];
    const boat = { ...testBoat, speedTables: { 'full-main': rows } };
    for (const [twsKn, speedKn] of [
      [10, 1.8],
      [20, 3.6],
      [30, 4.9],
    ] as const) {
      expect(Math.abs(boatSpeedKn(boat, 'bare-poles', { twaDeg: 170, twsKn }) - speedKn)).toBeLessThan(0.35);
    }
  });

  it('a sail state the boat lacks: our mistake, thrown', () => {
    expect(() => boatSpeedKn(testBoat, 'trysail', { twaDeg: 90, twsKn: 10 })).toThrow('trysail');
  });
});
