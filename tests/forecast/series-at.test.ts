import { describe, expect, it } from 'vitest';
import { seriesAt } from '../../lib/forecast/index.ts';
import { knFromMps } from '../../lib/units/index.ts';
import { atH, forecastOf, isWithin, message, wind } from './sample-fields.ts';

describe('seriesAt', () => {
  const forecast = forecastOf(
    ...[0, 6].flatMap((stepH) => [
      ...wind(stepH, 0, -10),
      ...Array.from({ length: 11 }, (_, i) => wind(stepH, 0, -(5 + i), { member: i + 1 })).flat(),
      message({ kind: 'waveFrom', stepsH: [stepH], value: 225 }),
      message({ kind: 'pressure', stepsH: [stepH], value: 100_000, decimals: 0 }),
    ]),
  );
  const question = { position: { lat: -34.2, lon: 179.3 }, fromEpochMs: atH(0), toEpochMs: atH(9), everyMin: 180 };
  const rows = seriesAt(forecast, question);
  const readingOf = (rowIndex: number, key: string) => rows[rowIndex]?.readings.find((reading) => reading.key === key);

  it('both ends included, every three hours', () => {
    expect(rows.map(({ epochMs }) => epochMs)).toEqual([0, 3, 6, 9].map(atH));
  });

  it('control in kn and degrees the wind blows from, waves come from', () => {
    expect(isWithin(1e-3, readingOf(1, 'windKn')?.control ?? Number.NaN, knFromMps(10))).toBe(true);
    expect(isWithin(1e-3, readingOf(1, 'windFromDegTrue')?.control ?? Number.NaN, 0)).toBe(true);
    expect(isWithin(1e-3, readingOf(1, 'waveFromDegTrue')?.control ?? Number.NaN, 225)).toBe(true);
    expect(isWithin(1e-3, readingOf(1, 'pressureHpa')?.control ?? Number.NaN, 1000)).toBe(true);
  });

  it('members 5 to 15 m/s: 6, 10 and 14 at 10, 50 and 90 %', () => {
    const members = readingOf(0, 'windKn')?.members;
    expect(isWithin(1e-3, members?.p10, knFromMps(6))).toBe(true);
    expect(isWithin(1e-3, members?.p50, knFromMps(10))).toBe(true);
    expect(isWithin(1e-3, members?.p90, knFromMps(14))).toBe(true);
    expect(readingOf(0, 'windFromDegTrue')?.members).toBeNull();
  });

  it('beyond the last step: null, not a guess; a quantity not held: no column', () => {
    expect(readingOf(3, 'windKn')).toMatchObject({ control: null, members: null, unit: 'kn' });
    expect(readingOf(0, 'gustKn')).toBeUndefined();
  });
});
