import { describe, expect, it } from 'vitest';
import {
  BASE_EPOCH_MS,
  CONTROL_FILE,
  CONTROL_RUN,
  MEMBERS_FILE,
} from '../../scripts/sample-forecasts/build-samples.ts';
import { memberErrorAt } from '../../scripts/sample-forecasts/member-errors.ts';
import { sampleGrid, type SamplePoint } from '../../scripts/sample-forecasts/sample-grid.ts';
import { controlWeather, memberWeather, type PatternWeather } from '../../scripts/sample-forecasts/weather-pattern.ts';
import { knFromMps, wrap180Deg, windFromUv } from '../../lib/units/index.ts';
import { codeOf, findField, leadHOf, openSample, type OpenSample, valuesOf } from './sample-file.ts';

const [U, V, GUST, SEA, PERIOD, WAVE_FROM, PRESSURE, RAIN, AIR, SEA_WATER] = [
  '0/2/2',
  '0/2/3',
  '0/2/22',
  '10/0/3',
  '10/0/34',
  '10/0/14',
  '0/3/1',
  '0/1/52',
  '0/0/0',
  '10/3/0',
] as const;

const control = openSample(CONTROL_FILE);
const members = openSample(MEMBERS_FILE);
const MEMBERS = Array.from({ length: 20 }, (_, i) => i + 1);

const indexOf = (points: readonly SamplePoint[], lat: number, lon: number): number =>
  points.findIndex((point) => point.lat === lat && point.lon === lon);

/** Wind [kn and degrees true] at one grid point as our reader finds it. */
function windAt(sample: OpenSample, at: { leadH: number; member?: number; index: number }) {
  const value = (code: string): number => valuesOf(sample, findField(sample, { ...at, code }))[at.index] ?? Number.NaN;
  const { speed, fromDegTrue } = windFromUv(value(U), value(V));
  return { windKn: knFromMps(speed), fromDegTrue };
}

describe('control run', () => {
  it('field list: eleven quantities every three hours to 192 h, gust and rain over each interval', () => {
    const leadsByCode = new Map<string, number[]>();
    for (const field of control.fields) {
      leadsByCode.set(codeOf(field), [...(leadsByCode.get(codeOf(field)) ?? []), leadHOf(field)]);
      expect(field.ensemble?.kind).toBe('control');
      expect(field.referenceEpochMs).toBe(BASE_EPOCH_MS);
    }
    const every3H = Array.from({ length: 65 }, (_, i) => i * 3);
    for (const code of [U, V, SEA, PERIOD, WAVE_FROM, PRESSURE, AIR, SEA_WATER]) {
      expect(leadsByCode.get(code), code).toEqual(every3H);
    }
    for (const code of [GUST, RAIN]) expect(leadsByCode.get(code), code).toEqual(every3H.slice(1));
    expect(leadsByCode.size).toBe(11);
    const gust = findField(control, { code: GUST, leadH: 9 }).validity;
    expect(gust).toMatchObject({ kind: 'interval', startEpochMs: BASE_EPOCH_MS + 6 * 3_600_000, statistic: 'maximum' });
  });

  it('weather over the start at the start: the first row of the script', () => {
    // Row of hour 0, as written down: wind from 222 at 26.5 kn, sea 3.3 m, period 10 s, from 226, 1008 hPa, air 12.5 °C.
    // The nearest grid point lies 12 nm south and 5 nm west: 0.3 h later in the pattern and 1 % stronger.
    const { points } = sampleGrid(CONTROL_RUN.spacingDeg);
    const index = indexOf(points, -36.5, 178);
    const value = (code: string): number =>
      valuesOf(control, findField(control, { code, leadH: 6 }))[index] ?? Number.NaN;
    const wind = windAt(control, { leadH: 6, index });
    expect(Math.abs(wind.windKn - 26.5)).toBeLessThan(0.4);
    expect(Math.abs(wind.fromDegTrue - 222)).toBeLessThan(2);
    expect(Math.abs(value(SEA) - 3.3)).toBeLessThan(0.05);
    expect(Math.abs(value(PERIOD) - 10)).toBeLessThan(0.1);
    expect(Math.abs(value(WAVE_FROM) - 226)).toBeLessThan(1.5);
    expect(Math.abs(value(PRESSURE) / 100 - 1008)).toBeLessThan(0.5);
    expect(Math.abs(value(AIR) - 273.15 - 12.5)).toBeLessThan(0.1);
  });

  it.each([0, 30, 78, 192])('lead %i h: every point holds the model to half a packing step', (leadH) => {
    const { points } = sampleGrid(CONTROL_RUN.spacingDeg);
    const expected: readonly (readonly [string, number, (at: PatternWeather) => number])[] = [
      [
        U,
        0.05,
        ({ windKn, windFromDegTrue }) => (windKn / knFromMps(1)) * Math.sin(((windFromDegTrue + 180) * Math.PI) / 180),
      ],
      [
        V,
        0.05,
        ({ windKn, windFromDegTrue }) => (windKn / knFromMps(1)) * Math.cos(((windFromDegTrue + 180) * Math.PI) / 180),
      ],
      [SEA, 0.005, ({ seaHeightM }) => seaHeightM],
      [PERIOD, 0.05, ({ peakPeriodS }) => peakPeriodS],
      [PRESSURE, 5, ({ pressureHpa }) => pressureHpa * 100],
      [AIR, 0.05, ({ airC }) => airC + 273.15],
    ];
    for (const [code, halfStep, of] of expected) {
      const values = valuesOf(control, findField(control, { code, leadH }));
      const worst = points.reduce((most, { place, isLand }, i) => {
        if (isLand && code.startsWith('10/')) return most;
        return Math.max(most, Math.abs((values[i] ?? Number.NaN) - of(controlWeather(place, leadH - 6))));
      }, 0);
      // Values and reference are exact decimals; 1e-6 of a step is for the arithmetic.
      expect(worst, code).toBeLessThanOrEqual(halfStep * (1 + 1e-6));
      expect(worst, code).toBeGreaterThan(0);
    }
  });

  it('gust of an interval: not below the model at its ends, nor above its highest half hour by more than packing', () => {
    const { points } = sampleGrid(CONTROL_RUN.spacingDeg);
    const values = valuesOf(control, findField(control, { code: GUST, leadH: 75 }));
    for (const [i, { place }] of points.entries()) {
      const gustsKn = [66, 66.5, 67, 67.5, 68, 68.5, 69].map((h) => controlWeather(place, h).gustKn);
      expect(Math.abs(knFromMps(values[i] ?? Number.NaN) - Math.max(...gustsKn))).toBeLessThan(0.1);
    }
  });

  it('rain of an interval inside one row span: mean of the ends times three hours', () => {
    // The trapezoid of a linear rate is exact; elsewhere 0.05 mm allows for the bend at a row.
    const { points } = sampleGrid(CONTROL_RUN.spacingDeg);
    const values = valuesOf(control, findField(control, { code: RAIN, leadH: 72 }));
    const sumMm = points.reduce((sum, _, i) => sum + (values[i] ?? Number.NaN), 0);
    const modelMm = points.reduce((sum, { place }) => {
      const fine = Array.from({ length: 180 }, (_, k) => controlWeather(place, 63 + (k + 0.5) / 60).rainMmPerH);
      return sum + fine.reduce((total, rate) => total + rate / 60, 0);
    }, 0);
    expect(modelMm / points.length).toBeGreaterThan(0.5);
    expect(Math.abs(sumMm - modelMm) / points.length).toBeLessThan(0.02);
  });
});

