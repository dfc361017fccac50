import { describe, expect, test } from 'vitest';
import { MS_PER_H } from '../../lib/time/index.ts';
import { uniformDraws } from '../../scripts/sample-forecasts/random.ts';
import { drawPattern, patternLaggedKn, patternWindKn, SEA_LAG_H } from '../../scripts/studies/weather-pattern.ts';
import {
  BASE_EPOCH_MS,
  drawForecast,
  drawScenarios,
  drawTruths,
  scenariosOf,
  START_POSITION,
} from '../../scripts/studies/weather.ts';

const pointsAt = (hours: readonly number[]) => ({
  epochMs: Float64Array.from(hours, (hourH) => BASE_EPOCH_MS + hourH * MS_PER_H),
  lat: new Float64Array(hours.length).fill(START_POSITION.lat),
  lon: new Float64Array(hours.length).fill(START_POSITION.lon),
});

const forecast = drawForecast(11, { lengthH: 60, memberCount: 31 });

const sd = (values: readonly number[]): number => {
  const middle = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1));
};

describe('weather pattern', () => {
  test('the sea answers to the wind as a first-order lag: the equation solved step by step', () => {
    const pattern = drawPattern(uniformDraws(3));
    const stepH = 0.01;
    let felt = pattern.meanKn;
    for (let step = -20_000; step < 3000; step++) {
      // The wind at the middle of the step, and what is felt at its two ends on average.
      const wind = patternWindKn(pattern, (step + 0.5) * stepH, 40);
      felt += ((wind - felt) * stepH) / (SEA_LAG_H + stepH / 2);
    }
    expect(patternLaggedKn(pattern, 30, 40)).toBeCloseTo(felt, 5);
  });
});

describe('scenarios of a study', () => {
  test('the same seed: the same weather; another seed: other draws of the same members', () => {
    const at = (seed: number) => drawScenarios(forecast, seed, 40).sampleScenarios(pointsAt([12])).windKn;
    expect(at(5)).toEqual(at(5));
    expect(at(5)).not.toEqual(at(6));
  });

  test('members drift apart with lead', () => {
    const { windKn } = scenariosOf(forecast, forecast.members).sampleScenarios(pointsAt([1, 48]));
    const early = Array.from({ length: 31 }, (_, w) => windKn[2 * w] ?? 0);
    const late = Array.from({ length: 31 }, (_, w) => windKn[2 * w + 1] ?? 0);
    expect(sd(late)).toBeGreaterThan(2 * sd(early));
  });

  test('truths come from the distribution the scenarios do: share of winds below the median, within four standard errors', () => {
    const scenarios = drawScenarios(forecast, 5, 1240).sampleScenarios(pointsAt([30]));
    const truths = scenariosOf(forecast, drawTruths(forecast, 6, 1200)).sampleScenarios(pointsAt([30]));
    for (const [drawn, real] of [
      [scenarios.windKn, truths.windKn],
      [scenarios.seaHeightM, truths.seaHeightM],
    ] as const) {
      const median = drawn.toSorted()[620] ?? 0;
      const share = real.filter((value) => value < median).length / real.length;
      expect(Math.abs(share - 0.5)).toBeLessThan(4 * Math.sqrt(0.25 / 1200 + 0.25 / 1240));
    }
  });

  test('weights are whole and sum to a million', () => {
    expect(drawScenarios(forecast, 5, 31).weights.reduce((sum, weight) => sum + weight, 0)).toBe(1_000_000);
  });
});
