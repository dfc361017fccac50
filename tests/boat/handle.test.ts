import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  DEFAULT_HANDLINGS,
  handle,
  isHandlingPossible,
  leeway,
  leewayRow,
  sailCourse,
  type Motion,
  type WindOnCourse,
} from '../../lib/boat/index.ts';
import { wrap180Deg } from '../../lib/units/index.ts';
import { handlingOf, testBoat } from './test-boat.ts';

const sail = (wind: WindOnCourse, stateId = 'full-main'): Motion => sailCourse(testBoat, stateId, wind);

describe('sailCourse', () => {
  it('wind on the beam: heads for the course at the speed of the table', () => {
    const motion = sail({ twsKn: 10, windFromDegTrue: 180, courseTowardDegTrue: 90 });
    expect(motion).toMatchObject({ headingTowardDegTrue: 90, twaDeg: 90, boatSpeedKn: 7, alongTrackKn: 7 });
    expect(motion.velocity.eastKn).toBeCloseTo(7, 12);
    expect(motion.velocity.northKn).toBeCloseTo(0, 12);
    expect(motion.offTrackKn).toBeCloseTo(0, 12);
  });

  it('course dead to windward: made good is speed × cos 45°, on either tack', () => {
    const motion = sail({ twsKn: 10, windFromDegTrue: 30, courseTowardDegTrue: 30 });
    expect(Math.abs(motion.twaDeg)).toBe(45);
    expect(motion.alongTrackKn).toBeCloseTo(5 * Math.SQRT1_2, 12);
    expect(motion.offTrackKn).toBe(0);
  });

  it('course 20° off the wind: bow on the nearer tack, made good what both tacks bring together', () => {
    const motion = sail({ twsKn: 10, windFromDegTrue: 20, courseTowardDegTrue: 0 });
    expect(motion.twaDeg).toBe(45);
    expect(motion.headingTowardDegTrue).toBe(335);
    // Vector sum by hand: shares a and b of the two tacks (25° to port, 65° to starboard of the course) with
    // a sin 25° = b sin 65°, a + b = 1; along the course a cos 25° + b cos 65°.
    const [sin25, sin65] = [Math.sin((25 * Math.PI) / 180), Math.sin((65 * Math.PI) / 180)];
    const a = sin65 / (sin25 + sin65);
    const along = a * Math.cos((25 * Math.PI) / 180) + (1 - a) * Math.cos((65 * Math.PI) / 180);
    expect(motion.alongTrackKn).toBeCloseTo(5 * along, 12);
  });

  it('wind to port of a close course: port tack', () => {
    expect(sail({ twsKn: 10, windFromDegTrue: 350, courseTowardDegTrue: 0 }).twaDeg).toBe(-45);
  });

  it('any wind and course: velocity agrees with heading and speed; made good never beats the boat', () => {
    const degrees = fc.double({ min: 0, max: 360, noNaN: true });
    fc.assert(
      fc.property(degrees, degrees, fc.double({ min: 0, max: 40, noNaN: true }), (windFromDegTrue, course, twsKn) => {
        const motion = sail({ twsKn, windFromDegTrue, courseTowardDegTrue: course });
        expect(Math.hypot(motion.velocity.eastKn, motion.velocity.northKn)).toBeCloseTo(motion.boatSpeedKn, 9);
        expect(motion.alongTrackKn).toBeLessThanOrEqual(motion.boatSpeedKn + 1e-9);
        expect(motion.alongTrackKn).toBeGreaterThanOrEqual(0);
        expect(Math.abs(motion.twaDeg)).toBeGreaterThanOrEqual(45);
        const fromHeading = wrap180Deg(windFromDegTrue - motion.headingTowardDegTrue - motion.twaDeg);
        expect(Math.abs(fromHeading)).toBeLessThan(1e-9);
      }),
      { seed: 5 },
    );
  });

  it('the course at the closest angle: beating and laying it are the same', () => {
    const laid = sail({ twsKn: 10, windFromDegTrue: 45, courseTowardDegTrue: 0 });
    const beaten = sail({ twsKn: 10, windFromDegTrue: 44.999999, courseTowardDegTrue: 0 });
    expect(beaten.alongTrackKn).toBeCloseTo(laid.alongTrackKn, 6);
  });

  it('bare poles and a course to windward: runs off at its limit, loses ground and leaves the track', () => {
    const motion = sail({ twsKn: 20, windFromDegTrue: 10, courseTowardDegTrue: 0 }, 'bare-poles');
    expect(motion.twaDeg).toBe(120);
    expect(motion.alongTrackKn).toBeLessThan(0);
    // Wind from starboard: she goes off to port.
    expect(motion.offTrackKn).toBeLessThan(0);
  });

  it('flat calm: lies still', () => {
    expect(sail({ twsKn: 0, windFromDegTrue: 0, courseTowardDegTrue: 0 })).toMatchObject({
      boatSpeedKn: 0,
      alongTrackKn: 0,
    });
  });
});

const inWind = (id: string, wind: Partial<WindOnCourse> & { sailStateId?: string } = {}): Motion =>
  handle(testBoat, handlingOf(id), {
    sailStateId: 'full-main',
    twsKn: 20,
    windFromDegTrue: 0,
    courseTowardDegTrue: 90,
    ...wind,
  });

