/** Start and stop numbers: the strictest of steps and handling, on the deck and at the instrument. */
import { describe, expect, test } from 'vitest';
import type { Handling } from '../../lib/boat/index.ts';
import { startStopNumbers } from '../../lib/planner/index.ts';
import { littlePassage, littleStep, onlyNoGo } from './little-world.ts';

const { boat } = littlePassage([]);
const checked = { boat, deckHeightM: 2 };

/** A boat that lies still: wind at a height is the power law alone. */
const still = (noGoKn: number, rest: Partial<Handling> = {}): Handling => ({
  id: 'still',
  name: 'Lie still',
  sailStates: ['full-main'],
  heading: { kind: 'wind-angle', twaDeg: 90 },
  speedRatio: 0,
  speedLeastKn: 0,
  speedMostKn: 0,
  driftRatio: 0,
  settleMin: 0,
  limits: { trueWindKn: onlyNoGo(noGoKn), seaHeightM: onlyNoGo(4) },
  provenance: 'invented',
  ...rest,
});
const part = (handling: Handling | null, limits: Parameters<typeof littleStep>[2], id = 'a') => ({
  steps: [littleStep(id, 30, limits)],
  handling,
  sailStateId: 'full-main',
});

// Hsu, Meindl and Gilhousen (1994), J. Appl. Meteorol. 33: u2 = u1 (z2/z1)^0.11 over the sea; by hand:
// 10 m to 2 m: 0.2^0.11 = 0.8377; 2 m to 18 m: 9^0.11 = 1.2734; 10 m to 18 m: 1.8^0.11 = 1.0668.
describe('startStopNumbers', () => {
  test('a step of 20 kn on deck: 20 and 25 at 18 m; start at 0.8 of it on deck, 16 and 20', () => {
    const { start, stop } = startStopNumbers([part(still(40), { deckWindKn: onlyNoGo(20) })], checked);
    // 20 × 1.2734 = 25.47; 16 × 1.2734 = 20.37: rounded down.
    expect([stop.deckWindKn, stop.instrumentWindKn]).toEqual([20, 25]);
    expect([start.deckWindKn, start.instrumentWindKn]).toEqual([16, 20]);
  });

  test('a handling that ends before the step does: its true wind, brought to deck and instrument, binds', () => {
    const { start, stop } = startStopNumbers([part(still(20), { deckWindKn: onlyNoGo(25) })], checked);
    // 20 × 0.8377 = 16.75; 20 × 1.0668 = 21.34; 16 × 0.8377 = 13.40; 16 × 1.0668 = 17.07.
    expect([stop.deckWindKn, stop.instrumentWindKn]).toEqual([16, 21]);
    expect([start.deckWindKn, start.instrumentWindKn]).toEqual([13, 17]);
    expect(stop.trueWindKn).toBeNull();
  });

  test('a handling that holds the course has no one wind angle: its true wind stands by itself', () => {
    const { start, stop } = startStopNumbers(
      [part(still(20, { heading: { kind: 'course' } }), { deckWindKn: onlyNoGo(25) })],
      checked,
    );
    // 25 × 1.2734 = 31.84
    expect([stop.instrumentWindKn, stop.trueWindKn, start.trueWindKn]).toEqual([31, 20, 16]);
  });

  test('several parts: the strictest of each, whichever part it comes from', () => {
    const { stop } = startStopNumbers(
      [
        part(still(40), { deckWindKn: onlyNoGo(26), deckGustNoGoKn: 30, seaHeightM: onlyNoGo(4.5) }),
        part(still(40), { deckWindKn: onlyNoGo(25), deckGustNoGoKn: 32, seaHeightM: onlyNoGo(5) }, 'b'),
      ],
      checked,
    );
    // The sea is the handling's, 4 m; 30 × 1.2734 = 38.20.
    expect(stop).toMatchObject({ deckWindKn: 25, deckGustKn: 30, instrumentGustKn: 38, seaM: 4 });
  });

  test('never rounded up: 3.2 m stays 3.2, 0.8 of 3.2 m is 2.5', () => {
    const { start, stop } = startStopNumbers([part(null, { seaHeightM: onlyNoGo(3.2) })], checked);
    expect([stop.seaM, start.seaM]).toEqual([3.2, 2.5]);
  });

  test('no limits and no handling: nothing is asked', () => {
    const { start, stop } = startStopNumbers([part(null, {})], checked);
    const nothing = {
      instrumentWindKn: null,
      deckWindKn: null,
      instrumentGustKn: null,
      deckGustKn: null,
      seaM: null,
      trueWindKn: null,
    };
    expect({ start, stop }).toEqual({ start: nothing, stop: nothing });
  });
});
