import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { courseToSteer, madeGood, throughWaterFor } from '../../lib/geo/index.ts';

const degrees = fc.double({ min: 0, max: 360, maxExcluded: true, noNaN: true });
const speed = fc.double({ min: 0.5, max: 10, noNaN: true });

describe('sailing in a current (six published answers stand in the check values)', () => {
  it('any current that can be stemmed: steering the course found makes the course wanted good', () => {
    fc.assert(
      fc.property(degrees, speed, degrees, speed, (towardDegTrue, speedKn, setTowardDegTrue, driftKn) => {
        const current = { setTowardDegTrue, driftKn };
        const steered = courseToSteer({ towardDegTrue, speedKn }, current);
        fc.pre(steered !== null && steered.madeGoodKn > 0.01);
        if (steered === null) return;
        const made = madeGood({ towardDegTrue: steered.headingTowardDegTrue, speedKn }, current);
        expect(made.speedKn).toBeCloseTo(steered.madeGoodKn, 9);
        expect(Math.cos(((made.towardDegTrue - towardDegTrue) * Math.PI) / 180)).toBeCloseTo(1, 9);
      }),
      { seed: 21 },
    );
  });

  it('swept off, or carried backwards: null', () => {
    const current = { setTowardDegTrue: 180, driftKn: 4 };
    expect(courseToSteer({ towardDegTrue: 0, speedKn: 3 }, current)).toBeNull();
    expect(courseToSteer({ towardDegTrue: 90, speedKn: 3 }, current)).toBeNull();
    expect(courseToSteer({ towardDegTrue: 180, speedKn: 0 }, current)).toBeNull();
  });

  it('wanted over the ground, sailed through the water: the current brings it back', () => {
    const current = { setTowardDegTrue: 185, driftKn: 3 };
    const through = throughWaterFor({ towardDegTrue: 265, speedKn: 15 }, current);
    expect(madeGood(through, current).towardDegTrue).toBeCloseTo(265, 9);
    expect(madeGood(through, current).speedKn).toBeCloseTo(15, 9);
  });
});
