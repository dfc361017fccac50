import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  asleepUnified,
  awakeUnified,
  kssWithInertia,
  simulateAlertness,
  unifiedC,
  unifiedW,
  type AlertnessAt,
} from '../../lib/person/index.ts';
import { MS_PER_H, utcInterval } from '../../lib/time/index.ts';
import { golden } from './golden.ts';

interface Scenario {
  readonly name: string;
  readonly sleepsHour: readonly (readonly [number, number])[];
  readonly samples: readonly {
    readonly hour: number;
    readonly S: number;
    readonly L: number;
    readonly C: number;
    readonly W: number;
    readonly lapses_S_plus_kappaC: number;
  }[];
}

const DIGITS = 1e-4;
const STEPS_PER_H = 12;

/** The reference run has a step of five minutes; its hours are rounded. */
const msAt = (hour: number): number => Math.round(hour * STEPS_PER_H) * (MS_PER_H / STEPS_PER_H);

function run(sleepsHour: readonly (readonly [number, number])[], hours: readonly number[]): readonly AlertnessAt[] {
  const states = simulateAlertness(
    sleepsHour.map(([from, to]) => utcInterval(msAt(from), msAt(to))),
    {
      atEpochMs: hours.map(msAt),
      bodyClock: (epochMs) => (((epochMs / MS_PER_H) % 24) + 24) % 24,
      sleepEfficiencyRatio: 1,
    },
  );
  return states.flatMap((state) => (state === null ? [] : [state]));
}

const { cases } = golden('unified-performance') as { cases: readonly Scenario[] };

describe('unified model of performance (FIPS R package 0.2.1)', () => {
  it.each(cases.map((scenario) => [scenario.name, scenario] as const))('%s: every sample', (_, scenario) => {
    const states = run(
      scenario.sleepsHour,
      scenario.samples.map(({ hour }) => hour),
    );
    const worst = scenario.samples.map((sample, k) => {
      const state = states[k];
      if (state === undefined) throw new Error(`no state at ${sample.hour}`);
      return Math.max(
        Math.abs(state.unified.s - sample.S),
        Math.abs(state.unified.debtLapses - sample.L),
        Math.abs(unifiedC(state.todH) - sample.C),
        Math.abs((state.asleep ? 0 : unifiedW(state.inStateH)) - sample.W),
        Math.abs(state.lapses - sample.lapses_S_plus_kappaC),
      );
    });
    expect(worst.length).toBeGreaterThan(8);
    expect(Math.max(...worst)).toBeLessThan(DIGITS);
  });

  it('any state, any hours: numbers; S and L never leave −2·24.12 … 24.12', () => {
    const lapses = fc.double({ min: -48.24, max: 24.12, noNaN: true });
    const hours = fc.double({ min: 0, max: 400, noNaN: true });
    fc.assert(
      fc.property(lapses, lapses, hours, hours, (s, debtLapses, awakeH, asleepH) => {
        const awake = awakeUnified({ s, debtLapses }, awakeH);
        const asleep = asleepUnified(awake, asleepH);
        for (const value of [awake.s, awake.debtLapses, asleep.s, asleep.debtLapses]) {
          expect(value).toBeGreaterThanOrEqual(-48.24 - 1e-9);
          expect(value).toBeLessThanOrEqual(24.12 + 1e-9);
        }
      }),
      { seed: 5, numRuns: 500 },
    );
  });

  it('awake or asleep in two parts: as in one', () => {
    const state = { s: 3, debtLapses: 1 };
    const awake = awakeUnified(awakeUnified(state, 3), 5);
    expect(awake.s).toBeCloseTo(awakeUnified(state, 8).s, 12);
    expect(awake.debtLapses).toBeCloseTo(awakeUnified(state, 8).debtLapses, 12);
    const asleep = asleepUnified(asleepUnified(state, 1.5), 2);
    expect(asleep.s).toBeCloseTo(asleepUnified(state, 3.5).s, 12);
    expect(asleep.debtLapses).toBeCloseTo(asleepUnified(state, 3.5).debtLapses, 12);
  });
});

