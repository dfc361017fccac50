import { describe, expect, it } from 'vitest';
import { sampleScenarios, type ScenarioSet } from '../../lib/forecast/index.ts';
import { adjustByLog, type ComparedForecast, matchForecast, matchText, type SeenWeather } from '../../lib/log/index.ts';
import { commonBias } from '../../lib/log/match/common-bias.ts';
import { countShares } from '../../lib/log/match/count-shares.ts';
import { posteriorOf } from '../../lib/log/match/posterior.ts';
import { shiftAtShareH, shiftShares, SHIFTS_H } from '../../lib/log/match/shifts.ts';
import { atHourEpochMs, everyH, laterFronts, readingsOf, setOfForecast } from './match-readings.ts';

const forecast = laterFronts(0);
const set = setOfForecast(forecast);

function compared(seen: readonly SeenWeather[], options = {}): ComparedForecast {
  const match = matchForecast(set, seen, options);
  if (match.kind !== 'compared') throw new Error(match.reason);
  return match;
}

const sumOf = (values: Iterable<number>): number => [...values].reduce((sum, value) => sum + value, 0);

describe('commonBias', () => {
  // Two readings of 12 and 9 about a prior of 1 ± 2: the integral over the shared amount by the trapezoidal rule.
  const differences = [
    { value: 12, errorSd: 3, countShare: 1 },
    { value: 9, errorSd: 2, countShare: 0.5 },
  ];
  const heightAt = (bias: number): number =>
    Math.exp(-(((bias - 1) / 2) ** 2) / 2) *
    differences.reduce(
      (product, { value, errorSd, countShare }) =>
        product * (Math.exp(-(((value - bias) / errorSd) ** 2) / 2) / errorSd) ** countShare,
      1 / (2 * Math.sqrt(2 * Math.PI)),
    );
  const steps = Array.from({ length: 8001 }, (_, k) => -20 + k / 200);
  const whole = sumOf(steps.map(heightAt)) / 200;

  it('a shared normal amount: likelihood, mean and spread of numerical integration', () => {
    const { logWeight, bias } = commonBias({ differences, prior: { value: 1, biasSd: 2 } });
    const mean = sumOf(steps.map((step) => step * heightAt(step))) / 200 / whole;
    const square = sumOf(steps.map((step) => (step - mean) ** 2 * heightAt(step))) / 200 / whole;
    expect(logWeight).toBeCloseTo(Math.log(whole), 6);
    expect(bias.value).toBeCloseTo(mean, 6);
    expect(bias.biasSd).toBeCloseTo(Math.sqrt(square), 6);
  });

  it('a shared amount known exactly: stays what it is', () => {
    expect(commonBias({ differences, prior: { value: 1, biasSd: 0 } }).bias).toEqual({ value: 1, biasSd: 0 });
  });

  it('many differences all alike: as far off as their mean is, not averaged away', () => {
    const alike = Array.from({ length: 20 }, () => ({ value: 8, errorSd: 3, countShare: 1 }));
    const { distanceSd } = commonBias({ differences: alike, prior: { value: 0, biasSd: 2 } });
    expect(distanceSd).toBeCloseTo(8 / Math.hypot(2, 3 / Math.sqrt(20)), 6);
  });
});

describe('countShares', () => {
  it.each([
    ['one alone', [0], 1],
    ['two at once', [0, 0], 1],
    ['two 3 h apart', [0, 3], 2],
    ['two an hour and a half apart', [0, 1.5], 4 / 3],
  ])('%s: worth %s', (_, hoursH, worth) => {
    expect(sumOf(countShares(hoursH.map(atHourEpochMs)))).toBeCloseTo(worth, 9);
  });

  it('a day of hourly readings: worth about one every three hours', () => {
    expect(Math.abs(sumOf(countShares(everyH(0, 23, 1).map(atHourEpochMs))) - 8)).toBeLessThan(1);
  });
});

describe('shiftShares', () => {
  it.each([1, 2.5, 4])('timing error of %s h: its spread is kept by the shifts drawn', (timingSdH) => {
    const shares = shiftShares(timingSdH);
    const drawn = Array.from({ length: 4000 }, (_, k) => shiftAtShareH(shares, (k + 0.5) / 4000));
    expect(sumOf(shares)).toBeCloseTo(1, 12);
    expect(sumOf(drawn) / 4000).toBeCloseTo(0, 6);
    // 3 %: shifts end at 12 h, three standard deviations at the most.
    expect(Math.abs(Math.sqrt(sumOf(drawn.map((h) => h * h)) / 4000) / timingSdH - 1)).toBeLessThan(0.03);
  });
});

