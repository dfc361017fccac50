import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  asleepS,
  asleepSAsPublished,
  awakeS,
  circadianC,
  inertiaW,
  kssAboveProbability,
  kssFromAlertness,
  kssWithInertia,
  simulateAlertness,
  ultradianU,
  type RatingPercentile,
} from '../../lib/person/index.ts';
import { MS_PER_H, utcInterval } from '../../lib/time/index.ts';
import { golden } from './golden.ts';

interface UnitCase {
  readonly fn: string;
  readonly args: readonly number[];
  readonly expect: number;
}

interface Sample {
  readonly hour: number;
  readonly S: number;
  readonly C?: number;
  readonly U?: number;
  readonly W?: number;
  readonly awake?: 0 | 1;
  readonly in_state_h?: number;
  readonly alertness_SCU: number;
  readonly KSS_fips: number;
  readonly KSS_5c?: number;
}

interface Scenario {
  readonly name: string;
  readonly startS?: number;
  readonly sleepsHour: readonly (readonly [number, number])[];
  readonly samples: readonly Sample[];
}

const functions: Readonly<Record<string, (a: number, b: number) => number>> = {
  S_wake: (s, elapsedH) => awakeS({ s, elapsedH }),
  S_sleep: (s, elapsedH) => asleepSAsPublished({ s, elapsedH }),
  S_sleep_continuous: (s, elapsedH) => asleepS({ s, elapsedH }),
  C: (todH) => circadianC(todH),
  U: (todH) => ultradianU(todH),
  W: (awakeH) => inertiaW(awakeH),
  KSS_fips: (alertnessPoints) => kssWithInertia({ alertnessPoints, w: 0 }),
  KSS_5c: (alertnessPoints) => kssFromAlertness(alertnessPoints),
};

const DIGITS = 1e-4;
const units = (golden('three-process-units') as { cases: readonly UnitCase[] }).cases;
const scenarios = (golden('three-process-scenarios') as { cases: readonly Scenario[] }).cases;

describe('three-process functions (FIPS R package 0.2.1)', () => {
  it.each(units.map((unit) => [`${unit.fn}(${unit.args.join(', ')})`, unit] as const))('%s', (_, unit) => {
    const value = functions[unit.fn]?.(unit.args[0] ?? Number.NaN, unit.args[1] ?? Number.NaN) ?? Number.NaN;
    expect(Math.abs(value - unit.expect)).toBeLessThan(DIGITS);
  });
});

/** The run has a step of five minutes; its hours are rounded to four decimals or more. */
const msAt = (hour: number): number => Math.round(hour * 12) * (MS_PER_H / 12);

/** Hours of the golden run are body-clock hours: longitude 0, no lag. */
function run(scenario: Scenario): ReturnType<typeof simulateAlertness> {
  const sleeps = scenario.sleepsHour.map(([from, to]) => utcInterval(msAt(from), msAt(to)));
  return simulateAlertness(sleeps, {
    atEpochMs: scenario.samples.map((sample) => msAt(sample.hour)),
    bodyClock: (epochMs) => (epochMs / MS_PER_H) % 24,
    sleepEfficiencyRatio: 1,
    start: { kind: 's', s: scenario.startS ?? 7.96 },
    sleepFormula: scenario.name.endsWith('continuous') ? 'continuous' : 'as-published',
  });
}

/** The continuous variant of the file repeats neither sleeps nor start of the scenario it varies. */
const runnable = scenarios.map((scenario) => ({
  ...scenarios.find((other) => scenario.name.startsWith(other.name)),
  ...Object.fromEntries(Object.entries(scenario).filter(([, value]) => value !== undefined)),
})) as unknown as readonly Scenario[];

