/** Forecasts on grids whose columns and rows are no meridians and parallels, or lie at unequal distances. */
import { describe, expect, it } from 'vitest';
import {
  boxAround,
  buildForecast,
  coverageProblems,
  type Forecast,
  sampleReference,
} from '../../lib/forecast/index.ts';
import { frameOfGrid, gridPositions, type PlacedGrid, positionAt, scanGrib, toIndex } from '../../lib/grib/index.ts';
import { knFromMps } from '../../lib/units/index.ts';
import {
  gridMessage,
  gridOctetsOf,
  lonDifferenceDeg,
  octetsOf,
  placedGrid,
  thinnedMessage,
  withGrid,
} from '../grib/grid-messages.ts';
import { altered } from '../grib/sample-message.ts';
import { atH, coursePoints, fileOf, forecastOf, isWithin, message, setOf, wind } from './sample-fields.ts';

type Value = (lat: number, lon: number, fileIndex: number) => number;

/** A field on the grid of a committed message; its wind is given along the grid where `isAlongGrid`. */
function onGrid(
  name: string,
  field: { kind: 'u' | 'v' | 'speed' | 'fromDirection' | 'seaHeight'; value: Value; isAlongGrid?: boolean },
): Uint8Array {
  const base = gridMessage(name);
  const grid = placedGrid(base);
  const { lats, lons } = gridPositions(grid);
  const values = Array.from(lats, (lat, i) => field.value(lat, lons[i] ?? NaN, i));
  const wide = {
    ni: values.length,
    nj: 1,
    first: { lat: 0, lon: 0 },
    iIncrementDeg: 1e-4,
    jIncrementDeg: 0,
    scanningMode: 64,
  } as const;
  const plain = message({
    kind: field.kind,
    stepsH: [0],
    grid: wide,
    value: (_, lon) => values[Math.round(lon * 1e4)] ?? NaN,
    decimals: 4,
  });
  const octets = gridOctetsOf(base);
  // Resolution and component flags: octet 55 where latitudes are coded in a basic angle, 47 on maps; bit 5: along the grid.
  const flagOctet = octets.templateNumber <= 1 || octets.templateNumber === 40 ? 55 : 47;
  return altered(withGrid(plain, octets), { sectionNumber: 3, octet: flagOctet }, [field.isAlongGrid === true ? 8 : 0]);
}

/** A grid's places half way between its points, in the middle of it. */
function middleOf(name: string): { lat: number; lon: number } {
  const frame = frameOfGrid(placedGrid(gridMessage(name)));
  return positionAt(frame, {
    columnIndex: (frame.columnCount - 1) / 2 + 0.3,
    rowIndex: (frame.rowCount - 1) / 2 - 0.3,
  });
}

const weatherAt = (forecast: Forecast, { lat, lon }: { lat: number; lon: number }) =>
  sampleReference(setOf(forecast), coursePoints([0, lat, lon]));

const GRIDS = [
  'lambert-secant',
  'lambert-alternating',
  'polar-south',
  'polar-over-pole',
  'mercator-wgs84',
  'rotated',
  'rotated-westward-meridians',
  'gaussian-part',
];

