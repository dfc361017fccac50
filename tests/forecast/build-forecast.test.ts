import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { boxAround, buildForecast, coverageProblems, matchField, sampleReference } from '../../lib/forecast/index.ts';
import { scanGrib } from '../../lib/grib/index.ts';
import { knFromMps } from '../../lib/units/index.ts';
import { atH, coursePoints, fileOf, forecastOf, GRID, isWithin, message, setOf, wind } from './sample-fields.ts';

const windAt = (forecast: ReturnType<typeof forecastOf>, stepH: number, lon = 180): number | undefined =>
  sampleReference(setOf(forecast), coursePoints([stepH, -34.5, lon])).windKn[0];

const firstField = (octets: Uint8Array) => {
  const [field] = scanGrib(octets, 'sample').fields;
  if (field === undefined) throw new Error('one field is needed');
  return field;
};

/** A message whose Section 3 names another grid definition template (octets 13-14 of the section, WMO-No. 306). */
function withGridTemplate(octets: Uint8Array, template: number): Uint8Array {
  const copy = Uint8Array.from(octets);
  const view = new DataView(copy.buffer);
  let start = 16;
  while (view.getUint8(start + 4) !== 3) start += view.getUint32(start);
  view.setUint16(start + 12, template);
  return copy;
}

describe('matchField', () => {
  it('10/0/3 in template 4.0 is the whole sea, in 4.103 the height of one band of periods', () => {
    const field = firstField(message({ kind: 'seaHeight', stepsH: [0], value: 2 }));
    expect(matchField(field)?.row.quantity).toBe('seaHeight');
    expect(matchField({ ...field, productTemplate: 103 })).toBeNull();
  });

  it('wind at 80 m, pressure at the ground, a mean of an ensemble: not used', () => {
    const u = firstField(message({ kind: 'u', stepsH: [0], value: 1 }));
    const pressure = firstField(message({ kind: 'pressure', stepsH: [0], value: 101_000, decimals: 0 }));
    expect(matchField({ ...u, level: { first: { typeCode: 103, value: 80 }, second: null } })).toBeNull();
    const atGround = { first: { typeCode: 1, value: 0 }, second: null };
    const ofGround = { edition: 2, discipline: 0, category: 3, number: 0 } as const;
    expect(matchField({ ...pressure, parameter: ofGround, level: atGround })).toBeNull();
    expect(matchField({ ...u, derived: { code: 0, name: 'mean', memberCount: 31 } })).toBeNull();
    expect(matchField(u)?.row.quantity).toBe('wind');
  });

  it('edition 1, table 2, number 100 of a wave model: significant height, with wind on the surface', () => {
    const bytes = readFileSync(new URL('../golden/grib/files/gdaswave_cut.grib1', import.meta.url));
    const used = scanGrib(bytes, 'gdaswave').fields.map((field) => matchField(field)?.row.quantity ?? null);
    expect(used).toEqual(['wind', 'wind', 'seaHeight', null, null]);
  });
});

