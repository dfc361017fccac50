import { describe, expect, it } from 'vitest';
import {
  adjustScenarioSet,
  sampleReference,
  sampleScenarioPressure,
  sampleScenarios,
  type ScenarioSet,
  widenErrors,
} from '../../lib/forecast/index.ts';
import { thinScenarios } from '../../lib/forecast/thin-scenarios.ts';
import { weightedMean } from '../../lib/planner/weighted-mean.ts';
import { atH, coursePoints, forecastOf, message, setOf, wind } from '../forecast/sample-fields.ts';

// Pressure falls by 1 hPa an hour: what a scenario reads less than the forecast is the hours it is early.
const falling = forecastOf(
  ...Array.from({ length: 21 }, (_, k) => 6 * k).flatMap((stepH) => [
    ...wind(stepH, 8, 0),
    message({ kind: 'pressure', stepsH: [stepH], value: 104_000 - 100 * stepH, decimals: 0 }),
  ]),
);
const set = setOf(falling, { errorModel: 'default', purpose: 'reporting', drawCount: 512 });
const at = (stepH: number) => coursePoints([stepH, -34.5, 179.5]);

function laterH(of: ScenarioSet, stepH: number): { mean: number; sd: number } {
  const shifts = Array.from(sampleScenarioPressure(of, at(stepH)), (hpa) => hpa - (1040 - stepH));
  const total = of.weights.reduce((sum, weight) => sum + weight, 0);
  const mean = shifts.reduce((sum, shift, w) => sum + (shift * (of.weights[w] ?? 0)) / total, 0);
  const square = shifts.reduce((sum, shift, w) => sum + ((shift - mean) ** 2 * (of.weights[w] ?? 0)) / total, 0);
  return { mean, sd: Math.sqrt(square) };
}

const seenAt = (shiftH: Float64Array): ScenarioSet =>
  adjustScenarioSet(set, { shiftH, seenAtEpochMs: atH(24), note: 'seen' });

describe('a shift seen at lead 24 h', () => {
  const early = seenAt(new Float64Array(512).fill(-3));

  // Timing error of the model: 1 + 1.5 h a day, 2.5 h at 24 h and 5.5 h at 72 h.
  it('seen for certain: stays as it is afterwards, and only what the timing error grows by is drawn', () => {
    expect(laterH(early, 24).mean).toBeCloseTo(-3, 2);
    expect(laterH(early, 24).sd).toBeLessThan(0.02);
    expect(Math.abs(laterH(early, 72).mean + 3)).toBeLessThan(0.1);
    expect(Math.abs(laterH(early, 72).sd / Math.sqrt(5.5 ** 2 - 2.5 ** 2) - 1)).toBeLessThan(0.03);
  });

  it('before it was seen: smaller as the timing error is smaller', () => {
    expect(laterH(early, 12).mean).toBeCloseTo((-3 * 1.75) / 2.5, 2);
  });

  it('not seen at all, the shift drawn as the timing error is: every spread as it was', () => {
    const other = setOf(falling, { errorModel: 'default', purpose: 'reporting', drawCount: 512, seed: 9 });
    const drawn = seenAt(Float64Array.from(other.errors?.draws.timing ?? [], (z) => 2.5 * z));
    for (const stepH of [12, 24, 48, 72]) {
      expect(Math.abs(laterH(drawn, stepH).mean)).toBeLessThan(0.1);
      // 5 %: two independent sets of 512 draws do not add up exactly.
      expect(Math.abs(laterH(drawn, stepH).sd / laterH(set, stepH).sd - 1)).toBeLessThan(0.05);
    }
  });
});

describe('the reference run', () => {
  it('a shift of −3 h: read 3 h later, pressure too; without it as it is', () => {
    const shifted = adjustScenarioSet(set, { referenceShiftH: -3, note: '' });
    expect(sampleReference(shifted, at(24)).pressureHpa[0]).toBeCloseTo(1040 - 27, 2);
    expect(sampleReference(set, at(24)).pressureHpa[0]).toBeCloseTo(1040 - 24, 2);
  });
});

describe('widenErrors', () => {
  it('errors 1.5 times as large: timing spread that much wider, the forecast in the middle', () => {
    const wider = widenErrors(set, 1.5);
    expect(laterH(wider, 48).sd / laterH(set, 48).sd).toBeCloseTo(1.5, 2);
    expect(Math.abs(laterH(wider, 48).mean)).toBeLessThan(0.1);
  });
});

describe('thinScenarios', () => {
  it('512 of unequal weight: 64 at most that stand for them in mean and spread', () => {
    const weights = Int32Array.from({ length: 512 }, (_, w) => (w % 4 === 0 ? 5_200 : 871));
    weights[0] = (weights[0] ?? 0) + 1_000_000 - weights.reduce((sum, weight) => sum + weight, 0);
    const uneven = adjustScenarioSet(set, { weights, note: '' });
    const thin = thinScenarios(uneven, 64);
    expect(thin.scenarioCount).toBeLessThanOrEqual(64);
    expect(thin.weights.reduce((sum, weight) => sum + weight, 0)).toBe(1_000_000);
    expect(Math.abs(laterH(thin, 48).mean - laterH(uneven, 48).mean)).toBeLessThan((3 * 4) / Math.sqrt(64));
    expect(sampleScenarios(thin, at(30)).windKn).toHaveLength(thin.scenarioCount);
  });

  it('every one that is left: the same weather as before', () => {
    const thin = thinScenarios(set, 64);
    const before = new Set(sampleScenarios(set, at(30)).windKn);
    for (const windKn of sampleScenarios(thin, at(30)).windKn) expect(before.has(windKn)).toBe(true);
  });

  it('a set that has no more: left alone', () => {
    expect(thinScenarios(set, 512)).toBe(set);
  });
});

describe('weightedMean', () => {
  it('equal weights: mean and s/√n of the textbook', () => {
    // 2, 4, 4, 6: mean 4, sample standard deviation √(8/3).
    const { value, errorSd } = weightedMean([2, 4, 4, 6].map((one) => ({ weight: 3, value: one })));
    expect(value).toBe(4);
    expect(errorSd).toBeCloseTo(Math.sqrt(8 / 3) / 2, 12);
  });

  it('unequal weights: counts weight, not groups, and nearly all weight in one group is nearly no more than one', () => {
    const one = weightedMean([
      { weight: 998, value: 1 },
      { weight: 1, value: 0 },
      { weight: 1, value: 0 },
    ]);
    expect(one.value).toBeCloseTo(0.998, 12);
    expect(weightedMean([{ weight: 5, value: 1 }]).errorSd).toBe(0);
    expect(
      weightedMean([
        { weight: 5, value: 1 },
        { weight: 0, value: 0 },
      ]).value,
    ).toBe(1);
  });
});