/** Sleeps by the hour of each day, after three nights 23–07; rows of the table whose names leave the hours open are left out. */
const PATTERNS: Readonly<Record<string, readonly (readonly [number, number])[]>> = {
  '8h 00-08': [[0, 8]],
  '6h 01-07': [[1, 7]],
  '4.5h 3x90': [
    [1, 2.5],
    [5, 6.5],
    [14, 15.5],
  ],
  '3h 6x30': everyH(4, 0.5),
  '1x6.0 (01-07)': [[1, 7]],
  '1x4.5 (01-05.5)': [[1, 5.5]],
  '1x3.0 (02-05)': [[2, 5]],
  '2x3.0 (02,14)': [
    [2, 5],
    [14, 17],
  ],
  '2x2.25 (02,14)': [
    [2, 4.25],
    [14, 16.25],
  ],
  '3x90min (01,05,14)': [
    [1, 2.5],
    [5, 6.5],
    [14, 15.5],
  ],
  '6x45min each 4h': everyH(4, 0.75),
  '6x30min each 4h (3.0h)': everyH(4, 0.5),
  '8x40min each 3h (5.33h)': everyH(3, 2 / 3),
};

function everyH(periodH: number, lengthH: number): readonly (readonly [number, number])[] {
  return Array.from({ length: Math.round(24 / periodH) }, (_, k) => [k * periodH, k * periodH + lengthH] as const);
}

/** Waking five-minute steps of the n-th day of a pattern. */
function wakingDay(pattern: string, dayNumber: number): readonly AlertnessAt[] {
  const nights = Array.from({ length: 3 }, (_, day) => [24 * day - 1, 24 * day + 7] as const);
  const days = Array.from({ length: dayNumber + 1 }, (_, day) =>
    (PATTERNS[pattern] ?? []).map(([from, to]) => [24 * (day + 3) + from, 24 * (day + 3) + to] as const),
  );
  const hours = Array.from({ length: 24 * STEPS_PER_H }, (_, k) => 24 * (dayNumber + 2) + k / STEPS_PER_H);
  return run([...nights, ...days.flat()], hours).filter(({ asleep }) => !asleep);
}

const mean = (states: readonly AlertnessAt[], of: (state: AlertnessAt) => number): number =>
  states.reduce((sum, state) => sum + of(state), 0) / states.length;

const patterns = golden('sleep-patterns') as {
  chronic: { rows: Readonly<Record<string, readonly (readonly [number, number, number])[]>> };
  strategies: { columns: readonly string[]; rows: Readonly<Record<string, readonly number[]>> };
};

describe('short sleep for two weeks (our own arithmetic, made in another language)', () => {
  it.each(
    Object.entries(patterns.chronic.rows).flatMap(([name, days]) => days.map((day) => [name, day[0], day] as const)),
  )('%s, day %i: mean KSS and mean lapses awake', (name, dayNumber, [, kss, lapses]) => {
    const states = wakingDay(name, dayNumber);
    expect(Math.abs(mean(states, ({ kssPoints }) => kssPoints) - kss)).toBeLessThan(DIGITS);
    expect(Math.abs(mean(states, (state) => state.lapses) - lapses)).toBeLessThan(DIGITS);
  });

  it('4.5 h a day: the sleepiness rating stands still after day four, lapses go on', () => {
    const [day4, day14] = [wakingDay('4.5h 3x90', 4), wakingDay('4.5h 3x90', 14)];
    expect(mean(day14, ({ kssPoints }) => kssPoints) - mean(day4, ({ kssPoints }) => kssPoints)).toBeLessThan(0.1);
    expect(mean(day14, ({ lapses }) => lapses) - mean(day4, ({ lapses }) => lapses)).toBeGreaterThan(3.4);
  });
});

describe('ways to divide sleep, day 7 (our own arithmetic, made in another language)', () => {
  it.each(Object.entries(patterns.strategies.rows).filter(([name]) => name in PATTERNS))('%s', (name, figures) => {
    const states = wakingDay(name, 7);
    const hoursAt = (least: number, of: (state: AlertnessAt) => number): number =>
      states.filter((state) => of(state) >= least).length / STEPS_PER_H;
    const plain = (state: AlertnessAt): number => kssWithInertia({ ...state, w: 0 });
    const got = [
      24 - states.length / STEPS_PER_H,
      mean(states, ({ s }) => s),
      mean(states, plain),
      mean(states, ({ kssFipsPoints }) => kssFipsPoints),
      Math.min(...states.map(({ alertnessPoints }) => alertnessPoints)),
      hoursAt(7, plain),
      hoursAt(7, ({ kssFipsPoints }) => kssFipsPoints),
      hoursAt(8, ({ kssFipsPoints }) => kssFipsPoints),
      mean(states, ({ lapses }) => lapses),
      Math.max(...states.map(({ lapses }) => lapses)),
    ];
    const worst = Math.max(...got.map((value, k) => Math.abs(value - (figures[k] ?? Number.NaN))));
    expect(worst).toBeLessThan(DIGITS);
  });
});
