import { describe, expect, it } from 'vitest';
import {
  adjustScenarioSet,
  type CoursePoints,
  type Forecast,
  sampleReference,
  sampleScenarioPressure,
  sampleScenarios,
  type ScenarioSet,
  type WeatherAlong,
} from '../../lib/forecast/index.ts';
import { knFromMps } from '../../lib/units/index.ts';
import { coursePoints, type Field, forecastOf, isWithin, message, setOf, wind } from './sample-fields.ts';

/** Steady weather for five days: every difference between scenarios is drawn. */
function steady(of: { windMps: number; seaM: number; members?: number }): Forecast {
  const stepsH = Array.from({ length: 21 }, (_, k) => 6 * k);
  const members: Partial<Field>[] =
    of.members === undefined ? [{}] : Array.from({ length: of.members }, (_, i) => ({ member: i + 1 }));
  return forecastOf(
    ...members.flatMap((more) =>
      stepsH.flatMap((stepH) => [
        ...wind(stepH, of.windMps, 0, more),
        message({ ...more, kind: 'seaHeight', stepsH: [stepH], value: of.seaM }),
      ]),
    ),
  );
}

const at = (stepH: number): CoursePoints => coursePoints([stepH, -34.5, 179.5]);
const valuesAt = (values: Float32Array, weather: WeatherAlong, i: number): number[] =>
  Array.from({ length: weather.scenarioCount }, (_, w) => values[w * weather.pointCount + i] ?? Number.NaN);

function momentsOf(values: readonly number[]): { mean: number; sd: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return { mean, sd: Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length) };
}

function correlationOf(a: readonly number[], b: readonly number[]): number {
  const [ma, mb] = [momentsOf(a), momentsOf(b)];
  return a.reduce((sum, x, i) => sum + (x - ma.mean) * ((b[i] ?? 0) - mb.mean), 0) / (a.length * ma.sd * mb.sd);
}

const sumOf = (set: ScenarioSet): number => set.weights.reduce((sum, weight) => sum + weight, 0);
const single = steady({ windMps: 15, seaM: 4 });

describe('weights', () => {
  const members = steady({ windMps: 10, seaM: 2, members: 3 });

  it.each([
    ['one forecast at its word', single, { errorModel: 'none' as const }, 1],
    ['one forecast for planning', single, { errorModel: 'default' as const }, 64],
    ['one forecast for reporting', single, { errorModel: 'default' as const, purpose: 'reporting' as const }, 1024],
    ['three members as given', members, { errorModel: 'none' as const }, 3],
    ['three members dressed for planning', members, { errorModel: 'default' as const }, 3],
    ['three members, 1 024 draws', members, { errorModel: 'default' as const, purpose: 'reporting' as const }, 1024],
    ['seven draws', members, { errorModel: 'default' as const, drawCount: 7 }, 7],
    ['fewer draws than members', members, { errorModel: 'default' as const, drawCount: 2 }, 2],
  ])('%s: sum to 1 000 000, none empty', (_, forecast, options, count) => {
    const set = setOf(forecast, options);
    expect(set.scenarioCount).toBe(count);
    expect(sumOf(set)).toBe(1_000_000);
    expect(set.weights.every((weight) => weight > 0)).toBe(true);
  });

  it('1 024 draws of three members: every member weighs a third', () => {
    const set = setOf(members, { errorModel: 'default', purpose: 'reporting' });
    const byMember = new Map<string, number>();
    for (const [w, source] of set.sources.entries())
      byMember.set(source.memberId, (byMember.get(source.memberId) ?? 0) + (set.weights[w] ?? 0));
    for (const weight of byMember.values()) expect(Math.abs(weight - 1_000_000 / 3)).toBeLessThan(1);
  });
});

