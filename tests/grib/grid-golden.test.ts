/** Every kind of grid against ecCodes, another reader of the same standard; and against printed tables. */
import { describe, expect, it } from 'vitest';
import { frameOfGrid, gridPositions, positionAt, scanGrib, toIndex } from '../../lib/grib/index.ts';
import { gaussianGrid } from '../../lib/grib/grids/gaussian.ts';
import { gaussianLat } from '../../lib/grib/grids/gaussian-latitudes.ts';
import { geographicOf, turnedOf } from '../../lib/grib/grids/rotated-sphere.ts';
import { gridGoldens, gridMessage, lonDifferenceDeg, octetsOf, placedGrid } from './grid-messages.ts';
import { altered } from './sample-message.ts';

/** ecCodes writes positions of turned spheres to 6 decimals from single-precision constants; all others agree to 1e-9. */
const EQUAL_DEG = (name: string): number => (name.includes('rotated') ? 2e-5 : 1e-6);

describe.each(gridGoldens)('$name', ({ name, bytes, octets, points }) => {
  it('is the message the reference read', () => {
    expect(bytes.length).toBe(octets);
    expect(scanGrib(bytes, name).problems).toEqual([]);
  });

  it('has its points where the reference has them', () => {
    const { lats, lons } = gridPositions(placedGrid(bytes));
    const field = scanGrib(bytes, name).fields[0];
    expect(lats.length).toBe(field?.pointCount);
    const off = points.filter(
      ([index, lat, lon]) =>
        !(Math.abs((lats[index] ?? NaN) - lat) < EQUAL_DEG(name)) ||
        !(Math.abs(lonDifferenceDeg(lons[index] ?? NaN, lon)) < EQUAL_DEG(name)),
    );
    expect(off.map(([index, lat, lon]) => [index, lat, lon, lats[index], lons[index]])).toEqual([]);
    expect(points.length).toBeGreaterThan(19);
  });

  it('finds the column and row of those places, and the place of that column and row', () => {
    const frame = frameOfGrid(placedGrid(bytes));
    for (const [, lat, lon] of points) {
      const index = toIndex(frame, { lat, lon });
      expect(index, `${lat} ${lon}`).not.toBeNull();
      if (index === null) continue;
      expect(index.rowIndex).toBeCloseTo(Math.round(index.rowIndex), 3);
      const back = positionAt(frame, index);
      expect(back.lat).toBeCloseTo(lat, 8);
      expect(Math.abs(lonDifferenceDeg(back.lon, lon)) * Math.cos((lat * Math.PI) / 180)).toBeLessThan(1e-8);
    }
  });
});

describe('gaussianLat', () => {
  // Printed tables: N80 in the description of the ERA-40 archive (dap.ceda.ac.uk/badc/ecmwf-e40/doc/gaussian_grids.txt);
  // N32 as written in the headers of climate models' T42 grids (64 latitudes).
  it.each([
    [80, [89.1416, 88.0294, 86.9108, 85.7906, 84.6699, 83.5489, 82.4278, 81.3066, 80.1853, 79.064, 77.9426, 76.8212]],
    [32, [87.8638, 85.0965, 82.3129, 79.5256, 76.7369, 73.9475, 71.1578, 68.3678, 65.5776, 62.7874, 59.997, 57.2066]],
  ])('N%i: the printed latitudes to their last digit', (parallelCount, printed) => {
    // The first of N80 is printed 89.1416 where 89.14152 would round down.
    const largestDeg = Math.max(...printed.map((lat, k) => Math.abs(gaussianLat(parallelCount, k) - lat)));
    expect(largestDeg).toBeLessThan(1e-4);
  });

  it('N1 and N2: roots in closed form', () => {
    // P2: x = 1/√3; P4: x² = (3 ± 2√(6/5)) / 7.
    const degrees = (sine: number): number => (Math.asin(sine) * 180) / Math.PI;
    expect(gaussianLat(1, 0)).toBeCloseTo(degrees(1 / Math.sqrt(3)), 12);
    expect(gaussianLat(2, 0)).toBeCloseTo(degrees(Math.sqrt((3 + 2 * Math.sqrt(6 / 5)) / 7)), 12);
    expect(gaussianLat(2, 1)).toBeCloseTo(degrees(Math.sqrt((3 - 2 * Math.sqrt(6 / 5)) / 7)), 12);
    expect(gaussianLat(2, 3)).toBe(-gaussianLat(2, 0));
  });

  it.each([1, 2, 3, 47, 320, 1280, 4096])(
    'N%i: northern to southern, none on the equator or a pole',
    (parallelCount) => {
      const some = [0, 1, parallelCount - 1, parallelCount, 2 * parallelCount - 1];
      const lats = [...new Set(some)].toSorted((a, b) => a - b).map((k) => gaussianLat(parallelCount, k));
      expect(lats.every((lat, k) => k === 0 || lat < (lats[k - 1] ?? NaN))).toBe(true);
      expect(lats[0]).toBeLessThan(90);
      expect(Math.abs(lats.at(-1) ?? NaN)).toBeCloseTo(lats[0] ?? NaN, 12);
    },
  );
});

