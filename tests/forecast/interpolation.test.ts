import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildForecast, sampleReference } from '../../lib/forecast/index.ts';
import { knFromMps, windFromUv } from '../../lib/units/index.ts';
import { coursePoints, forecastOf, GRID, isWithin, message, setOf, wind } from './sample-fields.ts';

type Neighbour = readonly [number, number, number];
interface FourNeighbours {
  readonly name: string;
  readonly given: { readonly lat: number; readonly lon: number };
  readonly expect: Readonly<Record<'u0h' | 'v0h' | 'u6h' | 'v6h', readonly Neighbour[]>>;
}

const folder = new URL('../golden/forecast/', import.meta.url);
const golden = JSON.parse(readFileSync(new URL('four-neighbours.json', folder), 'utf8')) as {
  readonly tolerance: { readonly windKn: { readonly max: number } };
  readonly cases: readonly FourNeighbours[];
};

/** Bilinear by the product of the distances to the opposite corner, written without regard to the code under test. */
function bilinear(neighbours: readonly Neighbour[], at: { lat: number; lon: number }): number {
  const lonFrom = (lon: number): number => Math.abs(((lon - at.lon + 540) % 360) - 180);
  return neighbours.reduce(
    (sum, [lat, lon, value]) => sum + value * (1 - Math.abs(lat - at.lat)) * (1 - lonFrom(lon)),
    0,
  );
}

describe('wind of a global 1° analysis, against the four grid points ecCodes finds', () => {
  const built = buildForecast([
    { name: 'gfs', bytes: readFileSync(new URL('gfs_wind10m_20161120_0h_6h.grib2', folder)) },
  ]);
  if (!built.ok) throw new Error('the golden file must be readable');
  const set = setOf(built.value);
  const startH = (built.value.firstEpochMs - Date.UTC(2026, 4, 27)) / 3_600_000;

  it.each(golden.cases)('$name: bilinear on u and v, linear in time', ({ given, expect: neighbours }) => {
    const weather = sampleReference(
      set,
      coursePoints(
        [startH, given.lat, given.lon],
        [startH + 1.5, given.lat, given.lon],
        [startH + 6, given.lat, given.lon],
      ),
    );
    for (const [i, share] of [0, 0.25, 1].entries()) {
      const blend = (early: readonly Neighbour[], late: readonly Neighbour[]): number =>
        knFromMps(bilinear(early, given) * (1 - share) + bilinear(late, given) * share);
      const { speed, fromDegTrue } = windFromUv(
        blend(neighbours.u0h, neighbours.u6h),
        blend(neighbours.v0h, neighbours.v6h),
      );
      expect(isWithin(golden.tolerance.windKn.max, weather.windKn[i], speed)).toBe(true);
      expect(isWithin(0.02, weather.windFromDegTrue[i], fromDegTrue)).toBe(true);
    }
  });

  it('the cases hold both hemispheres, the date line and Greenwich, each with four corners', () => {
    const lons = golden.cases.map(({ given }) => given.lon);
    expect(golden.cases.some(({ given }) => given.lat > 0) && golden.cases.some(({ given }) => given.lat < 0)).toBe(
      true,
    );
    expect(lons).toEqual(expect.arrayContaining([179.4, -179.75, -0.3, 0.4]));
    for (const { expect: neighbours } of golden.cases)
      expect(new Set(neighbours.u0h.map(([lat, lon]) => `${lat} ${lon}`)).size).toBe(4);
  });
});

/** Height [m] that differs at every point and has no symmetry. */
const rough = (lat: number, lon: number): number => 2 + Math.sin(lat * 1.7) + Math.cos(lon * 0.9);
const seaForecast = forecastOf(message({ kind: 'seaHeight', stepsH: [0], value: rough, decimals: 5 }));
const seaAt = (lat: number, lon: number): number | undefined =>
  sampleReference(setOf(seaForecast), coursePoints([0, lat, lon])).seaHeightM[0];

describe('interpolation in space', () => {
  const lats = fc.double({ min: -36, max: -33, noNaN: true });
  const lons = fc.double({ min: 178, max: 182, noNaN: true });

  it('at a grid point: the value of the grid point', () => {
    for (let row = 0; row < GRID.nj; row++)
      for (let column = 0; column < GRID.ni; column++)
        expect(isWithin(1e-5, seaAt(-36 + row, 178 + column), rough(-36 + row, 178 + column))).toBe(true);
  });

  it('anywhere inside: between the lowest and the highest of the four neighbours', () => {
    fc.assert(
      fc.property(lats, lons, (lat, lon) => {
        const corners = [0, 1].flatMap((i) => [0, 1].map((j) => rough(Math.floor(lat) + i, Math.floor(lon) + j)));
        const value = seaAt(lat, lon) ?? Number.NaN;
        expect(value).toBeGreaterThanOrEqual(Math.min(...corners) - 1e-5);
        expect(value).toBeLessThanOrEqual(Math.max(...corners) + 1e-5);
      }),
      { seed: 4, numRuns: 100 },
    );
  });

  it('a whole turn of longitude added or taken away: nothing changes', () => {
    fc.assert(
      fc.property(lats, lons, fc.constantFrom(-720, -360, 360), (lat, lon, turnDeg) => {
        expect(isWithin(1e-5, seaAt(lat, lon + turnDeg), seaAt(lat, lon) ?? Number.NaN)).toBe(true);
      }),
      { seed: 5, numRuns: 50 },
    );
  });

  it.each([
    ['south', -36.01, 180],
    ['north', -32.99, 180],
    ['west', -34, 177.99],
    ['east', -34, -177.99],
    ['on the other side of the earth', 34, 0],
  ])('%s of the grid: missing, never extrapolated', (_, lat, lon) => {
    expect(seaAt(lat, lon)).toBeNaN();
  });

  it('directions either side of north: averaged as vectors', () => {
    const forecast = forecastOf(
      message({ kind: 'waveFrom', stepsH: [0], value: (_, lon) => (lon < 179.5 ? 350 : 20) }),
    );
    const { waveFromDegTrue } = sampleReference(setOf(forecast), coursePoints([0, -34, 179.5]));
    expect(isWithin(0.01, waveFromDegTrue[0], 5)).toBe(true);
  });
});

describe('interpolation at a coast', () => {
  const coast = forecastOf(
    message({ kind: 'seaHeight', stepsH: [0], value: (_, lon) => (lon >= 180 ? Number.NaN : 2), decimals: 5 }),
  );
  const seaNearCoast = (lat: number, lon: number): number | undefined =>
    sampleReference(setOf(coast), coursePoints([0, lat, lon])).seaHeightM[0];

  it.each([
    [179.25, 2],
    [179.5, 2],
    [179.51, Number.NaN],
    [180, Number.NaN],
  ])('land from 180 on, at %d: half of the weight must be sea', (lon, expected) => {
    expect(isWithin(1e-5, seaNearCoast(-34.3, lon), expected)).toBe(true);
  });
});

describe('a ring of longitudes', () => {
  it('between the last and the first column of a global grid: both count', () => {
    const grid = { ...GRID, ni: 36, first: { lat: -36, lon: 0 }, iIncrementDeg: 10 };
    const forecast = forecastOf(...wind(0, (_, lon) => (lon === 350 ? 10 : 20), 0, { grid }));
    const { windKn } = sampleReference(setOf(forecast), coursePoints([0, -34, -2.5], [0, -34, 357.5]));
    expect(isWithin(1e-3, windKn[0], knFromMps(17.5))).toBe(true);
    expect(isWithin(1e-5, windKn[1], windKn[0] ?? Number.NaN)).toBe(true);
  });
});