describe('interpolation in the columns and rows of the grid', () => {
  it.each(GRIDS)('%s: a field that is linear in them is read exactly', (name) => {
    const frame = frameOfGrid(placedGrid(gridMessage(name)));
    const linear = (lat: number, lon: number): number => {
      const index = toIndex(frame, { lat, lon });
      return index === null ? NaN : 1 + 0.5 * index.columnIndex + 0.25 * index.rowIndex;
    };
    const forecast = forecastOf(onGrid(name, { kind: 'seaHeight', value: linear }));
    for (const [i, j] of [
      [0, 0],
      [0.4, 0.7],
      [1.5, 1.5],
      [3.9, 2.1],
      [frame.columnCount - 1, frame.rowCount - 1],
    ] as const) {
      const place = positionAt(frame, { columnIndex: i, rowIndex: j });
      expect(isWithin(1e-3, weatherAt(forecast, place).seaHeightM[0], 1 + 0.5 * i + 0.25 * j), `${i} ${j}`).toBe(true);
    }
  });

  it.each(GRIDS)('%s: a step outside: missing, never extrapolated', (name) => {
    const frame = frameOfGrid(placedGrid(gridMessage(name)));
    const forecast = forecastOf(onGrid(name, { kind: 'seaHeight', value: () => 2 }));
    const beyond = [
      { columnIndex: -0.2, rowIndex: 1 },
      { columnIndex: frame.columnCount - 0.8, rowIndex: 1 },
      { columnIndex: 1, rowIndex: -0.2 },
      { columnIndex: 1, rowIndex: frame.rowCount - 0.8 },
    ];
    for (const index of beyond) expect(weatherAt(forecast, positionAt(frame, index)).seaHeightM[0]).toBeNaN();
  });

  it('thinned rows: linear along each row and between them', () => {
    const thinned = thinnedMessage({ counts: [2, 3, 5], first: [10, 0], last: [30, 40], meaning: 2, scanningMode: 64 });
    const grid = placedGrid(thinned);
    const { lats, lons } = gridPositions(grid);
    const heights = Array.from(lats, (lat, i) => 0.1 * lat + 0.05 * (lons[i] ?? NaN));
    const wide = {
      ni: 10,
      nj: 1,
      first: { lat: 0, lon: 0 },
      iIncrementDeg: 1,
      jIncrementDeg: 0,
      scanningMode: 64,
    } as const;
    const plain = message({ kind: 'seaHeight', stepsH: [0], grid: wide, value: (_, lon) => heights[lon] ?? NaN });
    const octets = { ...gridOctetsOf(thinned), list: { widthOctets: 2, meaning: 2, numbers: [] } };
    const forecast = forecastOf(withGrid(plain, octets));
    expect(isWithin(1e-3, weatherAt(forecast, { lat: 17, lon: 13 }).seaHeightM[0], 1.7 + 0.65)).toBe(true);
  });
});

/** Direction of growing columns at each point of a grid, from the places of points close by: counterclockwise from east [rad]. */
function columnDirectionRad(grid: PlacedGrid, place: { lat: number; lon: number }): number {
  const frame = frameOfGrid(grid);
  const index = toIndex(frame, place);
  if (index === null) throw new Error('a place of the grid');
  const [west, east] = [-1e-4, 1e-4].map((step) =>
    positionAt(frame, { ...index, columnIndex: index.columnIndex + step }),
  );
  if (west === undefined || east === undefined) throw new Error('two places');
  const eastward = lonDifferenceDeg(east.lon, west.lon) * Math.cos((place.lat * Math.PI) / 180);
  return Math.atan2(east.lat - west.lat, eastward);
}

/** A wind of 12 m/s from 240° everywhere, in components along the columns and rows of a grid. */
function steadyWind(name: string): { u: Value; v: Value } {
  const grid = placedGrid(gridMessage(name));
  const towardRad = ((90 - (240 - 180)) * Math.PI) / 180;
  const along = (lat: number, lon: number): number => towardRad - columnDirectionRad(grid, { lat, lon });
  return { u: (lat, lon) => 12 * Math.cos(along(lat, lon)), v: (lat, lon) => 12 * Math.sin(along(lat, lon)) };
}