describe('buildForecast', () => {
  it('two runs: the newer is used, the older only before it, and the hours it reaches further are told', () => {
    const old = [...wind(0, 5, 0), ...wind(6, 5, 0), ...wind(12, 5, 0), ...wind(24, 5, 0)];
    const fresh = [...wind(0, 9, 0, { baseH: 6 }), ...wind(6, 9, 0, { baseH: 6 })];
    const forecast = forecastOf(...old, ...fresh);
    expect(forecast.baseEpochMs).toBe(atH(6));
    expect(isWithin(1e-3, windAt(forecast, 0), knFromMps(5))).toBe(true);
    expect(isWithin(1e-3, windAt(forecast, 12), knFromMps(9))).toBe(true);
    expect(windAt(forecast, 13)).toBeNaN();
    expect(forecast.notes.join()).toContain('it reaches 12 h further');
  });

  it('a run of years ago: not used for hours before the new one', () => {
    const forecast = forecastOf(...wind(0, 5, 0, { baseH: -40_000 }), ...wind(0, 9, 0), ...wind(6, 9, 0));
    expect(forecast.firstEpochMs).toBe(atH(0));
  });

  it('two centres with the same base: the one that reaches further, never a mixture', () => {
    const forecast = forecastOf(
      ...wind(0, 5, 0, { centre: 98 }),
      ...wind(6, 5, 0, { centre: 98 }),
      ...wind(0, 9, 0),
      ...wind(6, 9, 0),
      ...wind(12, 9, 0),
    );
    expect(isWithin(1e-3, windAt(forecast, 6), knFromMps(9))).toBe(true);
    expect(forecast.notes.join()).toContain('the one of centre 98 is not');
  });

  it('the same fields twice: counted and left out', () => {
    const forecast = forecastOf(...wind(0, 5, 0), ...wind(0, 5, 0));
    expect(forecast.coverage[0]?.frameCount).toBe(1);
    expect(forecast.notes).toContain('wind at 10 m: 2 repeated fields are left out.');
  });

  it('two grids: the finer, unless only the coarser covers the track', () => {
    const coarseGrid = { ...GRID, ni: 9, nj: 8, first: { lat: -38, lon: 170 }, iIncrementDeg: 2 };
    const bytes = fileOf(...wind(0, 5, 0, { grid: coarseGrid }), ...wind(0, 9, 0));
    const build = (east: number) => {
      const positions = [
        { lat: -34, lon: east },
        { lat: -34, lon: 179 },
      ];
      const around = boxAround(positions);
      const built = buildForecast([{ name: 'both', bytes }], around === null ? {} : { around });
      if (!built.ok) throw new Error('both files are good');
      return built.value;
    };
    expect(isWithin(1e-3, windAt(build(180), 0, 179), knFromMps(9))).toBe(true);
    expect(isWithin(1e-3, windAt(build(175), 0, 179), knFromMps(5))).toBe(true);
    expect(build(180).notes.join()).toContain('2 fields are left out');
  });

  it('cropped to a box across the date line: the same values inside it', () => {
    const grid = { ...GRID, ni: 36, nj: 19, first: { lat: -90, lon: 0 }, iIncrementDeg: 10, jIncrementDeg: 10 };
    const bytes = fileOf(...wind(0, (lat, lon) => 5 + lat / 30 + Math.sin(lon), 2, { grid }));
    const around = boxAround([
      { lat: -34, lon: 171 },
      { lat: -30, lon: -172 },
    ]);
    if (around === null) throw new Error('a box of two places');
    const [whole, cropped] = [{}, { around }].map((options) => buildForecast([{ name: 'world', bytes }], options));
    if (whole?.ok !== true || cropped?.ok !== true) throw new Error('the file is good');
    for (const lon of [171, 179.9, 180, -179.9, -172])
      expect(isWithin(1e-6, windAt(cropped.value, 0, lon), windAt(whole.value, 0, lon) ?? Number.NaN)).toBe(true);
    expect(windAt(cropped.value, 0, 0)).toBeNaN();
    expect(cropped.value.coverage[0]?.area).toEqual(whole.value.coverage[0]?.area);
  });

  it('one component missing at one hour: that hour is left out, with the reason', () => {
    const forecast = forecastOf(...wind(0, 5, 0), message({ kind: 'u', stepsH: [6], value: 5 }));
    expect(forecast.endEpochMs).toBe(atH(0));
    expect(forecast.problems.map(({ code }) => code)).toEqual(['forecast.part-missing']);
  });

  it('the last message cut short: the hours before it are used', () => {
    const bytes = fileOf(...wind(0, 5, 0), ...wind(6, 5, 0));
    const built = buildForecast([{ name: 'cut', bytes: bytes.subarray(0, bytes.length - 20) }]);
    expect(built.ok && built.value.endEpochMs).toBe(atH(0));
    expect(built.ok && built.value.problems.length).toBeGreaterThan(0);
  });

  it.each([
    ['no file at all', []],
    ['an empty file', [new Uint8Array()]],
    ['a page of HTML', [new TextEncoder().encode('<!DOCTYPE html><title>503 Service Unavailable</title>')]],
    [
      'only a parameter nobody needs',
      [readFileSync(new URL('../golden/grib/files/gdas_0p25_const.grib2', import.meta.url))],
    ],
  ])('%s: refused, and said why', (_, contents) => {
    const built = buildForecast(contents.map((bytes, i) => ({ name: `file ${i}`, bytes })));
    expect(built.ok).toBe(false);
    expect(built.ok ? null : built.problems[0].code).toBe('forecast.nothing-usable');
  });

  it('wind on a grid that is not read: the reason of the reader comes with the refusal', () => {
    const fromSpace = wind(0, 5, 0).map((octets) => withGridTemplate(octets, 90));
    const built = buildForecast([{ name: 'space-view.grib2', bytes: fileOf(...fromSpace) }]);
    const codes = built.ok ? [] : built.problems.map(({ code }) => code);
    expect(codes).toEqual(['forecast.nothing-usable', 'grib.grid-unsupported', 'grib.grid-unsupported']);
  });

  it('waves without wind: held, with the wind missing', () => {
    const forecast = forecastOf(message({ kind: 'seaHeight', stepsH: [0], value: 2 }));
    expect(forecast.held).toEqual(['seaHeight']);
    expect(forecast.missing).toContain('wind');
    const needed = { positions: [], fromEpochMs: atH(0), toEpochMs: atH(0) };
    expect(coverageProblems(forecast, needed).map(({ code }) => code)).toEqual(['forecast.no-wind']);
  });

  it('peak and mean period: the peak is kept and named', () => {
    const forecast = forecastOf(
      message({ kind: 'meanPeriod', stepsH: [0], value: 7 }),
      message({ kind: 'peakPeriod', stepsH: [0], value: 10 }),
    );
    expect(forecast.coverage[0]?.variant).toBe('peak');
    expect(sampleReference(setOf(forecast), coursePoints([0, -34, 180])).wavePeriodS[0]).toBe(10);
  });
});

