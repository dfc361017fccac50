import { describe, expect, it } from 'vitest';
import { sampleReference, seriesAt } from '../../lib/forecast/index.ts';
import { knFromMps } from '../../lib/units/index.ts';
import { atH, coursePoints, type Field, forecastOf, isWithin, message, setOf, wind } from './sample-fields.ts';

const sample = (messages: readonly Uint8Array[], ...stepsH: readonly number[]) =>
  sampleReference(
    setOf(forecastOf(...messages)),
    coursePoints(...stepsH.map((stepH) => [stepH, -34.5, 179.5] as const)),
  );

const rainOver = (startH: number, endH: number, mm: number, more: Partial<Field> = {}): Uint8Array =>
  message({ kind: 'rainSum', stepsH: [startH, endH], statistic: 'accumulation', value: mm, ...more });

/** Every value within a thousandth, or both missing. */
function expectAll(values: ArrayLike<number>, expected: readonly number[]): void {
  expect(values.length).toBe(expected.length);
  for (const [i, value] of expected.entries()) expect(isWithin(1e-3, values[i], value)).toBe(true);
}

describe('instants', () => {
  const messages = [...wind(0, 10, 0), ...wind(6, -2, 0)];

  it('between two steps: components are linear, so that a wind that turns passes through calm', () => {
    expectAll(sample(messages, 0, 3, 5, 6).windKn, [10, 4, 0, 2].map(knFromMps));
  });

  it('before the first and after the last step: missing', () => {
    expectAll(sample(messages, -0.01, 6.01).windKn, [Number.NaN, Number.NaN]);
  });

  it('a gap of more than 12 h: missing inside, and said', () => {
    const gap = [...wind(0, 10, 0), ...wind(13, 10, 0)];
    expectAll(sample(gap, 0, 6, 13).windKn, [knFromMps(10), Number.NaN, knFromMps(10)]);
    expect(forecastOf(...gap).notes.join()).toContain('(13 h); these hours are unknown');
  });

  it('a gap of 12 h: bridged', () => {
    expectAll(sample([...wind(0, 10, 0), ...wind(12, 4, 0)], 6).windKn, [knFromMps(7)]);
  });
});

describe('gusts', () => {
  const mean = [...wind(0, 10, 0), ...wind(6, 10, 0)];

  it('highest of an interval: holds over all of it, and is not averaged with the next', () => {
    const gusts = [
      message({ kind: 'gust', stepsH: [0, 3], value: 15 }),
      message({ kind: 'gust', stepsH: [3, 6], value: 25 }),
    ];
    expectAll(sample([...mean, ...gusts], 0, 2.9, 3, 4.5, 6).gustKn, [15, 15, 25, 25, 25].map(knFromMps));
  });

  it('at an instant: linear between steps', () => {
    const gusts = [
      message({ kind: 'gust', stepsH: [0], value: 15 }),
      message({ kind: 'gust', stepsH: [6], value: 21 }),
    ];
    expectAll(sample([...mean, ...gusts], 0, 2).gustKn, [15, 17].map(knFromMps));
  });

  it('of one hour in six: estimated in the five nobody looked at', () => {
    const gusts = [message({ kind: 'gust', stepsH: [5, 6], value: 25 })];
    expectAll(sample([...mean, ...gusts], 2, 5.5).gustKn, [1.3 * knFromMps(10), knFromMps(25)]);
  });

  it('of the last hour only, in steps of 3 h: held for that hour, null in the others, and said', () => {
    const hourly = [1, 2, 3].map((end) => message({ kind: 'gust', stepsH: [end - 1, end], value: 15 }));
    const threeHourly = [6, 9, 12].map((end) => message({ kind: 'gust', stepsH: [end - 1, end], value: 20 }));
    const forecast = forecastOf(...wind(0, 10, 0), ...wind(12, 10, 0), ...hourly, ...threeHourly);
    const rows = seriesAt(forecast, {
      position: { lat: -34.5, lon: 179.5 },
      fromEpochMs: atH(0.5),
      toEpochMs: atH(11.5),
      everyMin: 60,
    });
    const gusts = rows.map(({ readings }) => readings.find(({ key }) => key === 'gustKn')?.control ?? null);
    const known = (mps: number): number => knFromMps(mps);
    expectAll(
      gusts.map((value) => value ?? Number.NaN),
      [15, 15, 15, NaN, NaN, 20, NaN, NaN, 20, NaN, NaN, 20].map(known),
    );
    expect(forecast.notes).toEqual([
      'gust: known for 1 of every 3 hours from 2026-05-27T03:00Z to 2026-05-27T12:00Z; the hours between are unknown.',
    ]);
  });

  it('maxima that follow one another without a gap, or overlap: nothing is said', () => {
    const growing = [3, 6].map((end) => message({ kind: 'gust', stepsH: [0, end], value: 15 }));
    const next = message({ kind: 'gust', stepsH: [6, 9], value: 15 });
    expect(forecastOf(...wind(0, 10, 0), ...wind(9, 10, 0), ...growing, next).notes).toEqual([]);
  });

  it('one gap, and many of different lengths: told, and counted', () => {
    const gust = (start: number, end: number) => message({ kind: 'gust', stepsH: [start, end], value: 15 });
    const notesOf = (...gusts: readonly Uint8Array[]) =>
      forecastOf(...wind(0, 10, 0), ...wind(12, 10, 0), ...gusts).notes;
    expect(notesOf(gust(0, 3), gust(5, 6))).toEqual([
      'gust: nothing between 2026-05-27T03:00Z and 2026-05-27T05:00Z (2 h); these hours are unknown.',
    ]);
    const uneven = [gust(0, 1), gust(2, 3), gust(5, 6), gust(9, 10), gust(14, 15), gust(20, 21)];
    expect(notesOf(...uneven)).toEqual([
      'gust: nothing for 15 of 20 h between 2026-05-27T01:00Z and 2026-05-27T21:00Z; these hours are unknown.',
    ]);
  });

  it('in no file: the larger of 1.3 × mean and mean + 3 kn, and said', () => {
    const set = setOf(forecastOf(...wind(0, 5, 0), ...wind(6, 1, 0)));
    const { gustKn } = sampleReference(set, coursePoints([0, -34, 180], [6, -34, 180]));
    expectAll(gustKn, [Math.max(1.3 * knFromMps(5), knFromMps(5) + 3), knFromMps(1) + 3]);
    expect(set.gustIsEstimated).toBe(true);
    expect(set.notes.join()).toContain('gust: estimated');
  });
});