describe('one forecast with the default error', () => {
  const reporting = setOf(single, { errorModel: 'default', purpose: 'reporting' });

  // Figures of our default error model: lead, wind [m/s], height for a 4 m sea [m], direction [°].
  it.each([
    [0, 1.2, 0.54, 17],
    [24, 1.3, 0.69, 22],
    [72, 1.92, 1.0, 32],
    [120, 2.77, 1.32, 42],
  ])('lead %d h: the standard deviations of the error table', (leadH, windMps, seaM, directionDeg) => {
    const weather = sampleScenarios(reporting, at(leadH));
    const windMoments = momentsOf(valuesAt(weather.windKn, weather, 0));
    const seaMoments = momentsOf(valuesAt(weather.seaHeightM, weather, 0));
    const turns = valuesAt(weather.windFromDegTrue, weather, 0).map(
      (fromDegTrue) => ((fromDegTrue - 270 + 540) % 360) - 180,
    );
    // 4 %: the table has three digits, and 1 024 draws of several parts do not cancel completely.
    expect(Math.abs(windMoments.mean - knFromMps(15))).toBeLessThan(0.04 * knFromMps(windMps));
    expect(Math.abs(windMoments.sd / knFromMps(windMps) - 1)).toBeLessThan(0.04);
    expect(Math.abs(seaMoments.mean - 4)).toBeLessThan(0.05 * seaM);
    expect(Math.abs(seaMoments.sd / seaM - 1)).toBeLessThan(0.04);
    expect(Math.abs(momentsOf(turns).sd / directionDeg - 1)).toBeLessThan(0.04);
  });

  it('wind and sea: correlated by 0.6', () => {
    const weather = sampleScenarios(reporting, at(48));
    const windKn = valuesAt(weather.windKn, weather, 0);
    expect(Math.abs(correlationOf(windKn, valuesAt(weather.seaHeightM, weather, 0)) - 0.6)).toBeLessThan(0.06);
  });

  it('six hours apart: the error is much the same; days apart: half of it has gone', () => {
    const weather = sampleScenarios(
      reporting,
      coursePoints([48, -34.5, 179.5], [54, -34.5, 179.5], [120, -34.5, 179.5]),
    );
    const [a, b, c] = [0, 1, 2].map((i) => valuesAt(weather.windKn, weather, i));
    // 0.7² + (1 − 0.7²)·e^(−Δt/24 h): 0.887 and 0.515.
    expect(Math.abs(correlationOf(a ?? [], b ?? []) - (0.49 + 0.51 * Math.exp(-6 / 24)))).toBeLessThan(0.05);
    expect(Math.abs(correlationOf(a ?? [], c ?? []) - (0.49 + 0.51 * Math.exp(-72 / 24)))).toBeLessThan(0.08);
  });

  it('between nodes of the drift: no less spread than at them', () => {
    const sdAt = (stepH: number): number => {
      const weather = sampleScenarios(reporting, at(stepH));
      return momentsOf(valuesAt(weather.windKn, weather, 0)).sd;
    };
    expect(Math.abs(sdAt(51) / ((sdAt(48) + sdAt(54)) / 2) - 1)).toBeLessThan(0.03);
  });

  it('an air almost calm and a sea almost flat: never below 1 kn and 0.2 m', () => {
    const set = setOf(steady({ windMps: 0.2, seaM: 0.1 }), { errorModel: 'default', purpose: 'reporting' });
    const weather = sampleScenarios(set, at(48));
    expect(Math.min(...weather.windKn)).toBe(1);
    expect(isWithin(1e-6, Math.min(...weather.seaHeightM), 0.2)).toBe(true);
  });

  it('wind that rises by 5.8 kn in 6 h: drawn early on average, and never earlier than the forecast holds', () => {
    const ramp = forecastOf(...[0, 12, 24, 36, 48, 60].flatMap((stepH) => wind(stepH, 5 + stepH / 2, 0)));
    const set = setOf(ramp, { errorModel: 'default', purpose: 'reporting' });
    const weather = sampleScenarios(set, coursePoints([36, -34.5, 179.5], [60, -34.5, 179.5]));
    const { mean } = momentsOf(valuesAt(weather.windKn, weather, 0));
    // Lead 36 h: timing sd 3.25 h, rising by 1/2 m/s per hour: 0.3 × 3.25 h early.
    expect(Math.abs(mean - knFromMps(5 + (36 + 0.3 * 3.25) / 2))).toBeLessThan(0.1);
    expect(valuesAt(weather.windKn, weather, 1).every((value) => !Number.isNaN(value))).toBe(true);
  });

  it('beyond the last step: missing in every scenario', () => {
    expect(sampleScenarios(reporting, at(120.1)).windKn.every(Number.isNaN)).toBe(true);
  });

  it('no waves in any file: unknown in every scenario, not guessed from the wind', () => {
    const set = setOf(forecastOf(...wind(0, 10, 0), ...wind(6, 10, 0)), { errorModel: 'default' });
    expect(sampleScenarios(set, at(3)).seaHeightM.every(Number.isNaN)).toBe(true);
  });
});

