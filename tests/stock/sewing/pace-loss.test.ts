import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minutesWithPaceLoss, seamWork, sewingTime, stitchRate, USUAL_RHYTHM } from '../../../lib/stock/index.ts';

const RUNS = { seed: 64, numRuns: 200 };
const minutes = fc.double({ min: 1, max: 5000, noNaN: true });
const stretches = (stretchMin: number | null) => ({ sessionMin: 60, pauseMin: 20, stretchMin, restMin: 360 });

// Factors 1.1, 1.25, 1.5 after one, two, three hours: common practice, no source; sums done by hand.
describe('minutesWithPaceLoss', () => {
  it.each([
    [30, 30],
    [60, 60],
    [60 + 30, 60 + 33],
    [60 + 60 / 1.1, 120],
    [60 + 60 / 1.1 + 60 / 1.25, 180],
    [60 + 60 / 1.1 + 60 / 1.25 + 100, 180 + 150],
  ])('%d minutes at the pace of the beginning: %d minutes', (freshMin, takenMin) => {
    expect(minutesWithPaceLoss(freshMin)).toBeCloseTo(takenMin, 9);
  });

  it('never faster than at the beginning, never slower than half as long again, more work more time', () => {
    fc.assert(
      fc.property(minutes, (freshMin) => {
        const takenMin = minutesWithPaceLoss(freshMin);
        expect(takenMin).toBeGreaterThanOrEqual(freshMin - 1e-9);
        expect(takenMin).toBeLessThanOrEqual(1.5 * freshMin);
        expect(minutesWithPaceLoss(freshMin + 1)).toBeGreaterThan(takenMin);
      }),
      RUNS,
    );
  });
});

describe('sewingTime (sessions of 45 … 75 min: common practice, no source; sums done by hand)', () => {
  it('six hours in sessions of an hour: six, with five pauses of twenty minutes', () => {
    expect(sewingTime(360, stretches(null), false)).toEqual({
      needleMin: 360,
      sessionCount: 6,
      restCount: 0,
      elapsedMin: 460,
    });
  });

  it('six hours with a long rest after each four: one rest in place of a pause', () => {
    expect(sewingTime(360, stretches(240), false)).toEqual({
      needleMin: 360,
      sessionCount: 6,
      restCount: 1,
      elapsedMin: 360 + 4 * 20 + 360,
    });
  });

  it('a long rest each hour: no pace is lost', () => {
    expect(sewingTime(360, stretches(60), true)).toMatchObject({ needleMin: 360, sessionCount: 6, restCount: 5 });
  });

  it('pace loss, a rest after each two hours: two hours do 114.5 minutes of work', () => {
    const freshMin = 2 * (60 + 60 / 1.1);
    expect(sewingTime(freshMin, stretches(120), true)).toMatchObject({ needleMin: 240, restCount: 1, sessionCount: 4 });
  });

  it('nothing to sew: one session of no minutes', () => {
    expect(sewingTime(0, USUAL_RHYTHM, true)).toEqual({ needleMin: 0, sessionCount: 1, restCount: 0, elapsedMin: 0 });
  });

  it('without pace loss the needle takes what it takes; with it rests never make it longer', () => {
    fc.assert(
      fc.property(minutes, fc.integer({ min: 20, max: 600 }), (freshMin, stretchMin) => {
        expect(sewingTime(freshMin, stretches(stretchMin), false).needleMin).toBeCloseTo(freshMin, 6);
        const rested = sewingTime(freshMin, stretches(stretchMin), true);
        expect(rested.needleMin).toBeLessThanOrEqual(minutesWithPaceLoss(freshMin) + 1e-6);
        expect(rested.needleMin).toBeGreaterThanOrEqual(freshMin - 1e-6);
        expect(rested.elapsedMin).toBeGreaterThanOrEqual(rested.needleMin + rested.restCount * 360 - 1e-6);
        expect(rested.sessionCount * 60).toBeGreaterThanOrEqual(rested.needleMin - 1e-6);
      }),
      RUNS,
    );
  });

  it('a session without minutes: our mistake', () => {
    expect(() => sewingTime(60, { ...USUAL_RHYTHM, sessionMin: 0 }, false)).toThrow('session');
  });
});

describe('seamWork', () => {
  const plan = {
    seam: { lengthM: 0.9, rowCount: 2, cloth: 'tough-laminate' },
    rate: stitchRate('tough-laminate'),
    geometry: null,
    strand: 'double' as const,
    rhythm: USUAL_RHYTHM,
    hasPaceLoss: false,
  };

  it('0.9 m in two rows: counts, twine, minutes for a row and for both', () => {
    const work = seamWork(plan);
    expect(work).toMatchObject({ stitchCount: 360, lockCount: 18, needlefulCount: 12, needleCount: 4 });
    expect(work.twineM).toBeCloseTo(24.84, 9);
    expect(work.row.likelyMin).toBeCloseTo(180, 9);
    expect(work.needle.likelyMin).toBeCloseTo(360, 9);
    expect(work.needle.mostMin).toBeCloseTo(540, 9);
  });

  it('with pace loss: the row as it was, the whole longer', () => {
    const work = seamWork({ ...plan, hasPaceLoss: true });
    expect(work.row.likelyMin).toBeCloseTo(180, 9);
    expect(work.needle.likelyMin).toBeCloseTo(minutesWithPaceLoss(360), 9);
  });

  it('stitches 8 mm apart: fewer', () => {
    expect(seamWork({ ...plan, geometry: { pitchMm: 8, widthMm: 15, thicknessMm: 0 } }).stitchCount).toBe(225);
  });
});