describe('members', () => {
  it('field list: twenty members, wind, gust and sea every six hours', () => {
    expect(new Set(members.fields.map((field) => field.ensemble?.perturbationNumber)).size).toBe(20);
    expect(members.fields.length).toBe(20 * (33 * 3 + 32));
    expect(members.fields.every((field) => field.ensemble?.kind === 'perturbed')).toBe(true);
  });

  it.each([1, 11, 20])('member %i: every point holds the model to half a packing step', (member) => {
    const { points } = sampleGrid(1);
    for (const leadH of [36, 120]) {
      const sea = valuesOf(members, findField(members, { code: SEA, leadH, member }));
      const u = valuesOf(members, findField(members, { code: U, leadH, member }));
      const error = memberErrorAt(member, leadH);
      for (const [i, { place, isLand }] of points.entries()) {
        const model = memberWeather(place, leadH - 6, error);
        const eastMps = (-model.windKn * Math.sin((model.windFromDegTrue * Math.PI) / 180)) / knFromMps(1);
        expect(Math.abs((u[i] ?? Number.NaN) - eastMps)).toBeLessThanOrEqual(0.050001);
        const seaApartM = Math.abs((sea[i] ?? Number.NaN) - model.seaHeightM);
        expect(isLand ? Number.isNaN(seaApartM) : seaApartM <= 0.005001).toBe(true);
      }
    }
  });

  it('base time: all members are the control', () => {
    const first = valuesOf(members, findField(members, { code: U, leadH: 0, member: 1 }));
    for (const member of MEMBERS) {
      expect(valuesOf(members, findField(members, { code: U, leadH: 0, member }))).toEqual(first);
    }
    const { points } = sampleGrid(1);
    const half = sampleGrid(CONTROL_RUN.spacingDeg).points;
    const controlU = valuesOf(control, findField(control, { code: U, leadH: 0 }));
    for (const [i, { lat, lon }] of points.entries()) {
      expect(first[i]).toBe(controlU[indexOf(half, lat, lon)]);
    }
  });

  it('spread of wind and of sea, mean over the sea area: grows with lead for four days', () => {
    const spreads = [6, 24, 48, 96].map((leadH) => ({ wind: meanSd(leadH, 'wind'), sea: meanSd(leadH, 'sea') }));
    for (const [i, later] of spreads.entries()) {
      const earlier = spreads[i - 1];
      if (earlier === undefined) continue;
      expect(later.wind).toBeGreaterThan(earlier.wind);
      expect(later.sea).toBeGreaterThan(earlier.sea);
    }
    // Default error model, growth alone: 0.5 m/s a day, so 1 m/s or 2 kn at two days; timing errors come on top.
    expect(spreads[2]?.wind).toBeGreaterThan(2);
    expect(spreads[2]?.wind).toBeLessThan(6);
  });

  it('second front at 36 south 170 west: steps of 18 h between members, some before the control and some after', () => {
    const endsH = MEMBERS.map((member) => frontLeadH(members, { member, spacingDeg: 1, stepH: 6 }));
    const controlEndH = frontLeadH(control, { spacingDeg: 0.5, stepH: 3 });
    expect(new Set(endsH).size).toBeGreaterThanOrEqual(4);
    expect(Math.max(...endsH) - Math.min(...endsH)).toBeGreaterThanOrEqual(18);
    // Surely earlier or later: the steps of member and control do not overlap.
    expect(endsH.filter((endH) => endH <= controlEndH - 3).length).toBeGreaterThanOrEqual(4);
    expect(endsH.filter((endH) => endH - 6 >= controlEndH).length).toBeGreaterThanOrEqual(4);
  });
});

