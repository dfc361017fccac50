/** What must hold for every grid of every kind: places and indices are inverse, vectors turn with the columns, values keep their places. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  eastAngleDeg,
  frameOfGrid,
  type GridFrame,
  gridPositions,
  partOfFrame,
  type PlacedGrid,
  positionAt,
  toIndex,
  toNorthUpGrid,
} from '../../lib/grib/index.ts';
import { lambertCone, polarPlane } from '../../lib/grib/grids/cone.ts';
import { conicGrid } from '../../lib/grib/grids/conic.ts';
import { ellipsoid, sphere } from '../../lib/grib/grids/earth.ts';
import { gaussianGrid } from '../../lib/grib/grids/gaussian.ts';
import { gaussianLat } from '../../lib/grib/grids/gaussian-latitudes.ts';
import { isometricLatRad, mercatorGrid } from '../../lib/grib/grids/mercator.ts';
import { turnedOf } from '../../lib/grib/grids/rotated-sphere.ts';
import { regularLatLon, rotatedLatLon } from '../../lib/grib/grids/regular-lat-lon.ts';
import { lonDifferenceDeg } from './grid-messages.ts';
import { longOrShort } from '../long-run.ts';

const RUN_COUNT = longOrShort(300, 100);

const RADIUS_M = 6_371_229;
const EARTHS = [sphere(RADIUS_M), ellipsoid({ majorM: 6_378_137, minorM: 6_356_752.314_245 })] as const;
const rad = (angleDeg: number): number => (angleDeg * Math.PI) / 180;
const signOf = (scanningMode: number, bit: number): number => ((scanningMode & bit) === 0 ? -1 : 1);
const stored = { iIncrementDeg: null, jIncrementDeg: null };

/** A generated grid, or null where the drawn numbers contradict one another (rows past a pole). */
type Drawn = PlacedGrid | null;
const orNull = <T extends PlacedGrid>(grid: T | string): T | null => (typeof grid === 'string' ? null : grid);

const shapes = fc.record({
  ni: fc.integer({ min: 2, max: 9 }),
  nj: fc.integer({ min: 2, max: 7 }),
  scanningMode: fc.integer({ min: 0, max: 15 }).map((bits) => bits * 16),
});
const lats = fc.double({ min: -85, max: 85, noNaN: true });
const lons = fc.double({ min: -360, max: 360, noNaN: true });
const stepsDeg = fc.double({ min: 0.05, max: 6, noNaN: true });

/** Corners of a grid that begins at a place and runs as the scanning mode says. */
const cornersFrom = (from: {
  lat: number;
  lon: number;
  ni: number;
  nj: number;
  stepDeg: number;
  scanningMode: number;
}) => {
  const { lat, lon, ni, nj, stepDeg, scanningMode } = from;
  const lastLat = lat + signOf(scanningMode, 64) * (nj - 1) * stepDeg;
  const lastLon = (((lon - signOf(scanningMode, 128) * (ni - 1) * stepDeg) % 360) + 360) % 360;
  return { first: { lat, lon }, last: { lat: lastLat, lon: lastLon } };
};

const latLonGrids = fc
  .record({ shape: shapes, lat: lats, lon: lons, stepDeg: stepsDeg })
  .map(({ shape, lat, lon, stepDeg }): Drawn =>
    orNull(regularLatLon({ ...shape, ...cornersFrom({ ...shape, lat, lon, stepDeg }), stored })),
  );

const rotatedGrids = fc
  .record({
    shape: shapes,
    lat: lats,
    lon: lons,
    stepDeg: stepsDeg,
    pole: fc.tuple(fc.double({ min: -90, max: 90, noNaN: true }), lons),
    turnDeg: fc.double({ min: -180, max: 180, noNaN: true }),
  })
  .map(({ shape, lat, lon, stepDeg, pole, turnDeg }): Drawn => {
    const rotation = { southPole: { lat: pole[0], lon: pole[1] }, turnDeg, areVectorsGridRelative: true };
    return orNull(rotatedLatLon({ ...shape, ...cornersFrom({ ...shape, lat, lon, stepDeg }), stored }, rotation));
  });