describe('a Mercator grid of unequal lengths', () => {
  it('columns by the one, rows by the other', () => {
    // On a sphere of 6 371 200 m, lengths at 20°: one radian is 5 986 970 m. 250 km are 2.39252°; four rows of 200 km lead from
    // isometric latitude ln tan 44° = −0.0349137 to 0.0987099, whose latitude is 2 arctan(e^0.0987099) − 90° = 5.6465°.
    // ecCodes 2.28 takes the length of x for both (scripts/compare-grib/known-defects.ts).
    const message = altered(gridMessage('mercator-sphere-given'), { sectionNumber: 3, octet: 69 }, octetsOf(200e6, 4));
    const grid = placedGrid(altered(message, { sectionNumber: 3, octet: 52 }, octetsOf(5_646_000, 4)));
    const { lats, lons } = gridPositions(grid);
    expect(lats.at(-1)).toBeCloseTo(5.6465, 4);
    expect(lonDifferenceDeg(lons[1] ?? NaN, lons[0] ?? NaN)).toBeCloseTo(2.39252, 5);
  });
});

describe('all rows of a Gaussian grid', () => {
  it.each([
    [0, [60, -60], [59.444, 19.876, -19.876, -59.444]],
    [64, [-60, 60], [-59.444, -19.876, 19.876, 59.444]],
  ] as const)(
    'scanning mode %i: all parallels, though the corners are coded roughly',
    (scanningMode, [firstLat, lastLat], expected) => {
      const corners = { first: { lat: firstLat, lon: 0 }, last: { lat: lastLat, lon: 270 } };
      const grid = gaussianGrid({ ni: 4, nj: 4, ...corners, scanningMode, parallelCount: 2, storedIncrementDeg: null });
      if (typeof grid === 'string') throw new Error(grid);
      const rows = gridPositions(grid).lats.filter((_, i) => i % 4 === 0);
      expect(Array.from(rows, (lat) => Number(lat.toFixed(3)))).toEqual(expected);
    },
  );
});

describe('a turned sphere', () => {
  it('south pole 39.3° S 18° E: the published example of a limited-area model grid', () => {
    // MATLAB File Exchange 43435, "Rotated grid transform": [12 55], [12 54], [12 53] and back.
    const rotation = { southPole: { lat: -39.3, lon: 18 }, turnDeg: 0 };
    const published = [
      [55, -3.4476, 4.4397],
      [54, -3.5289, 3.443],
      [53, -3.61, 2.4463],
    ] as const;
    for (const [lat, turnedLon, turnedLat] of published) {
      const turned = turnedOf(rotation, { lat, lon: 12 });
      expect([Number(turned.lon.toFixed(4)), Number(turned.lat.toFixed(4))]).toEqual([turnedLon, turnedLat]);
      expect(geographicOf(rotation, turned).lat).toBeCloseTo(lat, 12);
    }
  });

  it('angle of rotation: eastward about the new north pole, as the three turns of the note to template 3.1', () => {
    // Turns written as matrices: about the axis by the pole's longitude, the tilt, about the new axis by the angle.
    const [poleLat, poleLon, turnDeg] = [-36, 245, 25];
    const rad = (angleDeg: number): number => (angleDeg * Math.PI) / 180;
    const aboutZ =
      (angleDeg: number) =>
      ([x, y, z]: readonly number[]): number[] => [
        Math.cos(rad(angleDeg)) * (x ?? 0) - Math.sin(rad(angleDeg)) * (y ?? 0),
        Math.sin(rad(angleDeg)) * (x ?? 0) + Math.cos(rad(angleDeg)) * (y ?? 0),
        z ?? 0,
      ];
    const aboutY =
      (angleDeg: number) =>
      ([x, y, z]: readonly number[]): number[] => [
        Math.cos(rad(angleDeg)) * (x ?? 0) - Math.sin(rad(angleDeg)) * (z ?? 0),
        y ?? 0,
        Math.sin(rad(angleDeg)) * (x ?? 0) + Math.cos(rad(angleDeg)) * (z ?? 0),
      ];
    const [lat, lon] = [-2, -3];
    const native = [
      Math.cos(rad(lat)) * Math.cos(rad(lon)),
      Math.cos(rad(lat)) * Math.sin(rad(lon)),
      Math.sin(rad(lat)),
    ];
    const [x = 0, y = 0, z = 0] = aboutZ(poleLon)(aboutY(90 + poleLat)(aboutZ(turnDeg)(native)));
    const place = geographicOf({ southPole: { lat: poleLat, lon: poleLon }, turnDeg }, { lat, lon });
    expect(place.lat).toBeCloseTo((Math.asin(z) * 180) / Math.PI, 10);
    expect(lonDifferenceDeg(place.lon, (Math.atan2(y, x) * 180) / Math.PI)).toBeCloseTo(0, 10);
    // The south pole stays where the section says.
    expect(geographicOf({ southPole: { lat: poleLat, lon: poleLon }, turnDeg }, { lat: -90, lon: 0 }).lat).toBeCloseTo(
      -36,
      10,
    );
  });
});

describe('the same grid in both editions', () => {
  it.each([
    ['rotated', 'edition-1-rotated'],
    ['reduced-n32', 'edition-1-reduced-n32'],
    ['thinned-latlon', 'edition-1-thinned-latlon'],
    ['gaussian-part', 'edition-1-gaussian'],
  ])('%s', (edition2, edition1) => {
    const [theirs, ours] = [edition2, edition1].map((name) => gridPositions(placedGrid(gridMessage(name))));
    const largestDeg = (a: Float64Array, b: Float64Array): number =>
      a.reduce((most, value, i) => Math.max(most, Math.abs(lonDifferenceDeg(value, b[i] ?? NaN))), 0);
    if (theirs === undefined || ours === undefined) throw new Error('two grids');
    expect(ours.lats.length).toBe(theirs.lats.length);
    // Corners are coded to a millidegree in edition 1.
    expect(largestDeg(theirs.lats, ours.lats)).toBeLessThan(0.001);
    expect(largestDeg(theirs.lons, ours.lons)).toBeLessThan(0.001);
  });
});
