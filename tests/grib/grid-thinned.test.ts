/** Rows of different length: where their points lie, and how they become a regular grid. */
import { describe, expect, it } from 'vitest';
import {
  formatGrid,
  frameOfGrid,
  gridPositions,
  type PlacedGrid,
  positionAt,
  scanGrib,
  toNorthUpGrid,
} from '../../lib/grib/index.ts';
import { placedGrid, thinnedMessage } from './grid-messages.ts';
import { codesOf } from './sample-message.ts';

const listed = (grid: PlacedGrid): string => {
  const { lats, lons } = gridPositions(grid);
  return Array.from(lats, (lat, i) => `${Number((lons[i] ?? NaN).toFixed(6))}/${Number(lat.toFixed(6))}`).join(' ');
};

/** Three rows between 0 and 40° E at 10, 20 and 30° N. */
const wedge = { counts: [2, 3, 5], first: [10, 0], last: [30, 40], meaning: 2, scanningMode: 64 } as const;

describe('positions of thinned rows', () => {
  it('between the extremes (code table 3.11, 2): both ends in each row', () => {
    expect(listed(placedGrid(thinnedMessage(wedge)))).toBe('0/10 40/10 0/20 20/20 40/20 0/30 10/30 20/30 30/30 40/30');
  });

  it('scanned southward, westward and with every second row turned back', () => {
    const grid = placedGrid(thinnedMessage({ ...wedge, first: [30, 40], last: [10, 0], scanningMode: 128 + 16 }));
    expect(listed(grid)).toBe('40/30 0/30 0/20 20/20 40/20 40/10 30/10 20/10 10/10 0/10');
  });

  it('whole circles (3.11, 1): each row goes round once', () => {
    const grid = placedGrid(thinnedMessage({ counts: [4, 8, 4], first: [30, 0], last: [-30, 315], meaning: 1 }));
    expect(listed(grid)).toBe(
      '0/30 90/30 -180/30 -90/30 0/0 45/0 90/0 135/0 -180/0 -135/0 -90/0 -45/0 0/-30 90/-30 -180/-30 -90/-30',
    );
    expect(grid).toMatchObject({ isGlobalInLon: true });
  });

  it('parts of circles: multiples of the mesh that lie between the extremes', () => {
    // Full circles of 36 and 18 points, of which those from 25 to 70° E are there: 30 … 70 and 40, 60.
    const message = thinnedMessage({ counts: [36, 18], first: [10, 25], last: [0, 70], meaning: 1, pointCount: 7 });
    expect(listed(placedGrid(message))).toBe('30/10 40/10 50/10 60/10 70/10 40/0 60/0');
  });

  it('parts of circles across Greenwich', () => {
    const message = thinnedMessage({ counts: [36, 18], first: [10, 345], last: [0, 20], meaning: 1, pointCount: 6 });
    expect(listed(placedGrid(message))).toBe('-10/10 0/10 10/10 20/10 0/0 20/0');
  });

  it('meaning 1 stated, but the points declared are those of the list: between the extremes', () => {
    expect(listed(placedGrid(thinnedMessage({ ...wedge, meaning: 1 })))).toBe(
      listed(placedGrid(thinnedMessage(wedge))),
    );
  });

  it.each([1, 2, 3, 4])('numbers of %i octets', (widthOctets) => {
    expect(listed(placedGrid(thinnedMessage({ ...wedge, widthOctets })))).toBe(
      listed(placedGrid(thinnedMessage(wedge))),
    );
  });

  it('rows without points and rows of one', () => {
    const grid = placedGrid(thinnedMessage({ ...wedge, counts: [0, 1, 3] }));
    expect(listed(grid)).toBe('0/20 0/30 20/30 40/30');
  });

  it('named with its rows', () => {
    const [field] = scanGrib(thinnedMessage(wedge), 'x').fields;
    expect(field === undefined ? '' : formatGrid(field)).toBe(
      'thinned latitude/longitude 3 rows of 2 to 5 points, rows 10° apart',
    );
  });
});

/** Values in file order of a function of place. */
function valuesOf(grid: PlacedGrid, value: (lat: number, lon: number) => number): Float64Array {
  const { lats, lons } = gridPositions(grid);
  return lats.map((lat, i) => value(lat, lons[i] ?? NaN));
}