const gaussianGrids = fc
  .record({
    shape: shapes,
    parallelCount: fc.integer({ min: 4, max: 200 }),
    share: fc.double({ min: 0, max: 1, noNaN: true }),
    lon: lons,
    stepDeg: stepsDeg,
  })
  .map(({ shape, parallelCount, share, lon, stepDeg }): Drawn => {
    const northIndex = Math.floor(share * (2 * parallelCount - shape.nj));
    const ends = [northIndex, northIndex + shape.nj - 1].map((k) => gaussianLat(parallelCount, k));
    const [firstLat = NaN, lastLat = NaN] = (shape.scanningMode & 64) === 0 ? ends : ends.toReversed();
    const { first, last } = cornersFrom({ ...shape, lat: 0, lon, stepDeg });
    const corners = { first: { ...first, lat: firstLat }, last: { ...last, lat: lastLat } };
    return orNull(gaussianGrid({ ...shape, ...corners, parallelCount, storedIncrementDeg: null }));
  });

const mercatorGrids = fc
  .record({
    shape: shapes,
    lat: fc.double({ min: -70, max: 70, noNaN: true }),
    lon: lons,
    stepDeg: fc.double({ min: 0.05, max: 2, noNaN: true }),
    earth: fc.constantFrom(...EARTHS),
  })
  .map(({ shape, lat, lon, stepDeg, earth }): Drawn => {
    const { first, last } = cornersFrom({ ...shape, lat, lon, stepDeg });
    return orNull(mercatorGrid({ ...shape, first, last, trueLatDeg: 0, lengths: { xM: null, yM: null }, earth }));
  });

const conicGrids = fc
  .record({
    shape: shapes,
    parallels: fc.tuple(fc.double({ min: 10, max: 80, noNaN: true }), fc.double({ min: 10, max: 80, noNaN: true })),
    isSouth: fc.boolean(),
    isPlane: fc.boolean(),
    lat: fc.double({ min: 0, max: 89.9, noNaN: true }),
    lonDeg: lons,
    aside: fc.double({ min: -90, max: 90, noNaN: true }),
    lengthM: fc.double({ min: 1000, max: 300_000, noNaN: true }),
    earth: fc.constantFrom(...EARTHS),
  })
  .map(({ shape, parallels, isSouth, isPlane, lat, lonDeg, aside, lengthM, earth }): Drawn => {
    const sign = isSouth ? -1 : 1;
    const cone = isPlane
      ? polarPlane({ trueLatDeg: parallels[0], isSouthPole: isSouth, lonDeg, earth })
      : lambertCone({ latin1Deg: sign * parallels[0], latin2Deg: sign * parallels[1], lonDeg, earth });
    if (typeof cone === 'string') return null;
    return orNull(
      conicGrid({
        kind: isPlane ? 'polar-stereographic' : 'lambert',
        ...shape,
        first: { lat: sign * lat, lon: Math.max(-360, Math.min(360, lonDeg + aside)) },
        cone,
        lengths: { xM: lengthM, yM: lengthM * 1.25 },
        areVectorsGridRelative: true,
      }),
    );
  });

const KINDS = [
  ['latitude/longitude', latLonGrids],
  ['rotated', rotatedGrids],
  ['Gaussian', gaussianGrids],
  ['Mercator', mercatorGrids],
  ['conic', conicGrids],
] as const;

const fractions = fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true }));

/** The place of shares of the way along columns and rows. */
const indexAt = (frame: GridFrame, [i, j]: readonly [number, number]) => ({
  columnIndex: i * (frame.columnCount - 1),
  rowIndex: j * (frame.rowCount - 1),
});