describe('coverageProblems', () => {
  const forecast = forecastOf(
    ...wind(3, 5, 0),
    ...wind(9, 5, 0),
    message({ kind: 'seaHeight', stepsH: [3], value: 1 }),
    message({ kind: 'seaHeight', stepsH: [9], value: 1 }),
  );
  const inside = [{ lat: -34, lon: 180 }];

  it('inside in place and time: none', () => {
    expect(coverageProblems(forecast, { positions: inside, fromEpochMs: atH(3), toEpochMs: atH(9) })).toEqual([]);
  });

  it('a plan that begins earlier and ends later: hours short, for wind and sea', () => {
    const problems = coverageProblems(forecast, { positions: inside, fromEpochMs: atH(1), toEpochMs: atH(33.5) });
    expect(problems.map(({ code }) => code)).toEqual([
      'forecast.begins-late',
      'forecast.ends-early',
      'forecast.begins-late',
      'forecast.ends-early',
    ]);
    expect(problems[0]?.what).toContain('2 h after');
    expect(problems[1]?.what).toContain('24.5 h before');
  });

  it('a track that leaves the area: how many places, the first, and how far at most', () => {
    const positions = [...inside, { lat: -36.5, lon: 180 }, { lat: -38, lon: 180 }];
    const [problem] = coverageProblems(forecast, { positions, fromEpochMs: atH(3), toEpochMs: atH(9) });
    expect(problem?.code).toBe('forecast.elsewhere');
    expect(problem?.what).toContain('2 of 3 places');
    expect(problem?.what).toContain("36°30.0'S");
    // 2 degrees of latitude of 60 nm.
    expect(problem?.what).toContain('120 nm');
  });

  it('a place west of the area: the distance along the parallel', () => {
    const positions = [{ lat: -36, lon: 175 }];
    const [problem] = coverageProblems(forecast, { positions, fromEpochMs: atH(3), toEpochMs: atH(9) });
    // 3 degrees × 60 nm × cos 36°.
    expect(problem?.what).toContain('146 nm');
  });
});