describe('components along the grid', () => {
  it.each(['lambert-secant', 'polar-north', 'polar-south', 'rotated', 'rotated-westward-meridians'])(
    '%s: turned to true east and north',
    (name) => {
      const { u, v } = steadyWind(name);
      const forecast = forecastOf(
        onGrid(name, { kind: 'u', value: u, isAlongGrid: true }),
        onGrid(name, { kind: 'v', value: v, isAlongGrid: true }),
      );
      const { lats, lons } = gridPositions(placedGrid(gridMessage(name)));
      const [lat, lon] = [lats[10] ?? NaN, lons[10] ?? NaN];
      for (const place of [{ lat, lon }, middleOf(name)]) {
        const { windKn, windFromDegTrue } = weatherAt(forecast, place);
        expect(isWithin(0.05, windKn[0], knFromMps(12)), String(windKn[0])).toBe(true);
        expect(isWithin(0.1, windFromDegTrue[0], 240), String(windFromDegTrue[0])).toBe(true);
      }
    },
  );

  it('the same numbers without the flag: taken as they are, toward true east and north', () => {
    const forecast = forecastOf(
      onGrid('lambert-secant', { kind: 'u', value: () => 5 }),
      onGrid('lambert-secant', { kind: 'v', value: () => 0 }),
    );
    expect(isWithin(0.01, weatherAt(forecast, middleOf('lambert-secant')).windFromDegTrue[0], 270)).toBe(true);
  });

  it.each(['mercator', 'gaussian-part'])('%s with the flag: columns are meridians, nothing to turn', (name) => {
    const forecast = forecastOf(
      onGrid(name, { kind: 'u', value: () => 5, isAlongGrid: true }),
      onGrid(name, { kind: 'v', value: () => 0, isAlongGrid: true }),
    );
    expect(isWithin(0.01, weatherAt(forecast, middleOf(name)).windFromDegTrue[0], 270)).toBe(true);
  });

  it('speed and direction with the flag: directions are true in any case', () => {
    const forecast = forecastOf(
      onGrid('lambert-secant', { kind: 'speed', value: () => 5, isAlongGrid: true }),
      onGrid('lambert-secant', { kind: 'fromDirection', value: () => 200, isAlongGrid: true }),
    );
    expect(isWithin(0.01, weatherAt(forecast, middleOf('lambert-secant')).windFromDegTrue[0], 200)).toBe(true);
  });

  it('one component along the grid, the other not: no pair', () => {
    const bytes = fileOf(
      onGrid('lambert-secant', { kind: 'u', value: () => 5, isAlongGrid: true }),
      onGrid('lambert-secant', { kind: 'v', value: () => 0 }),
      onGrid('lambert-secant', { kind: 'seaHeight', value: () => 2 }),
    );
    const built = buildForecast([{ name: 'x', bytes }]);
    expect(built.ok && built.value.problems.map(({ code }) => code)).toEqual(['forecast.part-missing']);
  });
});

/** Sea on a turned sphere whose south pole lies at 40° S 20° E; the value by turned latitude. */
function turnedMessage(
  grid: NonNullable<Parameters<typeof message>[0]['grid']>,
  value: (turnedLat: number) => number,
): Uint8Array {
  const plain = message({ kind: 'seaHeight', stepsH: [0], grid, value });
  const octets = gridOctetsOf(plain);
  const turn = [...octetsOf(-40e6, 4), ...octetsOf(20e6, 4), 0, 0, 0, 0];
  return withGrid(plain, { ...octets, templateNumber: 1, template: [...octets.template, ...turn] });
}