describe('land', () => {
  // By any atlas: Lake Taupo, the Ruahine range, the Kaikoura range; the start of the track, Hawke Bay's offing, Tasman Sea.
  const ON_LAND = [
    [-38.5, 176],
    [-40, 176],
    [-42.5, 173],
  ] as const;
  const AT_SEA = [
    [-36.5, 178],
    [-39.5, 179],
    [-38, 172],
    [-30, -170],
  ] as const;

  it('waves and sea temperature: missing on land and only there; wind everywhere', () => {
    const { points } = sampleGrid(CONTROL_RUN.spacingDeg);
    for (const field of control.fields.filter((candidate) => leadHOf(candidate) % 48 === 0)) {
      const values = valuesOf(control, field);
      const isOfSea = codeOf(field).startsWith('10/');
      const missingCount = values.filter(Number.isNaN).length;
      expect(missingCount > 0).toBe(isOfSea);
      expect(missingCount).toBeLessThan(points.length / 20);
      for (const [lat, lon] of ON_LAND) expect(Number.isNaN(values[indexOf(points, lat, lon)])).toBe(isOfSea);
      for (const [lat, lon] of AT_SEA) expect(values[indexOf(points, lat, lon)]).not.toBeNaN();
    }
  });

  it('sea height of members: missing on land, present along the track', () => {
    const { points } = sampleGrid(1);
    for (const member of MEMBERS) {
      const values = valuesOf(members, findField(members, { code: SEA, leadH: 60, member }));
      expect(values[indexOf(points, -39, 176)]).toBeNaN();
      expect(values[indexOf(points, -40, 176)]).toBeNaN();
      for (const lon of [178, 179, -180, -175, -165, -159]) expect(values[indexOf(points, -36, lon)]).not.toBeNaN();
    }
  });
});

/** Standard deviation over the members, mean over the points at sea [kn or m]. */
function meanSd(leadH: number, of: 'wind' | 'sea'): number {
  const values = MEMBERS.map((member): readonly number[] => {
    const read = (code: string): Float64Array => valuesOf(members, findField(members, { code, leadH, member }));
    if (of === 'sea') return [...read(SEA)];
    const [u, v] = [read(U), read(V)];
    return Array.from(u, (eastMps, i) => knFromMps(Math.hypot(eastMps, v[i] ?? Number.NaN)));
  });
  const sds = sampleGrid(1).points.flatMap(({ isLand }, i) => {
    if (isLand) return [];
    const here = values.map((member) => member[i] ?? Number.NaN);
    const mean = here.reduce((sum, value) => sum + value, 0) / here.length;
    return [Math.sqrt(here.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (here.length - 1))];
  });
  return sds.reduce((sum, sd) => sum + sd, 0) / sds.length;
}

/** End of the step in which a wind above 14 kn backs most: north-west to south-west, 90° in the script. */
function frontLeadH(sample: OpenSample, run: { member?: number; spacingDeg: number; stepH: number }): number {
  const index = indexOf(sampleGrid(run.spacingDeg).points, -36, -170);
  let front = { leadH: 0, backingDeg: 0 };
  let before = windAt(sample, { ...run, leadH: 48, index });
  for (let leadH = 48 + run.stepH; leadH <= 120; leadH += run.stepH) {
    const now = windAt(sample, { ...run, leadH, index });
    const backingDeg = wrap180Deg(before.fromDegTrue - now.fromDegTrue);
    if (backingDeg > front.backingDeg && Math.min(before.windKn, now.windKn) > 14) front = { leadH, backingDeg };
    before = now;
  }
  expect(front.backingDeg).toBeGreaterThan(60);
  return front.leadH;
}
