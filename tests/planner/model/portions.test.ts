import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { divisionOf } from '../../../lib/planner/model/portions.ts';
import { littleJob, littleStep } from '../little-world.ts';
import { problemFor } from './model-world.ts';

const base = problemFor([littleJob('sew', [littleStep('sew', 60)])]);
const [unit] = base.units;
if (unit === undefined) throw new Error('the job has a unit');

interface Session {
  readonly longestMin: number;
  readonly restMin: number;
  readonly leastUsefulMin: number;
  readonly resumeMin: number;
  readonly makeSafeMin: number;
}
const divided = (workMin: number, session: Session | null) =>
  divisionOf(base, { ...unit, totalWorkMin: workMin, block: { ...unit.block, session } });

describe('work divided for the search', () => {
  test('a core is worked whole, without getting it out again', () => {
    expect(divided(95, null)).toEqual({
      unitCount: 1,
      partMin: 95,
      goes: [{ unitCount: 1, onlyToFinish: false, workMin: 95, resumeMin: 0 }],
    });
  });

  test('200 min in sessions of 90 with 10 to get it out: three goes, 30 min each part, two to a go', () => {
    // (200 − 10)/(90 − 10) = 2.4, so three goes; 80/30 = 2 parts to a go; six parts of 33⅓ min.
    const { unitCount, partMin, goes } = divided(200, {
      longestMin: 90,
      restMin: 30,
      leastUsefulMin: 30,
      resumeMin: 10,
      makeSafeMin: 10,
    });
    expect(unitCount).toBe(6);
    expect(partMin).toBeCloseTo(200 / 6, 9);
    expect(goes.map((go) => go.unitCount)).toEqual([1, 2]);
    // Getting it out twice, shared by three goes.
    for (const go of goes) expect(go.resumeMin).toBeCloseTo(20 / 3, 9);
  });

  const drawn = fc
    .record({
      workMin: fc.integer({ min: 10, max: 900 }),
      leastUsefulMin: fc.integer({ min: 10, max: 60 }),
      moreMin: fc.integer({ min: 0, max: 180 }),
      resumeMin: fc.integer({ min: 0, max: 20 }),
    })
    .map((of) => ({ ...of, longestMin: of.leastUsefulMin + of.resumeMin + of.moreMin }));

  test('parts add up to the work, and as many full goes as are needed carry all minutes of getting it out', () => {
    fc.assert(
      fc.property(drawn, ({ workMin, ...session }) => {
        const { unitCount, partMin, goes } = divided(workMin, { ...session, restMin: 20, makeSafeMin: 10 });
        expect(unitCount * partMin).toBeCloseTo(workMin, 6);
        const full = goes.at(-1);
        const goCount = unitCount / (full?.unitCount ?? 1);
        expect(Number.isInteger(goCount)).toBe(true);
        expect(goCount * (full?.workMin ?? 0)).toBeCloseTo(workMin, 6);
        // The first go needs no getting out.
        expect(goCount * (full?.resumeMin ?? 0)).toBeCloseTo(session.resumeMin * (goCount - 1), 6);
        for (const [k, go] of goes.entries()) expect(go.workMin).toBeCloseTo((k + 1) * partMin, 6);
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  test('no go is longer than the longest session, and one too short to be useful only finishes', () => {
    fc.assert(
      fc.property(drawn, ({ workMin, ...session }) => {
        for (const go of divided(workMin, { ...session, restMin: 20, makeSafeMin: 10 }).goes) {
          expect(go.workMin + go.resumeMin).toBeLessThanOrEqual(session.longestMin + 1e-6);
          expect(go.onlyToFinish).toBe(go.workMin < session.leastUsefulMin - 1e-6);
        }
      }),
      { seed: 8, numRuns: 300 },
    );
  });
});