describe('what is kept of a grid', () => {
  it.each(GRIDS)('%s, cropped to a small box: the same weather inside it', (name) => {
    const { u, v } =
      name.includes('gaussian') || name.includes('mercator')
        ? { u: (lat: number) => lat / 10, v: (__: number, lon: number) => lon / 20 }
        : steadyWind(name);
    const bytes = fileOf(
      onGrid(name, { kind: 'u', value: u, isAlongGrid: true }),
      onGrid(name, { kind: 'v', value: v, isAlongGrid: true }),
    );
    const { lat, lon } = middleOf(name);
    const around = boxAround([
      { lat: lat - 0.2, lon: lon - 0.2 },
      { lat: lat + 0.2, lon: lon + 0.2 },
    ]);
    if (around === null) throw new Error('a box');
    const [whole, cropped] = [buildForecast([{ name, bytes }]), buildForecast([{ name, bytes }], { around })];
    if (!whole.ok || !cropped.ok) throw new Error('two forecasts');
    for (const place of [
      { lat, lon },
      { lat: lat - 0.2, lon: lon + 0.2 },
      { lat: lat + 0.2, lon: lon - 0.2 },
    ]) {
      const [all, part] = [weatherAt(whole.value, place), weatherAt(cropped.value, place)];
      expect(isWithin(1e-4, part.windKn[0], all.windKn[0] ?? NaN)).toBe(true);
      expect(isWithin(1e-3, part.windFromDegTrue[0], all.windFromDegTrue[0] ?? NaN)).toBe(true);
      expect(all.windKn[0]).not.toBeNaN();
    }
    expect(cropped.value.coverage[0]?.area).toEqual(whole.value.coverage[0]?.area);
  });

  it('a pole of turned coordinates inside the box: the rows around it are kept', () => {
    // Turned latitudes 60 to 90 in steps of 0.5°, turned longitudes 0 to 340; the turned north pole lies at 40° N 160° W.
    const cap = {
      ni: 35,
      nj: 61,
      first: { lat: 60, lon: 0 },
      iIncrementDeg: 10,
      jIncrementDeg: 0.5,
      scanningMode: 64,
    } as const;
    const bytes = turnedMessage(cap, (lat) => lat / 30);
    const pole = { lat: 40, lon: -160 };
    const around = { southWest: { lat: 35, lon: -165 }, northEast: { lat: 45, lon: -155 } };
    const built = buildForecast([{ name: 'x', bytes }], { around });
    if (!built.ok) throw new Error(JSON.stringify(built.problems));
    expect(isWithin(0.01, weatherAt(built.value, pole).seaHeightM[0], 3)).toBe(true);
  });

  it('fewer points than the whole grid', () => {
    // 121 × 61 points of 0.1° about the turned equator; 1° around one of them is asked for.
    const wide = {
      ni: 121,
      nj: 61,
      first: { lat: -3, lon: -6 },
      iIncrementDeg: 0.1,
      jIncrementDeg: 0.1,
      scanningMode: 64,
    } as const;
    const bytes = turnedMessage(wide, () => 2);
    const place = positionAt(frameOfGrid(placedGrid(bytes)), { columnIndex: 60, rowIndex: 30 });
    const around = {
      southWest: { lat: place.lat - 0.5, lon: place.lon - 0.5 },
      northEast: { lat: place.lat + 0.5, lon: place.lon + 0.5 },
    };
    const built = buildForecast([{ name: 'x', bytes }], { around });
    const grid = built.ok ? built.value.reference.get('seaHeight')?.frames[0]?.grid : undefined;
    expect(grid?.columnCount).toBeGreaterThan(8);
    expect(grid?.columnCount).toBeLessThan(22);
    expect(grid?.rowCount).toBeLessThan(22);
  });
});

describe('area covered', () => {
  it('a map over the pole: all longitudes up to 90° N', () => {
    const forecast = forecastOf(onGrid('polar-over-pole', { kind: 'seaHeight', value: () => 2 }));
    const area = forecast.coverage[0]?.area;
    expect(area?.northEast).toEqual({ lat: 90, lon: 180 });
    expect(area?.southWest.lon).toBe(-180);
    expect(isWithin(1e-3, weatherAt(forecast, { lat: 90, lon: 12 }).seaHeightM[0], 2)).toBe(true);
  });

  it('a cone: the smallest box around its outline', () => {
    const { lats, lons } = gridPositions(placedGrid(gridMessage('lambert-secant')));
    const area = forecastOf(onGrid('lambert-secant', { kind: 'seaHeight', value: () => 2 })).coverage[0]?.area;
    expect(area?.southWest.lat).toBeCloseTo(Math.min(...lats), 1);
    // The uppermost row bends northward between its points.
    expect(area?.northEast.lat).toBeGreaterThanOrEqual(Math.max(...lats) - 1e-9);
    expect(area?.southWest.lon).toBeCloseTo(Math.min(...lons), 1);
    expect(area?.northEast.lon).toBeCloseTo(Math.max(...lons), 1);
  });

  it('a track outside the box: said', () => {
    const forecast = forecastOf(
      ...(['u', 'v'] as const).map((kind) => onGrid('lambert-secant', { kind, value: () => 5 })),
    );
    const problems = coverageProblems(forecast, {
      positions: [{ lat: -40, lon: 20 }],
      fromEpochMs: atH(0),
      toEpochMs: atH(0),
    });
    expect(problems.map(({ code }) => code)).toEqual(['forecast.elsewhere']);
  });
});