describe('matchForecast', () => {
  it.each([-6, -3, 0, 3])('a front %s h later, read every 3 h: found within 1 h, agreement good', (laterH) => {
    const match = compared(readingsOf(laterFronts(laterH), everyH(15, 36, 3)));
    expect(Math.abs(match.timing.shiftH - laterH)).toBeLessThan(1);
    expect(match.timing.isShown).toBe(true);
    expect(match.agreement).toBe('good');
  });

  it('an early front, a strong wind and a barometer that reads high: one line says it', () => {
    const seen = readingsOf(laterFronts(-3), everyH(12, 36, 3), (one) => ({
      ...one,
      windKn: one.windKn + 2,
      pressureHpa: one.pressureHpa + 1.9,
    }));
    const [line = '', counted = ''] = matchText(compared(seen));
    expect(line).toMatch(
      /^Front about 3 h early \(± 1 h\); wind 2 kn over forecast; .*barometer reads 1\.[6-9] hPa high; agreement good \(n = 9\)\.$/,
    );
    expect(counted).toContain('9 readings from 2026-06-01T12:00Z to 2026-06-02T12:00Z, worth 9.0 independent ones');
  });

  it('steady weather: the timing is not shown, and is said so', () => {
    const seen = readingsOf(forecast, [50]).map(({ epochMs, lat, lon, pressureHpa = 0 }) => ({
      epochMs,
      lat,
      lon,
      pressureHpa,
    }));
    const match = compared(seen);
    expect(match.timing.isShown).toBe(false);
    expect(matchText(match)[0]).toContain('iming not shown by these readings');
  });

  it('a barometer known to read 6 hPa high: that is taken off, and does not speak against the forecast', () => {
    const seen = readingsOf(forecast, everyH(12, 36, 6), (one) => ({ ...one, pressureHpa: one.pressureHpa + 6 }));
    const known = compared(seen, { barometer: { offsetHpa: 6, offsetSdHpa: 0.3 } });
    expect(known.barometer?.offsetHpa).toBeCloseTo(6, 1);
    expect(known.quantities.find(({ quantity }) => quantity === 'pressure')?.typicalDifference.value).toBeLessThan(1);
    expect(Math.abs(known.timing.shiftH)).toBeLessThan(0.5);
  });

  it('wind 15 kn over and 90° off all day: poor, errors widened, half of the weight unweighted, and said', () => {
    const seen = readingsOf(forecast, everyH(12, 36, 3), (one) => ({
      ...one,
      windKn: one.windKn + 15,
      windFromDegTrue: (one.windFromDegTrue + 90) % 360,
    }));
    const match = compared(seen);
    expect(match.agreement).toBe('poor');
    expect(matchText(match).at(-1)).toContain('Trust windows less');
    const adjusted = adjustByLog(set, match);
    expect(adjusted.errors?.sizes.windSdKn(24)).toBeCloseTo(1.3 * (set.errors?.sizes.windSdKn(24) ?? 0), 9);
    expect(adjusted.notes.join(' ')).toContain('50 % of the weight stays with the forecast as it was');
    for (const [w, weight] of adjusted.weights.entries())
      expect(weight).toBeGreaterThan(0.5 * (set.weights[w] ?? 0) * 0.999);
  });

  it.each([
    ['nothing logged', [], 'no-readings', 'no wind, pressure or sea was read'],
    [
      'a reading before the forecast begins',
      [{ epochMs: atHourEpochMs(-5), lat: -35, lon: -30, windKn: 10 }],
      'outside-forecast',
      'the forecast holds none of the 1 reading',
    ],
    [
      'a reading far from its grid',
      [{ epochMs: atHourEpochMs(20), lat: 10, lon: 40, pressureHpa: 1010 }],
      'outside-forecast',
      'the forecast holds none',
    ],
  ])('%s: nothing to compare, and the set stays as it is', (_, seen, reason, words) => {
    const match = matchForecast(set, seen);
    expect(match.kind === 'nothing-to-compare' && match.reason).toBe(reason);
    expect(matchText(match).join()).toContain(words);
    expect(adjustByLog(set, match).weights).toEqual(set.weights);
    expect(adjustByLog(set, match).seenShiftH).toBeNull();
  });

  it('readings in another order, the same set twice: the same answer', () => {
    const seen = readingsOf(laterFronts(-3), everyH(12, 36, 6));
    const [once, again] = [adjustByLog(set, compared(seen)), adjustByLog(set, compared(seen.toReversed()))];
    expect(again.weights).toEqual(once.weights);
    expect(again.seenShiftH).toEqual(once.seenShiftH);
  });
});

