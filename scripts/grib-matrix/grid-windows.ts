/** Windows of a regular latitude/longitude grid as ecCodes' keys, in every scanning mode. */

/** Corners [degrees]; columns run eastward from `west`. */
interface GridWindow {
  readonly name: string;
  readonly west: number;
  readonly north: number;
  readonly incrementDeg: number;
}

export const WINDOW_COLUMNS = 40;
export const WINDOW_ROWS = 30;
export const WINDOW_POINTS = WINDOW_COLUMNS * WINDOW_ROWS;

export const WINDOWS: readonly GridWindow[] = [
  { name: 'south', west: 10, north: -20, incrementDeg: 1 },
  { name: 'across the date line', west: 160, north: -5, incrementDeg: 1 },
  { name: 'across Greenwich', west: 340, north: 60, incrementDeg: 1 },
  { name: 'across the equator', west: 300, north: 3.5, incrementDeg: 0.25 },
  { name: 'north', west: 200.5, north: 75, incrementDeg: 0.5 },
];

/** Flag table 3.4; bits of edition 1's flag table 8 where they are the same. */
const I_NEGATIVE = 128;
const J_POSITIVE = 64;
const J_CONSECUTIVE = 32;
const ALTERNATING = 16;

/** Assignments that lay the grid into a window; the corners follow the scanning mode. */
export function windowHeader(window: GridWindow, scanningMode: number): string[] {
  const east = (window.west + (WINDOW_COLUMNS - 1) * window.incrementDeg) % 360;
  const south = window.north - (WINDOW_ROWS - 1) * window.incrementDeg;
  const has = (flag: number): boolean => (scanningMode & flag) !== 0;
  const [firstLat, lastLat] = has(J_POSITIVE) ? [south, window.north] : [window.north, south];
  const [firstLon, lastLon] = has(I_NEGATIVE) ? [east, window.west] : [window.west, east];
  return [
    `Ni=${WINDOW_COLUMNS}`,
    `Nj=${WINDOW_ROWS}`,
    `latitudeOfFirstGridPointInDegrees=${firstLat}`,
    `latitudeOfLastGridPointInDegrees=${lastLat}`,
    `longitudeOfFirstGridPointInDegrees=${firstLon}`,
    `longitudeOfLastGridPointInDegrees=${lastLon}`,
    `iDirectionIncrementInDegrees=${window.incrementDeg}`,
    `jDirectionIncrementInDegrees=${window.incrementDeg}`,
    `iScansNegatively=${has(I_NEGATIVE) ? 1 : 0}`,
    `jScansPositively=${has(J_POSITIVE) ? 1 : 0}`,
    `jPointsAreConsecutive=${has(J_CONSECUTIVE) ? 1 : 0}`,
    ...(has(ALTERNATING) ? ['alternativeRowScanning=1'] : []),
  ];
}