describe('the same hour on two grids', () => {
  // A map of 2.25° about the equator at the date line, and one of 1° elsewhere.
  const { lat, lon } = middleOf('mercator');
  const coarse = {
    ni: 13,
    nj: 13,
    first: { lat: lat - 30, lon: lon - 30 },
    iIncrementDeg: 5,
    jIncrementDeg: 5,
    scanningMode: 64,
  } as const;
  const byGrid = (value: number) => ({ u: (): number => value, v: (): number => 0 });
  const map = (['u', 'v'] as const).map((kind) => onGrid('mercator', { kind, value: byGrid(7)[kind] }));
  const bytes = fileOf(...wind(0, 3, 0, { grid: coarse }), ...map);

  it('the finer one that covers the box', () => {
    const around = { southWest: { lat: lat - 1, lon: lon - 1 }, northEast: { lat: lat + 1, lon: lon + 1 } };
    const built = buildForecast([{ name: 'x', bytes }], { around });
    if (!built.ok) throw new Error(JSON.stringify(built.problems));
    expect(isWithin(0.01, weatherAt(built.value, { lat, lon }).windKn[0], knFromMps(7))).toBe(true);
  });

  it('the coarser one where the finer does not cover it', () => {
    const around = { southWest: { lat: lat - 20, lon: lon - 20 }, northEast: { lat: lat - 18, lon: lon - 18 } };
    const built = buildForecast([{ name: 'x', bytes }], { around });
    if (!built.ok) throw new Error(JSON.stringify(built.problems));
    expect(isWithin(0.01, weatherAt(built.value, { lat: lat - 19, lon: lon - 19 }).windKn[0], knFromMps(3))).toBe(true);
  });

  it('fields and points agree in number', () => {
    expect(scanGrib(bytes, 'x').fields.map(({ pointCount }) => pointCount)).toEqual([169, 169, 35, 35]);
  });
});

describe('a place in the box around a map, but off the map', () => {
  const forecast = forecastOf(
    onGrid('lambert-secant', { kind: 'u', value: () => 5 }),
    onGrid('lambert-secant', { kind: 'v', value: () => 0 }),
  );
  const needed = (place: { lat: number; lon: number }) => ({
    positions: [place],
    fromEpochMs: forecast.firstEpochMs,
    toEpochMs: forecast.endEpochMs,
  });

  it('is said to lie elsewhere', () => {
    const corner = forecast.coverage[0]?.area.southWest ?? { lat: NaN, lon: NaN };
    expect(weatherAt(forecast, corner).windKn[0]).toBeNaN();
    const problems = coverageProblems(forecast, needed(corner)).filter(({ code }) => code === 'forecast.elsewhere');
    expect(problems.length).toBe(1);
    expect(problems[0]?.what).toMatch(/1 of 1 places of the track lie outside, .* the farthest by [1-9]\d* nm/);
  });

  it('in the middle of the map nothing is said', () => {
    const problems = coverageProblems(forecast, needed(middleOf('lambert-secant')));
    expect(problems.filter(({ code }) => code === 'forecast.elsewhere')).toEqual([]);
  });
});
