import { describe, expect, it } from 'vitest';
import { humidityPercent } from '../../lib/forecast/humidity.ts';
import { buildForecast, type Forecast, sampleReference, seriesAt } from '../../lib/forecast/index.ts';
import {
  atH,
  coursePoints,
  type Field,
  fileOf,
  forecastOf,
  GRID,
  isWithin,
  type Kind,
  message,
  setOf,
} from './sample-fields.ts';

describe('humidityPercent', () => {
  // MetPy 1.4, examples of relative_humidity_from_dewpoint (25, 12 °C) and dewpoint_from_relative_humidity (10 °C, 50 %).
  // It has Bolton's constants; from −10 to 45 °C ours differ from them by 0.19 points at most.
  it.each([
    [25, 12, 44.2484765],
    [10, 0.047900916, 50],
  ])('air %d °C, dew point %d °C: as MetPy, %d %%', (airC, dewPointC, expected) => {
    expect(isWithin(0.2, humidityPercent({ airC, dewPointC }), expected)).toBe(true);
  });

  // Saturation vapour pressure [kPa] of table 2.3 of FAO Irrigation and drainage paper 56 (1998), from memory; they are
  // those of its equation 11.
  const saturationKpa = { 5: 0.872, 10: 1.228, 15: 1.705, 20: 2.338, 25: 3.168, 30: 4.243, 35: 5.623, 40: 7.376 };
  const rows = Object.entries(saturationKpa).map(([tempC, kpa]) => ({ tempC: Number(tempC), kpa }));
  it.each(rows)('air 40 °C, dew point $tempC °C: the ratio of the table', ({ tempC, kpa }) => {
    const expected = (100 * kpa) / saturationKpa[40];
    expect(Math.abs(humidityPercent({ airC: 40, dewPointC: tempC }) / expected - 1)).toBeLessThan(0.005);
  });

  it('dew point at the air temperature, or above it: 100 %', () => {
    expect(humidityPercent({ airC: 17.3, dewPointC: 17.3 })).toBe(100);
    expect(humidityPercent({ airC: 17.3, dewPointC: 17.4 })).toBe(100);
  });

  it('either missing: not a number', () => {
    expect(humidityPercent({ airC: Number.NaN, dewPointC: 5 })).toBeNaN();
    expect(humidityPercent({ airC: 5, dewPointC: Number.NaN })).toBeNaN();
  });
});

const at2M = (kind: Kind, stepH: number, value: Field['value'], more: Partial<Field> = {}): Uint8Array =>
  message({ ...more, kind, stepsH: [stepH], value });
const air = (stepH: number, airC: number, more: Partial<Field> = {}) => at2M('air', stepH, airC + 273.15, more);
const dew = (stepH: number, dewC: number, more: Partial<Field> = {}) => at2M('dewPoint', stepH, dewC + 273.15, more);

const humidityAt = (forecast: Forecast, ...stepsH: readonly number[]): number[] => [
  ...sampleReference(setOf(forecast), coursePoints(...stepsH.map((stepH) => [stepH, -34.5, 179.5] as const)))
    .humidityRatio,
];
const variantOf = (forecast: Forecast) =>
  forecast.coverage.find(({ quantity }) => quantity === 'humidity')?.variant ?? null;
const expectHumidity = (forecast: Forecast, stepH: number, expectedPercent: number): void =>
  expect(isWithin(0.002, humidityAt(forecast, stepH)[0], expectedPercent / 100)).toBe(true);