describe('gusts of drawn winds', () => {
  const gusty = forecastOf(
    ...[0, 6].flatMap((stepH) => [...wind(stepH, 10, 0), message({ kind: 'gust', stepsH: [stepH], value: 14 })]),
  );

  it('from 8 kn on: the same ratio to the mean, and 2 kn above it at least', () => {
    const weather = sampleScenarios(setOf(gusty, { errorModel: 'default' }), at(3));
    for (const [i, windKn] of weather.windKn.entries())
      expect(isWithin(0.01, weather.gustKn[i], Math.max(1.4 * windKn, windKn + 2))).toBe(true);
  });
});

describe('common random numbers', () => {
  const options = { errorModel: 'default' as const };

  it('the same options: the same weather to the last bit', () => {
    expect(sampleScenarios(setOf(single, options), at(30))).toEqual(sampleScenarios(setOf(single, options), at(30)));
  });

  it('a point asked about alone or among others: the same weather', () => {
    const set = setOf(single, options);
    const among = sampleScenarios(set, coursePoints([60, -35, 178.5], [30, -34.5, 179.5], [0, -33, 181]));
    const alone = sampleScenarios(set, at(30));
    expect(valuesAt(among.windKn, among, 1)).toEqual(valuesAt(alone.windKn, alone, 0));
    expect(valuesAt(among.seaHeightM, among, 1)).toEqual(valuesAt(alone.seaHeightM, alone, 0));
  });

  it('another seed, another purpose: other weather', () => {
    const windOf = (more: object): Float32Array =>
      sampleScenarios(setOf(single, { ...options, ...more }), at(30)).windKn;
    expect(windOf({ seed: 2 })).not.toEqual(windOf({}));
    expect(windOf({ purpose: 'reporting', drawCount: 64 })).not.toEqual(windOf({}));
  });
});

/** Three members of 5, 10 and 15 m/s and a control of 30; gust only in the control. */
const ensembleOf = (more: readonly Uint8Array[] = []): Forecast =>
  forecastOf(
    ...[0, 6, 12].flatMap((stepH) => [
      ...[1, 2, 3].flatMap((member) => wind(stepH, 5 * member, 0, { member })),
      ...wind(stepH, 30, 0, { isControl: true }),
      message({ kind: 'gust', stepsH: [stepH], value: 35, isControl: true }),
    ]),
    ...more,
  );