describe('adjustByLog', () => {
  const early = compared(readingsOf(laterFronts(-3), everyH(12, 36, 3)));
  const adjusted = adjustByLog(set, early);
  const meanShiftH = (of: ScenarioSet): number =>
    sumOf((of.seenShiftH ?? []).map((h, w) => (h * (of.weights[w] ?? 0)) / 1e6));

  it('weights: whole, sum 1 000 000, each at least a tenth of what it was', () => {
    expect(sumOf(adjusted.weights)).toBe(1_000_000);
    for (const [w, weight] of adjusted.weights.entries()) {
      expect(Number.isInteger(weight)).toBe(true);
      expect(weight).toBeGreaterThan(0.1 * (set.weights[w] ?? 0) * 0.999);
    }
  });

  it('effective number of scenarios (Kish 1965, Survey Sampling): a quarter of them at least', () => {
    const worth = 1e12 / sumOf(Array.from(adjusted.weights, (weight) => weight * weight));
    expect(worth).toBeGreaterThan(128 / 4);
  });

  it('a front 3 h early: scenarios shifted by about 3 h, in the nine tenths that follow the log', () => {
    expect(Math.abs(meanShiftH(adjusted) + 0.9 * 3)).toBeLessThan(0.8);
    expect(adjusted.referenceShiftH).toBeCloseTo(0.9 * early.timing.shiftH, 9);
  });

  it('a wind read 5 kn over: stronger by its lasting part two days later, less than it was read', () => {
    const over = compared(readingsOf(forecast, everyH(12, 36, 3), (one) => ({ ...one, windKn: one.windKn + 5 })));
    const meanKn = (of: ScenarioSet): number => {
      const points = {
        epochMs: Float64Array.of(atHourEpochMs(90)),
        lat: Float64Array.of(-35),
        lon: Float64Array.of(-30),
      };
      return sumOf(sampleScenarios(of, points).windKn.map((kn, w) => (kn * (of.weights[w] ?? 0)) / 1e6));
    };
    const gainKn = meanKn(adjustByLog(set, over)) - meanKn(set);
    expect(gainKn).toBeGreaterThan(0.5);
    expect(gainKn).toBeLessThan(4);
  });

  it('one slip of the pen among nine readings: the others decide', () => {
    const seen = readingsOf(laterFronts(-3), everyH(12, 36, 3));
    const slipped = seen.map((one, i) => (i === 4 ? { ...one, windKn: (one.windKn ?? 0) + 40 } : one));
    expect(Math.abs(meanShiftH(adjustByLog(set, { ...early, seen: slipped })) - meanShiftH(adjusted))).toBeLessThan(
      0.7,
    );
  });

  it('a forecast taken at its word: left alone, and said', () => {
    const single = setOfForecast(forecast, { errorModel: 'none' });
    const left = adjustByLog(single, early);
    expect(left.weights).toEqual(single.weights);
    expect(left.seenShiftH).toBeNull();
    expect(left.notes.at(-1)).toContain('taken at its word');
  });
});

describe('posteriorOf', () => {
  const weights = Int32Array.from({ length: 100 }, () => 10_000);
  const shares = shiftShares(2);
  const logsOf = (log: (w: number, shiftH: number) => number): Float64Array =>
    Float64Array.from({ length: 100 * SHIFTS_H.length }, (_, i) =>
      log(Math.floor(i / SHIFTS_H.length), SHIFTS_H[i % SHIFTS_H.length] ?? 0),
    );
  const asked = { weights, shiftShares: shares, unweightedShare: 0.1, seed: 1 };

  it('readings that tell nothing: weights as they were, shifts as the timing error spreads them', () => {
    const { weights: after, shiftH, temperRatio } = posteriorOf({ ...asked, logs: logsOf(() => 0) });
    expect(after).toEqual(weights);
    expect(temperRatio).toBe(1);
    expect(Math.abs(Math.sqrt(sumOf(shiftH.map((h) => h * h)) / 100) - 2)).toBeLessThan(0.1);
  });

  it('one scenario that alone fits: tempered, so that a quarter of them still count', () => {
    const { temperRatio, effectiveCount } = posteriorOf({ ...asked, logs: logsOf((w) => -0.5 * w * w) });
    expect(temperRatio).toBeLessThan(1);
    expect(effectiveCount).toBeGreaterThanOrEqual(25);
  });

  it('no scenario that fits at all (logs of −10 000): still whole weights and finite shifts', () => {
    const { weights: after, shiftH } = posteriorOf({ ...asked, logs: logsOf((w, h) => -10_000 - w - h * h) });
    expect(sumOf(after)).toBe(1_000_000);
    expect(shiftH.every(Number.isFinite)).toBe(true);
  });
});
