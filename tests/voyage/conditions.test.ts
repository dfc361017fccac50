import { describe, expect, test } from 'vitest';
import { conditionsAlong, deckWindUnder, LIGHTS, sailNominal } from '../../lib/voyage/index.ts';
import { littleWeather } from '../planner/little-world.ts';
import { boatAt, gridOf, handling, trackThrough } from './sailing-world.ts';

const track = trackThrough([-35, -30], [-35, 0]);
const grid = gridOf(145);
const weather = littleWeather(
  [
    { windKn: () => 20, windFromDegTrue: () => 270, gustKn: () => 26, seaHeightM: () => 2 },
    {
      windKn: (hourH) => (hourH < 12 ? 10 : Number.NaN),
      windFromDegTrue: () => 180,
      gustKn: () => 13,
      seaHeightM: () => 1,
    },
  ],
  48,
);
const sampling = { sampleScenarios: weather.sampleScenarios, sampleReference: weather.sampleReference };
const nominal = sailNominal({
  boat: boatAt(6),
  sailStateId: 'full-main',
  track,
  grid,
  sampleReference: weather.sampleReference,
});
const conditions = conditionsAlong({ course: nominal, boat: boatAt(6), deckHeightM: 2, ...sampling });

describe('conditions along a course', () => {
  test('light is that of the sun there and then', () => {
    // 1 June at 35° S 30° W: sun about overhead's north at 13:58 UTC, down long before midnight UTC+2.
    const at = (hourUtc: number): string => LIGHTS[conditions.light[hourUtc * 6] ?? 3] ?? '';
    expect([at(0), at(6), at(12), at(14), at(18), at(23)]).toEqual(['night', 'night', 'day', 'day', 'day', 'night']);
    // Sunset 18:52 UTC at 35° S on 1 June (declination 22.0° N: half a day is arccos(tan 35° · tan 22.0°) less refraction,
    // 4.95 h) then civil twilight of about half an hour: the light falls through every class in order.
    const evening = [...conditions.light.subarray(18 * 6, 22 * 6)];
    expect(evening).toEqual(evening.toSorted((a, b) => a - b));
    expect(new Set(evening)).toEqual(new Set([0, 1, 2, 3]));
  });

  test('the reference is one scenario', () => {
    expect(conditions.reference.scenarioCount).toBe(1);
    expect(conditions.reference.windKn[0]).toBe(20);
  });

  test('the deck wind of every scenario is kept apart, unknown where the wind is', () => {
    const deck = deckWindUnder(conditions, handling('hold-course'), 'full-main');
    const toDeck = 0.2 ** 0.11;
    expect(deck.meanKn[0]).toBeCloseTo(20 * toDeck - 6, 5);
    expect(deck.gustKn[0]).toBeCloseTo(26 * toDeck - 6, 5);
    expect(deck.meanKn[145]).toBeCloseTo(Math.hypot(10 * toDeck, 6), 5);
    expect(deck.meanKn[145 + 100]).toBeNaN();
    expect(deck.gustKn[145 + 100]).toBeNaN();
  });

  test('is worked out once for each handling and sail state', () => {
    const once = deckWindUnder(conditions, handling('run-off'), 'full-main');
    expect(deckWindUnder(conditions, handling('run-off'), 'full-main')).toBe(once);
    expect(deckWindUnder(conditions, handling('run-off'), 'headsail-only')).not.toBe(once);
  });
});