describe('an ensemble', () => {
  it('taken at its word: the members as they are, the control not counted, gust borrowed from it', () => {
    const set = setOf(ensembleOf());
    const weather = sampleScenarios(set, at(6));
    expect(valuesAt(weather.windKn, weather, 0).map((value) => Math.round(value * 100) / 100)).toEqual(
      [5, 10, 15].map((speedMps) => Math.round(knFromMps(speedMps) * 100) / 100),
    );
    expect(set.kind).toBe('ensemble');
    expect(set.borrowed).toEqual(['gust']);
    expect(set.notes.join()).toContain('the control run is not counted');
    expect(set.notes.join()).toContain('gust: borrowed from the control run');
    expect(isWithin(0.01, weather.gustKn[0], knFromMps(35))).toBe(true);
  });

  it('a control alone, or one member alone: a single forecast', () => {
    expect(setOf(forecastOf(...wind(0, 10, 0, { isControl: true }))).kind).toBe('single');
    const lonely = setOf(forecastOf(...wind(0, 10, 0, { member: 4 })));
    expect([lonely.kind, lonely.scenarioCount, lonely.sources[0]?.memberId]).toEqual(['single', 1, 'member-04']);
  });

  it('dressed: level, sea and direction by the error at lead 0, at any lead', () => {
    const set = setOf(steady({ windMps: 15, seaM: 4, members: 3 }), { errorModel: 'default', purpose: 'reporting' });
    const weather = sampleScenarios(set, at(72));
    expect(Math.abs(momentsOf(valuesAt(weather.windKn, weather, 0)).sd / knFromMps(1.2) - 1)).toBeLessThan(0.04);
    expect(Math.abs(momentsOf(valuesAt(weather.seaHeightM, weather, 0)).sd / Math.hypot(0.25, 0.48) - 1)).toBeLessThan(
      0.04,
    );
    expect(Math.abs(momentsOf(valuesAt(weather.windFromDegTrue, weather, 0)).sd / 12 - 1)).toBeLessThan(0.04);
  });

  it('spread inflated by 1.2: members that much further from their mean; taken at its word: not', () => {
    const spreadOf = (options: object): number => {
      const set = setOf(ensembleOf(), options);
      const source = set.sources.map(({ wind: series }) => series?.frames[0]?.first[0] ?? Number.NaN);
      return (source[2] ?? Number.NaN) - (source[0] ?? Number.NaN);
    };
    expect(isWithin(0.001, spreadOf({ errorModel: 'default', spreadInflationRatio: 1.2 }), knFromMps(12))).toBe(true);
    expect(isWithin(0.001, spreadOf({ spreadInflationRatio: 1.2 }), knFromMps(10))).toBe(true);
  });

  it('the reference: the control, or the mean of the members without one', () => {
    const withControl = sampleReference(setOf(ensembleOf()), at(6));
    const without = sampleReference(
      setOf(forecastOf(...[1, 2, 3].flatMap((member) => wind(0, 5 * member, 0, { member })))),
      at(0),
    );
    expect(isWithin(0.01, withControl.windKn[0], knFromMps(30))).toBe(true);
    expect(isWithin(0.01, without.windKn[0], knFromMps(10))).toBe(true);
    expect(withControl.scenarioCount).toBe(1);
  });
});

describe('what the boat has seen', () => {
  const front = forecastOf(
    ...[0, 6, 12].flatMap((stepH) => [
      ...wind(stepH, 5 + stepH, 0),
      message({ kind: 'pressure', stepsH: [stepH], value: 101_000 - 100 * stepH, decimals: 0 }),
    ]),
  );

  it('a front two hours early: weather is read two hours later, pressure too, instead of the drawn timing', () => {
    const set = setOf(front, { errorModel: 'none' });
    const seen = adjustScenarioSet(set, { shiftH: Float64Array.of(-2), note: 'the front is 2 h early' });
    expect(isWithin(0.01, sampleScenarios(seen, at(6)).windKn[0], knFromMps(13))).toBe(true);
    expect(isWithin(0.01, sampleScenarioPressure(seen, at(6))[0], 1002)).toBe(true);
    expect(isWithin(0.01, sampleScenarioPressure(set, at(6))[0], 1004)).toBe(true);
    expect(seen.notes.at(-1)).toBe('the front is 2 h early');
  });

  it('weights that do not sum to 1 000 000: our own mistake', () => {
    expect(() => adjustScenarioSet(setOf(front), { weights: Int32Array.of(999_999), note: '' })).toThrow('999999');
  });
});