/** Distance between two places over the ground, in degrees of a great circle. */
function distanceDeg(a: { lat: number; lon: number }, b: { lat: number; lon: number }): number {
  const half = (x: number): number => Math.sin(rad(x) / 2) ** 2;
  const haversine =
    half(a.lat - b.lat) + Math.cos(rad(a.lat)) * Math.cos(rad(b.lat)) * half(lonDifferenceDeg(a.lon, b.lon));
  return (2 * Math.asin(Math.min(1, Math.sqrt(haversine))) * 180) / Math.PI;
}

const eccentricityOf = (frame: GridFrame): number =>
  frame.kind === 'conic' ? frame.cone.eccentricityRatio : frame.kind === 'mercator' ? frame.eccentricityRatio : 0;

/** Way from one place to a near one, east and north, in units of one length: the two radii of curvature of an ellipsoid differ. */
function wayOver(
  frame: GridFrame,
  from: { lat: number; lon: number },
  to: { lat: number; lon: number },
): [number, number] {
  const eSquared = eccentricityOf(frame) ** 2;
  const sine = Math.sin(rad((from.lat + to.lat) / 2));
  const meridianOverParallel = (1 - eSquared) / (1 - eSquared * sine ** 2);
  return [lonDifferenceDeg(to.lon, from.lon) * Math.sqrt(1 - sine ** 2), (to.lat - from.lat) * meridianOverParallel];
}

describe.each(KINDS)('%s grids', (_, grids) => {
  const run = (check: (grid: PlacedGrid, at: readonly [number, number]) => void, seed: number): void => {
    let drawnCount = 0;
    fc.assert(
      fc.property(grids, fractions, (grid, at) => {
        if (grid === null) return;
        drawnCount += 1;
        check(grid, at);
      }),
      { seed, numRuns: RUN_COUNT },
    );
    expect(drawnCount).toBeGreaterThan(RUN_COUNT / 3);
  };

  it('index of the place of an index: the same index', () => {
    run((grid, at) => {
      const frame = frameOfGrid(grid);
      const index = indexAt(frame, at);
      const place = positionAt(frame, index);
      expect(Number.isFinite(place.lat) && place.lon >= -180 && place.lon < 180).toBe(true);
      const found = toIndex(frame, place);
      // Near a pole of the grid's own coordinates a column is no distance: compare the places.
      expect(found).not.toBeNull();
      if (found === null) return;
      expect(distanceDeg(positionAt(frame, found), place)).toBeLessThan(1e-7);
      expect(found.rowIndex).toBeCloseTo(index.rowIndex, 4);
    }, 11);
  });

  it('positions in file order are those of the frame, and values keep their places', () => {
    run((grid) => {
      const { lats: allLats, lons: allLons } = gridPositions(grid);
      const values = allLats.map((__, i) => i);
      const northUp = toNorthUpGrid(grid, values);
      for (let row = 0; row < northUp.rowCount; row++)
        for (let column = 0; column < northUp.columnCount; column++) {
          const fileIndex = northUp.values[row * northUp.columnCount + column] ?? NaN;
          const place = positionAt(northUp, { columnIndex: column, rowIndex: row });
          const inFile = { lat: allLats[fileIndex] ?? NaN, lon: allLons[fileIndex] ?? NaN };
          expect(distanceDeg(place, inFile)).toBeLessThan(1e-7);
        }
    }, 12);
  });

  it('first point in the file: where it is coded', () => {
    run((grid) => {
      const { lats: allLats, lons: allLons } = gridPositions(grid);
      const first = { lat: allLats[0] ?? NaN, lon: allLons[0] ?? NaN };
      const native = grid.kind === 'rotated-latlon' ? turnedOf(grid, first) : first;
      expect(distanceDeg(native, grid.first)).toBeLessThan(1e-7);
    }, 16);
  });

  it('a part of a grid places its points where the whole does', () => {
    run((grid) => {
      const frame = frameOfGrid(grid);
      const part = { columnIndex: 1, rowIndex: 1, columnCount: frame.columnCount - 1, rowCount: frame.rowCount - 1 };
      const [ours, whole] = [
        { columnIndex: part.columnCount - 1, rowIndex: part.rowCount - 1 },
        { columnIndex: part.columnCount, rowIndex: part.rowCount },
      ];
      expect(distanceDeg(positionAt(partOfFrame(frame, part), ours), positionAt(frame, whole))).toBeLessThan(1e-7);
    }, 13);
  });

  it('east angle: the direction in which places move along a row', () => {
    run((grid, at) => {
      const frame = frameOfGrid(grid);
      const { columnIndex, rowIndex } = indexAt(frame, at);
      const place = positionAt(frame, { columnIndex, rowIndex });
      if (Math.abs(place.lat) > 88) return;
      const stepCount = 1e-4;
      const [west, east] = [columnIndex - stepCount, columnIndex + stepCount].map((i) =>
        positionAt(frame, { columnIndex: i, rowIndex }),
      );
      if (west === undefined || east === undefined || distanceDeg(west, east) < 1e-9) return;
      const [eastward, northward] = wayOver(frame, west, east);
      const angleDeg = (Math.atan2(northward, eastward) * 180) / Math.PI;
      expect(Math.abs(lonDifferenceDeg(eastAngleDeg(frame, place), angleDeg))).toBeLessThan(0.01);
    }, 14);
  });
});