describe('expansion of thinned rows', () => {
  it.each([
    ['between the extremes', thinnedMessage(wedge)],
    ['scanned the other way', thinnedMessage({ ...wedge, first: [30, 40], last: [10, 0], scanningMode: 128 })],
    ['turning back', thinnedMessage({ ...wedge, scanningMode: 64 + 16 })],
    ['across the date line', thinnedMessage({ ...wedge, first: [10, 350], last: [30, 30] })],
  ])('%s: a linear field stays linear', (_, message) => {
    const grid = placedGrid(message);
    // Longitude counted from −10, so that no row jumps.
    const field = (lat: number, lon: number): number => 3 * lat + 0.5 * (lon + 10);
    const northUp = toNorthUpGrid(grid, valuesOf(grid, field));
    expect([northUp.columnCount, northUp.rowCount]).toEqual([5, 3]);
    for (let row = 0; row < 3; row++)
      for (let column = 0; column < 5; column++) {
        const { lat, lon } = positionAt(northUp, { columnIndex: column, rowIndex: row });
        expect(northUp.values[row * 5 + column]).toBeCloseTo(field(lat, lon), 4);
      }
  });

  it('whole circles: linear between neighbours across Greenwich too', () => {
    const grid = placedGrid(thinnedMessage({ counts: [4, 8], first: [0, 0], last: [-30, 315], meaning: 1 }));
    const northUp = toNorthUpGrid(grid, Float64Array.from([0, 10, 20, 30, 1, 2, 3, 4, 5, 6, 7, 8]));
    expect(northUp).toMatchObject({ wrapsInLon: true, columnCount: 8, lonStepDeg: 45 });
    expect(Array.from(northUp.values)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 0, 5, 10, 15, 20, 25, 30, 15]);
  });

  it('a missing point: the other neighbour where it carries half of the weight', () => {
    const grid = placedGrid(thinnedMessage(wedge));
    const values = Float64Array.from([5, NaN, 1, NaN, 9, 1, 2, NaN, 4, 5]);
    expect(Array.from(toNorthUpGrid(grid, values).values)).toEqual([
      5,
      5,
      5,
      NaN,
      NaN,
      1,
      1,
      NaN,
      9,
      9,
      1,
      2,
      NaN,
      4,
      5,
    ]);
  });

  it('a missing first point: nothing nearer to it than to the second', () => {
    const grid = placedGrid(thinnedMessage(wedge));
    const values = Float64Array.from([NaN, 9, 1, 1, 1, 1, 1, 1, 1, 1]);
    expect(Array.from(toNorthUpGrid(grid, values).values.subarray(0, 5))).toEqual([NaN, NaN, 9, 9, 9]);
  });

  it('a row of one point: that value along the row; a row of none: missing', () => {
    const grid = placedGrid(thinnedMessage({ ...wedge, counts: [0, 1, 3] }));
    const values = toNorthUpGrid(grid, Float64Array.from([7, 1, 2, 3])).values;
    expect(Array.from(values)).toEqual([NaN, NaN, NaN, 7, 7, 7, 1, 2, 3]);
  });

  it('parts of circles: ends of a row that reach less far than the longest', () => {
    const message = thinnedMessage({ counts: [36, 18], first: [10, 25], last: [0, 70], meaning: 1, pointCount: 7 });
    const grid = placedGrid(message);
    const northUp = toNorthUpGrid(grid, Float64Array.from([3, 4, 5, 6, 7, 40, 60]));
    // Row 0 (equator) at 30, 40, 50, 60, 70: half way from 40 to what is not there, and from 60.
    expect(Array.from(northUp.values)).toEqual([40, 40, 50, 60, 60, 3, 4, 5, 6, 7]);
  });

  it('Gaussian rows: on their parallels', () => {
    // N2: roots 59.444° and 19.876°.
    const message = thinnedMessage({
      counts: [4, 8, 8, 4],
      first: [59.444, 0],
      last: [-59.444, 315],
      meaning: 1,
      parallelCount: 2,
    });
    const frame = frameOfGrid(placedGrid(message));
    expect(frame).toMatchObject({ kind: 'gaussian', columnCount: 8, rowCount: 4, wrapsInLon: true });
    expect(positionAt(frame, { columnIndex: 1, rowIndex: 3 }).lat).toBeCloseTo(59.4444, 4);
    expect(positionAt(frame, { columnIndex: 1, rowIndex: 2 }).lat).toBeCloseTo(19.8757, 4);
  });
});

describe('lists that are wrong', () => {
  it.each([
    ['sum is not the number of points', { ...wedge, pointCount: 11 }, 'grib.grid-inconsistent'],
    ['longer than the section', { ...wedge, counts: [2, 3, 5], widthOctets: 5 }, 'grib.grid-unsupported'],
    ['list of latitudes', { ...wedge, meaning: 3 }, 'grib.grid-unsupported'],
    ['thinned along meridians', { ...wedge, scanningMode: 64 + 32 }, 'grib.grid-unsupported'],
    ['shifted rows', { ...wedge, scanningMode: 64 + 8 }, 'grib.grid-unsupported'],
    ['all rows empty', { ...wedge, counts: [0, 0, 0] }, 'grib.grid-inconsistent'],
    ['rows against the scan', { ...wedge, scanningMode: 0 }, 'grib.grid-inconsistent'],
    [
      'one long row of many',
      { ...wedge, counts: [40_000, ...Array.from({ length: 2000 }, () => 1)] },
      'grib.too-many-points',
    ],
    ['numbers of no width', { ...wedge, widthOctets: 0, pointCount: 10 }, 'grib.grid-inconsistent'],
    ['no parallels', { ...wedge, parallelCount: 0 }, 'grib.grid-inconsistent'],
    ['not the parallels', { ...wedge, parallelCount: 80 }, 'grib.grid-inconsistent'],
  ])('%s', (_, from, code) => {
    expect(codesOf(thinnedMessage(from))).toEqual([code]);
  });

  it('section cut before the end of the list', () => {
    const message = thinnedMessage(wedge);
    // Nj = 300: 228 rows more than the section has room for.
    message.set([0, 0, 1, 44], 16 + 21 + 34);
    expect(codesOf(message)).toEqual(['grib.section-too-short']);
  });
});
