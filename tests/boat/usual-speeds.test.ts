import { describe, expect, it } from 'vitest';
import { boatProblems, hullSpeedKn, usualSpeedTable, WATERLINE_RANGE } from '../../lib/boat/index.ts';

const waterlinesM = [WATERLINE_RANGE.leastM, WATERLINE_RANGE.usualM, 12.5, WATERLINE_RANGE.mostM];

describe('usual speeds', () => {
  // The old rule of thumb: 1.34 times the square root of the waterline in feet (common practice, no source).
  it.each(waterlinesM)('hull speed, waterline of %d m: the old rule in feet, within 1 in 100', (waterlineM) => {
    const ruleKn = 1.34 * Math.sqrt(waterlineM / 0.3048);
    expect(Math.abs(hullSpeedKn(waterlineM) / ruleKn - 1)).toBeLessThan(0.01);
  });

  // ISO 80000-3: the knot is 1852 m in 3600 s; deep-water waves of 100 m run at 12.5 m/s (linear wave theory, from memory).
  it('hull speed, 100 m: the speed of a wave of 100 m', () => {
    expect((hullSpeedKn(100) * 1852) / 3600).toBeCloseTo(12.5, 1);
  });

  it.each(waterlinesM)(
    'table, waterline of %d m: whole by the checks of a boat, never above hull speed',
    (waterlineM) => {
      const rows = usualSpeedTable(waterlineM);
      const boat = {
        name: '',
        instrumentHeightM: 15,
        sailStates: [],
        handlings: [],
        speedTables: { 'full-main': rows },
      };
      expect(boatProblems(boat, 'boat').filter(({ where }) => where.includes('speedTables.full-main['))).toEqual([]);
      expect(Math.max(...rows.map((row) => row.boatSpeedKn))).toBeLessThanOrEqual(hullSpeedKn(waterlineM));
      expect(Math.min(...rows.map((row) => row.boatSpeedKn))).toBeGreaterThan(0.5);
    },
  );

  // Common practice, no source: to 16 kn more wind is more speed, beam reach the fastest angle in light air.
  it('table: more wind more speed up to 16 kn; abeam faster than close-hauled and dead before', () => {
    const rows = usualSpeedTable(10);
    const at = (twaDeg: number, twsKn: number): number =>
      rows.find((row) => row.twaDeg === twaDeg && row.twsKn === twsKn)?.boatSpeedKn ?? Number.NaN;
    for (const twaDeg of [45, 60, 90, 120, 150, 180]) {
      const speeds = [4, 6, 8, 10, 12, 16].map((twsKn) => at(twaDeg, twsKn));
      expect(speeds).toEqual(speeds.toSorted((a, b) => a - b));
    }
    for (const twsKn of [4, 8, 12]) {
      expect(at(90, twsKn)).toBeGreaterThan(at(45, twsKn));
      expect(at(90, twsKn)).toBeGreaterThan(at(180, twsKn));
    }
  });

  it('twice the scale of everything: Froude numbers of wind and boat stay', () => {
    const [small, large] = [usualSpeedTable(5), usualSpeedTable(20)];
    for (const [index, row] of small.entries()) {
      expect(large[index]?.twsKn).toBeCloseTo(2 * row.twsKn, 0);
      expect(Math.abs((large[index]?.boatSpeedKn ?? 0) - 2 * row.boatSpeedKn)).toBeLessThanOrEqual(0.101);
    }
  });
});