describe('humidity of a forecast', () => {
  it('relative humidity [%]: a ratio along a course, linear between steps', () => {
    const forecast = forecastOf(at2M('humidity', 0, 60), at2M('humidity', 6, 90));
    expect(humidityAt(forecast, 0, 2, 6).map((ratio) => Math.round(ratio * 1000) / 1000)).toEqual([0.6, 0.7, 0.9]);
    expect(humidityAt(forecast, 7)).toEqual([Number.NaN]);
    expect(variantOf(forecast)).toBe('at 2 m');
  });

  it('in a series at a place: in percent, after the air', () => {
    const [row] = seriesAt(forecastOf(at2M('humidity', 0, 83.25), air(0, 30)), {
      position: { lat: -34.5, lon: 179.5 },
      fromEpochMs: atH(0),
      toEpochMs: atH(0),
      everyMin: 60,
    });
    expect(row?.readings.map(({ key }) => key)).toEqual(['airC', 'humidityPercent']);
    expect(row?.readings[1]).toMatchObject({ control: 83.25, unit: '%' });
  });

  it('neither humidity nor dew point in the file: not a number, and named among what is missing', () => {
    const forecast = forecastOf(air(0, 30));
    expect(humidityAt(forecast, 0)).toEqual([Number.NaN]);
    expect(forecast.missing).toContain('humidity');
  });

  it('dew point and air temperature: humidity, whichever comes first in the file', () => {
    for (const messages of [
      [dew(0, 12), air(0, 25)],
      [air(0, 25), dew(0, 12)],
    ]) {
      const forecast = forecastOf(...messages);
      expectHumidity(forecast, 0, 44.2484765);
      expect(variantOf(forecast)).toBe('from dew point and air temperature at 2 m');
      expect(forecast.missing).not.toContain('humidity');
      expect(forecast.problems).toEqual([]);
      expect(isWithin(1e-3, sampleReference(setOf(forecast), coursePoints([0, -34.5, 179.5])).airC[0], 25)).toBe(true);
    }
  });

  it('relative humidity beside them: it is taken', () => {
    expectHumidity(forecastOf(air(0, 25), dew(0, 12), at2M('humidity', 0, 80)), 0, 80);
  });

  it('relative humidity beside more hours of dew point without air temperature: it is taken, and that is said', () => {
    const forecast = forecastOf(at2M('humidity', 0, 80), ...[0, 1, 2, 3, 4].map((stepH) => dew(stepH, 12)));
    expectHumidity(forecast, 0, 80);
    expect(forecast.notes).toEqual([
      'relative humidity at 2 m: 5 fields of dew point are left out, because the air temperature at 2 m is not there with them.',
    ]);
  });

  it('dew point without air temperature at one hour, and alone: unknown', () => {
    expect(humidityAt(forecastOf(air(0, 25), dew(0, 12), dew(6, 12)), 6)).toEqual([Number.NaN]);
    const alone = forecastOf(message({ kind: 'pressure', stepsH: [0], value: 1e5, decimals: 0 }), dew(0, 12));
    expect(alone.missing).toContain('humidity');
    expect(alone.notes.join()).toContain('1 fields of dew point are left out');
  });

  it('air temperature taken from a finer grid than the dew point: left out, with the reason', () => {
    const fine = { ...GRID, ni: 9, nj: 7, iIncrementDeg: 0.5, jIncrementDeg: 0.5 };
    const forecast = forecastOf(air(0, 25), dew(0, 12), air(0, 26, { grid: fine }));
    expect(forecast.missing).toContain('humidity');
    expect(forecast.problems.map(({ code }) => code)).toEqual(['forecast.part-missing']);
  });

  it('members: each of its own air and dew point, then their mean', () => {
    const members = [1, 2].flatMap((member) => [air(0, 25, { member }), dew(0, member === 1 ? 12 : 25, { member })]);
    expectHumidity(forecastOf(...members), 0, (44.2484765 + 100) / 2);
  });

  it('cropped to a box: the same values inside it', () => {
    const grid = { ...GRID, ni: 36, nj: 19, first: { lat: -90, lon: 0 }, iIncrementDeg: 10, jIncrementDeg: 10 };
    const bytes = fileOf(
      at2M('air', 0, (lat) => 303 + lat / 10, { grid }),
      at2M('dewPoint', 0, (lat, lon) => 280 + lat / 20 + lon / 100, { grid }),
    );
    const place = { lat: -34.5, lon: 179.5 };
    const around = { southWest: place, northEast: place };
    const [whole, cropped] = [{}, { around }].map((options) => buildForecast([{ name: 'world', bytes }], options));
    if (whole?.ok !== true || cropped?.ok !== true) throw new Error('the file is good');
    const [expected = Number.NaN] = humidityAt(whole.value, 0);
    expect(expected).toBeGreaterThan(0.1);
    expect(isWithin(1e-6, humidityAt(cropped.value, 0)[0], expected)).toBe(true);
  });
});