describe('conformal maps', () => {
  it.each([
    ['Mercator', mercatorGrids],
    ['conic', conicGrids],
  ] as const)('%s: columns and rows cross at right angles', (_, grids) => {
    fc.assert(
      fc.property(grids, fractions, (grid, at) => {
        if (grid === null) return;
        const frame = frameOfGrid(grid);
        const { columnIndex, rowIndex } = indexAt(frame, at);
        const place = positionAt(frame, { columnIndex, rowIndex });
        if (Math.abs(place.lat) > 85) return;
        const move = (i: number, j: number): [number, number] =>
          wayOver(frame, place, positionAt(frame, { columnIndex: columnIndex + i, rowIndex: rowIndex + j }));
        const [along, up] = [move(1e-4, 0), move(0, 1e-4)];
        const cosine = (along[0] * up[0] + along[1] * up[1]) / (Math.hypot(...along) * Math.hypot(...up));
        expect(Math.abs(cosine)).toBeLessThan(1e-4);
        expect(along[0] * up[1] - along[1] * up[0]).toBeGreaterThan(0);
      }),
      { seed: 15, numRuns: RUN_COUNT },
    );
  });

  it('a cone about the south pole is the mirror image of one about the north pole', () => {
    const earth = EARTHS[0];
    const north = lambertCone({ latin1Deg: 30, latin2Deg: 60, lonDeg: 175, earth });
    const south = lambertCone({ latin1Deg: -30, latin2Deg: -60, lonDeg: 175, earth });
    if (typeof north === 'string' || typeof south === 'string') throw new Error('two cones');
    const shape = {
      kind: 'lambert',
      ni: 5,
      nj: 4,
      lengths: { xM: 3e5, yM: 3e5 },
      areVectorsGridRelative: false,
    } as const;
    const grids = [
      conicGrid({ ...shape, scanningMode: 64, first: { lat: 40, lon: 170 }, cone: north }),
      conicGrid({ ...shape, scanningMode: 0, first: { lat: -40, lon: 170 }, cone: south }),
    ];
    const [northern, southern] = grids.map((grid) => {
      if (typeof grid === 'string') throw new Error(grid);
      return gridPositions(grid);
    });
    northern?.lats.forEach((lat, i) => {
      expect(southern?.lats[i]).toBeCloseTo(-lat, 10);
      expect(southern?.lons[i]).toBeCloseTo(northern.lons[i] ?? NaN, 10);
    });
  });

  it('isometric latitude: meridional parts of the sphere', () => {
    // ln tan(45° + φ/2); at 60° arcosh 2.
    expect(isometricLatRad(60, 0)).toBeCloseTo(1.316957896924817, 12);
    expect(isometricLatRad(-60, 0)).toBeCloseTo(-1.316957896924817, 12);
  });
});