describe('rain', () => {
  it('sums of separate intervals: each over its own', () => {
    expectAll(sample([rainOver(0, 6, 12), rainOver(6, 9, 12)], 1, 5.9, 6, 8.9).rainMmPerH, [2, 2, 4, 4]);
  });

  it('sums from the start of the run: the difference over each step', () => {
    expectAll(sample([rainOver(0, 3, 3), rainOver(0, 6, 9), rainOver(0, 12, 9)], 1, 4, 9).rainMmPerH, [1, 2, 0]);
  });

  it('buckets of 6 h written every 3 h: the second half is what was added', () => {
    const buckets = [rainOver(0, 3, 3), rainOver(0, 6, 4.5), rainOver(6, 9, 6), rainOver(6, 12, 6)];
    expectAll(sample(buckets, 1, 4, 7, 10).rainMmPerH, [1, 0.5, 2, 0]);
  });

  it('0/1/52 in template 4.0 is a rate, in 4.8 accumulated a sum', () => {
    const rate = message({ kind: 'rainRateOrSum', stepsH: [0], value: 0.001, decimals: 6 });
    const sum = message({ kind: 'rainRateOrSum', stepsH: [0, 6], statistic: 'accumulation', value: 12 });
    expectAll(sample([rate], 0).rainMmPerH, [3.6]);
    expectAll(sample([sum], 1).rainMmPerH, [2]);
  });

  it('a mean rate: over its interval', () => {
    const mean = message({ kind: 'rainRateOrSum', stepsH: [0, 6], statistic: 'average', value: 0.001, decimals: 6 });
    expectAll(sample([mean], 0, 5, 6).rainMmPerH, [3.6, 3.6, 3.6]);
  });
});

describe('units at the door', () => {
  it('pressure, temperatures, period, visibility: hPa, °C, s, nm', () => {
    const weather = sample(
      [
        message({ kind: 'pressure', stepsH: [0], value: 101_325, decimals: 0 }),
        message({ kind: 'air', stepsH: [0], value: 288.15 }),
        message({ kind: 'seaWater', stepsH: [0], value: 273.15 }),
        message({ kind: 'peakPeriod', stepsH: [0], value: 9 }),
        // Two nautical miles of 1852 m (BIPM, SI brochure).
        message({ kind: 'visibility', stepsH: [0], value: 3704, decimals: 0 }),
        message({ kind: 'waveFrom', stepsH: [0], value: 225 }),
      ],
      0,
    );
    expectAll(weather.pressureHpa, [1013.25]);
    expectAll(weather.airC, [15]);
    expectAll(weather.seaWaterC, [0]);
    expectAll(weather.wavePeriodS, [9]);
    expectAll(weather.waveFromDegTrue, [225]);
    expectAll(weather.visibilityNm, [2]);
  });

  it('a visibility the forecast does not hold: not a number', () => {
    const weather = sample([message({ kind: 'air', stepsH: [0], value: 288.15 })], 0);
    expect([...weather.visibilityNm]).toEqual([Number.NaN]);
  });

  it('wind as speed and direction of a wave model: the same wind', () => {
    const polar = [
      message({ kind: 'speed', stepsH: [0], value: 8 }),
      message({ kind: 'fromDirection', stepsH: [0], value: 300 }),
    ];
    const { windKn, windFromDegTrue } = sample(polar, 0);
    expectAll(windKn, [knFromMps(8)]);
    expectAll(windFromDegTrue, [300]);
  });
});
