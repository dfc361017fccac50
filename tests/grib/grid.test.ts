/** Where points lie: flag table 3.4 worked by hand for a grid of 3 columns and 2 rows, and the corners' traps. */
import { describe, expect, it } from 'vitest';
import { gridPositions, type RegularLatLonGrid, scanGrib, toNorthUpGrid } from '../../lib/grib/index.ts';
import { regularLatLon } from '../../lib/grib/grids/regular-lat-lon.ts';
import { altered, smallMessage } from './sample-message.ts';

/** Columns at 10, 20, 30° E, rows at 50 and 60° N. */
function gridOf(scanningMode: number): RegularLatLonGrid {
  const [west, east] = [10, 30];
  const isWestward = (scanningMode & 128) !== 0;
  const isNorthward = (scanningMode & 64) !== 0;
  const grid = regularLatLon({
    ni: 3,
    nj: 2,
    first: { lat: isNorthward ? 50 : 60, lon: isWestward ? east : west },
    last: { lat: isNorthward ? 60 : 50, lon: isWestward ? west : east },
    stored: { iIncrementDeg: null, jIncrementDeg: null },
    scanningMode,
  });
  if (typeof grid === 'string') throw new Error(grid);
  return grid;
}

const longitudesAndLatitudes = (grid: RegularLatLonGrid): string => {
  const { lats, lons } = gridPositions(grid);
  return Array.from(lats, (lat, i) => `${lons[i]}/${lat}`).join(' ');
};

/** Written down from the table's words: bit 1 westward, bit 2 northward, bit 3 along meridians, bit 4 turning back. */
const ORDERS: readonly (readonly [number, string])[] = [
  [0, '10/60 20/60 30/60 10/50 20/50 30/50'],
  [128, '30/60 20/60 10/60 30/50 20/50 10/50'],
  [64, '10/50 20/50 30/50 10/60 20/60 30/60'],
  [192, '30/50 20/50 10/50 30/60 20/60 10/60'],
  [32, '10/60 10/50 20/60 20/50 30/60 30/50'],
  [160, '30/60 30/50 20/60 20/50 10/60 10/50'],
  [96, '10/50 10/60 20/50 20/60 30/50 30/60'],
  [224, '30/50 30/60 20/50 20/60 10/50 10/60'],
  [16, '10/60 20/60 30/60 30/50 20/50 10/50'],
  [144, '30/60 20/60 10/60 10/50 20/50 30/50'],
  [80, '10/50 20/50 30/50 30/60 20/60 10/60'],
  [208, '30/50 20/50 10/50 10/60 20/60 30/60'],
  [48, '10/60 10/50 20/50 20/60 30/60 30/50'],
  [176, '30/60 30/50 20/50 20/60 10/60 10/50'],
  [112, '10/50 10/60 20/60 20/50 30/50 30/60'],
  [240, '30/50 30/60 20/60 20/50 10/50 10/60'],
];

describe.each(ORDERS)('scanning mode %i', (scanningMode, order) => {
  it('points stand in the order of flag table 3.4', () => {
    expect(longitudesAndLatitudes(gridOf(scanningMode))).toBe(order);
  });

  it('north-up grid: south-west first, then eastward and northward', () => {
    const grid = gridOf(scanningMode);
    const { lats, lons } = gridPositions(grid);
    const northUp = toNorthUpGrid(
      grid,
      lats.map((lat, i) => lat * 1000 + (lons[i] ?? 0)),
    );
    expect(Array.from(northUp.values)).toEqual([50_010, 50_020, 50_030, 60_010, 60_020, 60_030]);
    expect(northUp).toMatchObject({
      southWest: { lat: 50, lon: 10 },
      lonStepDeg: 10,
      latStepDeg: 10,
      columnCount: 3,
      rowCount: 2,
      wrapsInLon: false,
    });
  });
});

const columnsOf = (ni: number, lons: { first: number; last: number }, storedDeg: number | null = null) =>
  regularLatLon({
    ni,
    nj: 2,
    first: { lat: 1, lon: lons.first },
    last: { lat: 0, lon: lons.last },
    stored: { iIncrementDeg: storedDeg, jIncrementDeg: null },
    scanningMode: 0,
  });

describe('columns', () => {
  it.each([
    ['0 to 359.75: a whole turn', columnsOf(1440, { first: 0, last: 359.75 }), 0.25, true],
    ['180 to 179.75: a whole turn from the date line', columnsOf(1440, { first: 180, last: 179.75 }), 0.25, true],
    ['last corner written −0.25: a whole turn', columnsOf(1440, { first: 0, last: -0.25 }), 0.25, true],
    ['0 to 360 in 1441 columns: the last repeats the first', columnsOf(1441, { first: 0, last: 360 }), 0.25, true],
    [
      '0 to 360 in 1440 columns, step 0.25 given: one short of a turn',
      columnsOf(1440, { first: 0, last: 360 }, 0.25),
      0.25,
      true,
    ],
    ['336.5 to 62.5: across Greenwich', columnsOf(1377, { first: 336.5, last: 62.5 }), 0.0625, false],
    ['352 to 12: across Greenwich', columnsOf(201, { first: 352, last: 12 }), 0.1, false],
    ['150 to 209: across the date line', columnsOf(60, { first: 150, last: 209 }), 1, false],
    ['170 to −170: across the date line, signed', columnsOf(21, { first: 170, last: -170 }), 1, false],
    ['step stored wrong: corners win', columnsOf(72, { first: 0, last: 355 }, 2), 5, true],
    ['one column', columnsOf(1, { first: 20, last: 20 }), 0, false],
  ])('%s', (_, grid, iIncrementDeg, isGlobalInLon) => {
    expect(grid).toMatchObject({ isGlobalInLon });
    expect(typeof grid === 'string' ? NaN : grid.iIncrementDeg).toBeCloseTo(iIncrementDeg, 9);
  });

  it('a repeated last column is left out of the north-up grid', () => {
    const grid = columnsOf(5, { first: 0, last: 360 });
    if (typeof grid === 'string') throw new Error(grid);
    const northUp = toNorthUpGrid(grid, Float64Array.from([1, 2, 3, 4, 1, 5, 6, 7, 8, 5]));
    expect(northUp).toMatchObject({ columnCount: 4, wrapsInLon: true, lonStepDeg: 90 });
    expect(Array.from(northUp.values)).toEqual([5, 6, 7, 8, 1, 2, 3, 4]);
  });
});

describe('basic angle', () => {
  it('1/1000 of a degree: corners are counted in that', () => {
    const inThousandths = [0x80, 0, 0x75, 0x30]; // −30000
    const message = altered(smallMessage(), { sectionNumber: 3, octet: 39 }, [0, 0, 0, 1, 0, 0, 0x03, 0xe8]);
    const first = altered(message, { sectionNumber: 3, octet: 47 }, [...inThousandths, 0, 2, 0xb7, 0x50]);
    const last = altered(first, { sectionNumber: 3, octet: 56 }, [0x80, 0, 0x65, 0x90, 0, 2, 0xc3, 0x08]);
    const { grid } = scanGrib(last, 'basic angle').fields[0] ?? {};
    expect(grid).toMatchObject({ first: { lat: -30, lon: 178 }, last: { lat: -26, lon: 181 }, jIncrementDeg: 2 });
  });
});
