import { describe, expect, it } from 'vitest';
import { deckWindKn, sailCourse, trueWindForDeckKn, windOnBoard } from '../../lib/boat/index.ts';
import { apparentWind, velocityToward } from '../../lib/weather/index.ts';
import { testBoat } from './test-boat.ts';

describe('wind over the deck: what sailors say (common practice, no source)', () => {
  it.each([7, 7.5, 8])(
    'running at %s kn in 20 kn true: 12 to 13 kn across the deck, all at one height',
    (boatSpeedKn) => {
      const overKn = deckWindKn({ twsKn: 20, twaDeg: 180, boatSpeedKn, heightM: 10 });
      expect(overKn).toBeGreaterThanOrEqual(12);
      expect(overKn).toBeLessThanOrEqual(13);
    },
  );

  it.each([7, 7.5, 8])('the same at %s kn felt 2 m above the deck: 8.8 to 9.8 kn', (boatSpeedKn) => {
    const overKn = deckWindKn({ twsKn: 20, twaDeg: 180, boatSpeedKn, heightM: 2 });
    expect(overKn).toBeGreaterThanOrEqual(8.75);
    expect(overKn).toBeLessThanOrEqual(9.8);
  });

  it('close-hauled in 20 kn: beyond 18 kn over the deck', () => {
    const { twaDeg, boatSpeedKn } = sailCourse(testBoat, 'full-main', {
      twsKn: 20,
      windFromDegTrue: 0,
      courseTowardDegTrue: 0,
    });
    expect(deckWindKn({ twsKn: 20, twaDeg, boatSpeedKn, heightM: 2 })).toBeGreaterThan(18);
  });
});

describe('deckWindKn', () => {
  it('height first, then the vectors: 20 kn dead astern at 7.5 kn is 9.7 kn at 2.5 m, 14.6 kn at 25 m', () => {
    // 20 × (2.5 / 10)^0.11 = 17.17; less 7.5. 20 × 2.5^0.11 = 22.12; less 7.5 (Hsu et al. 1994; by hand).
    expect(deckWindKn({ twsKn: 20, twaDeg: 180, boatSpeedKn: 7.5, heightM: 2.5 })).toBeCloseTo(9.67, 2);
    expect(deckWindKn({ twsKn: 20, twaDeg: 180, boatSpeedKn: 7.5, heightM: 25 })).toBeCloseTo(14.62, 2);
  });

  it('scaling the apparent wind instead would be wrong: the two differ by kn off the wind', () => {
    const right = deckWindKn({ twsKn: 20, twaDeg: 180, boatSpeedKn: 7.5, heightM: 2 });
    const wrong = apparentWind({ twsKn: 20, twaDeg: 180, boatSpeedKn: 7.5 }).awsKn * 0.838;
    expect(Math.abs(right - wrong)).toBeGreaterThan(1);
  });
});

describe('windOnBoard', () => {
  it('no current: the speed of deckWindKn, the direction turned toward the bow', () => {
    const velocity = velocityToward({ speedKn: 6, towardDegTrue: 0 });
    const felt = windOnBoard({ windKn: 15, windFromDegTrue: 90 }, { heightM: 2, velocity });
    expect(felt.windKn).toBeCloseTo(deckWindKn({ twsKn: 15, twaDeg: 90, boatSpeedKn: 6, heightM: 2 }), 9);
    expect(felt.windFromDegTrue).toBeLessThan(90);
  });

  it('a current: boat through the water and water over the ground together move her under the wind', () => {
    const through = velocityToward({ speedKn: 6, towardDegTrue: 0 });
    const current = velocityToward({ speedKn: 2, towardDegTrue: 90 });
    const over = { eastKn: through.eastKn + current.eastKn, northKn: through.northKn + current.northKn };
    const wind = { windKn: 15, windFromDegTrue: 250 };
    const felt = windOnBoard(wind, { heightM: 10, velocity: through, current });
    const same = windOnBoard(wind, { heightM: 10, velocity: over });
    expect(felt.windKn).toBeCloseTo(same.windKn, 9);
    expect(felt.windFromDegTrue).toBeCloseTo(same.windFromDegTrue, 9);
  });
});

describe('trueWindForDeckKn', () => {
  it('a limit over the deck: the true wind that just reaches it', () => {
    for (const sailing of [
      { twaDeg: 170, boatSpeedKn: 6, heightM: 2 },
      { twaDeg: 60, boatSpeedKn: 5, heightM: 2 },
      { twaDeg: 0, boatSpeedKn: 3, heightM: 20 },
    ]) {
      const twsKn = trueWindForDeckKn({ ...sailing, deckWindKn: 15 }) ?? NaN;
      expect(deckWindKn({ ...sailing, twsKn })).toBeCloseTo(15, 9);
    }
  });

  it('a boat that makes more wind than that by herself: null', () => {
    expect(trueWindForDeckKn({ twaDeg: 0, boatSpeedKn: 6, heightM: 2, deckWindKn: 5 })).toBeNull();
    expect(trueWindForDeckKn({ twaDeg: 90, boatSpeedKn: 6, heightM: 2, deckWindKn: 5 })).toBeNull();
  });
});