describe('handle', () => {
  it('hold the course: as sailCourse', () => {
    const wind = { twsKn: 14, windFromDegTrue: 40, courseTowardDegTrue: 100 };
    expect(inWind('hold-course', wind)).toEqual(sail(wind));
  });

  it('run off: 170° to the wind on the tack nearer the course', () => {
    expect(inWind('run-off', { courseTowardDegTrue: 150 }).headingTowardDegTrue).toBe(170);
    expect(inWind('run-off', { courseTowardDegTrue: 210 }).headingTowardDegTrue).toBe(190);
  });

  it('heave to in 20 kn: slow, drifting to leeward, nearly square to the wind', () => {
    const motion = inWind('heave-to', { courseTowardDegTrue: 90 });
    expect(motion.boatSpeedKn).toBeGreaterThan(0.5);
    expect(motion.boatSpeedKn).toBeLessThan(2);
    // 0.04 × 20 kn of drift to the south, against what she makes north at 50° to the wind.
    const headingNorthKn = motion.boatSpeedKn * Math.cos((50 * Math.PI) / 180);
    expect(motion.velocity.northKn).toBeCloseTo(headingNorthKn - 0.8, 9);
    expect(motion.alongTrackKn).toBeCloseTo(motion.velocity.eastKn, 9);
    expect(motion.offTrackKn).toBeCloseTo(-motion.velocity.northKn, 9);
  });

  it('lie a-hull in 30 kn: no way on, straight to leeward at the published 1.57 kn (Allen & Plourde 1999)', () => {
    const motion = inWind('lie-ahull', { twsKn: 30, sailStateId: 'headsail-only' });
    expect(motion.boatSpeedKn).toBe(0);
    expect(motion.velocity.northKn).toBeCloseTo(-1.569, 3);
    expect(motion.velocity.eastKn).toBeCloseTo(0, 9);
  });

  it('motor to the wind in a calm: 3 kn all the same', () => {
    expect(inWind('motor-to-wind', { twsKn: 0 }).boatSpeedKn).toBe(3);
  });

  it('close reach under headsail: 2 to 4 kn from 8 to 25 kn of wind, never more, nothing in a calm', () => {
    for (const twsKn of [8, 12, 16, 20, 25]) {
      const { boatSpeedKn: speedKn } = inWind('close-reach-headsail', { twsKn, sailStateId: 'headsail-only' });
      expect(speedKn).toBeGreaterThan(1.6);
      expect(speedKn).toBeLessThanOrEqual(4);
    }
    expect(inWind('close-reach-headsail', { twsKn: 0, sailStateId: 'headsail-only' }).boatSpeedKn).toBe(0);
  });

  it('drift on a held course: added to along and across', () => {
    const handling = { ...handlingOf('hold-course'), driftRatio: 0.05 };
    const motion = handle(testBoat, handling, {
      sailStateId: 'full-main',
      twsKn: 20,
      windFromDegTrue: 0,
      courseTowardDegTrue: 90,
    });
    expect(motion.alongTrackKn).toBeCloseTo(9, 9);
    expect(motion.offTrackKn).toBeCloseTo(1, 9);
    expect(motion.velocity.northKn).toBeCloseTo(-1, 9);
  });

  it('any default handling and wind: velocity is along and across the course put together', () => {
    const degrees = fc.double({ min: 0, max: 360, noNaN: true });
    const wind = fc.double({ min: 0, max: 40, noNaN: true });
    const turned = DEFAULT_HANDLINGS.filter(({ heading }) => heading.kind === 'wind-angle');
    fc.assert(
      fc.property(fc.constantFrom(...turned), degrees, degrees, wind, (handling, windFromDegTrue, course, twsKn) => {
        const sailStateId = handling.sailStates[0] ?? 'full-main';
        const motion = handle(testBoat, handling, { sailStateId, twsKn, windFromDegTrue, courseTowardDegTrue: course });
        const overKn = Math.hypot(motion.velocity.eastKn, motion.velocity.northKn);
        expect(Math.hypot(motion.alongTrackKn, motion.offTrackKn)).toBeCloseTo(overKn, 9);
        expect(motion.boatSpeedKn).toBeLessThanOrEqual(handling.speedMostKn);
      }),
      { seed: 6 },
    );
  });
});

describe('default handlings', () => {
  it('heaving to and fore-reaching: in states with a mainsail only', () => {
    for (const id of ['heave-to', 'fore-reach']) {
      for (const { id: stateId, mainsail } of testBoat.sailStates) {
        expect(isHandlingPossible(handlingOf(id), stateId)).toBe(mainsail !== 'none');
      }
    }
  });

  it('without a mainsail there is one that can hoist: the close reach under headsail', () => {
    expect(isHandlingPossible(handlingOf('close-reach-headsail'), 'headsail-only')).toBe(true);
    expect(handlingOf('close-reach-headsail').limits).toEqual({
      trueWindKn: { ideal: 15, caution: 20, noGo: 25 },
      seaHeightM: { ideal: 2, caution: 3, noGo: 3.5 },
    });
  });

  it('ids: each once', () => {
    const ids = DEFAULT_HANDLINGS.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });
});

describe('leeway', () => {
  it('a row by its id or its published name; one the list lacks is null', () => {
    const row = leewayRow('bare-masted');
    expect(row).not.toBeNull();
    expect(leewayRow(row?.name ?? '')).toBe(row);
    expect(leewayRow('raft')).toBeNull();
    expect(row === null ? null : leeway(row, 0)).toEqual({ downwindKn: 0, crossRightKn: 0, crossLeftKn: 0 });
  });
});