describe('simulateAlertness (FIPS R package 0.2.1)', () => {
  it.each(runnable.map((scenario) => [scenario.name, scenario] as const))('%s: every sample', (_, scenario) => {
    const states = run(scenario);
    let worst = 0;
    let asleepAsWanted = true;
    scenario.samples.forEach((sample, index) => {
      const state = states[index];
      if (state === null || state === undefined) throw new Error(`no state at ${sample.hour}`);
      const pairs: readonly [number | undefined, number][] = [
        [sample.S, state.s],
        [sample.C, state.c],
        [sample.U, state.u],
        [sample.W, state.w],
        [sample.in_state_h, state.inStateH],
        [sample.alertness_SCU, state.alertnessPoints],
        [sample.KSS_fips, kssWithInertia({ alertnessPoints: state.alertnessPoints, w: state.w })],
        [sample.KSS_5c, state.kssPoints],
      ];
      for (const [wanted, got] of pairs) if (wanted !== undefined) worst = Math.max(worst, Math.abs(wanted - got));
      asleepAsWanted &&= sample.awake === undefined || state.asleep === (sample.awake === 0);
    });
    expect(scenario.samples.length).toBeGreaterThan(10);
    expect(worst).toBeLessThan(DIGITS);
    expect(asleepAsWanted).toBe(true);
  });

  it('an instant before the first sleep: no state', () => {
    const states = simulateAlertness([utcInterval(MS_PER_H, 2 * MS_PER_H)], {
      atEpochMs: [0, MS_PER_H],
      bodyClock: () => 0,
      sleepEfficiencyRatio: 1,
    });
    expect(states.map((state) => state?.asleep)).toEqual([undefined, true]);
  });

  it('start by alertness: S + C + U is 8.38 when the first sleep begins', () => {
    const [state] = simulateAlertness([utcInterval(23 * MS_PER_H, 30 * MS_PER_H)], {
      atEpochMs: [23 * MS_PER_H],
      bodyClock: (epochMs) => (epochMs / MS_PER_H) % 24,
      sleepEfficiencyRatio: 1,
      start: { kind: 'alertness', alertnessPoints: 8.38 },
    });
    expect(state?.alertnessPoints).toBeCloseTo(8.38, 10);
  });

  it('sleep efficiency 0.85: eight hours in the bunk recover as 6.8 hours of sleep', () => {
    const [state] = simulateAlertness([utcInterval(0, 8 * MS_PER_H)], {
      atEpochMs: [8 * MS_PER_H],
      bodyClock: () => 8,
      sleepEfficiencyRatio: 0.85,
    });
    expect(state?.s).toBeCloseTo(asleepS({ s: 7.96, elapsedH: 6.8 }), 12);
  });
});

describe('asleepS', () => {
  const anyS = fc.double({ min: 2.5, max: 14.2, noNaN: true });
  const anyH = fc.double({ min: 0, max: 14, noNaN: true });

  it('sleep in two parts without waking: ends where one sleep of the same length does', () => {
    fc.assert(
      fc.property(anyS, anyH, anyH, (s, firstH, secondH) => {
        const inParts = asleepS({ s: asleepS({ s, elapsedH: firstH }), elapsedH: secondH });
        expect(inParts).toBeCloseTo(asleepS({ s, elapsedH: firstH + secondH }), 9);
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  it('more sleep: never less S, never above the upper asymptote', () => {
    fc.assert(
      fc.property(anyS, anyH, anyH, (s, h, moreH) => {
        const after = asleepS({ s, elapsedH: h + moreH });
        expect(after).toBeGreaterThanOrEqual(asleepS({ s, elapsedH: h }) - 1e-12);
        expect(after).toBeLessThanOrEqual(14.3);
      }),
      { seed: 2, numRuns: 300 },
    );
  });

  it('sleep begun at 13: starts at 13, where the published formula to the letter drops to 12.8653', () => {
    expect(asleepS({ s: 13, elapsedH: 0 })).toBe(13);
    expect(asleepSAsPublished({ s: 13, elapsedH: 0 })).toBeCloseTo(12.8653, 4);
  });
});

describe('kssAboveProbability (Ingre et al. 2014, eq. 1.16-1.17, second hand)', () => {
  const cases = (
    golden('kss-probability') as {
      cases: readonly { X: number; k: number; percentile: RatingPercentile; expect: number }[];
    }
  ).cases;

  it.each(cases)('alertness $X, above $k, percentile $percentile: $expect', (of) => {
    const probability = kssAboveProbability({ alertnessPoints: of.X, k: of.k, percentile: of.percentile });
    expect(Math.abs(probability - of.expect)).toBeLessThan(DIGITS);
  });

  it('a step outside 1 to 8: our mistake', () => {
    expect(() => kssAboveProbability({ alertnessPoints: 7, k: 9, percentile: 50 })).toThrow('no step above 9');
  });
});
