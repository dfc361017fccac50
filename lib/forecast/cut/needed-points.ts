/** Grid points that interpolation near a way reads. */
import { greatCircle, NM_PER_DEG, type Position } from '../../geo/index.ts';
import type { LatLonFrame } from '../../grib/index.ts';
import { wrap180Deg } from '../../units/index.ts';
import { type Corridor, lonReachDeg } from './way.ts';

/** One number for each grid point, row by row from the south-west: 1 where it is needed. */
export type PointMask = Uint8Array;

/** Between two neighbouring rows, or columns; a single one is its own neighbour. Degrees of the lower one, and to the higher. */
interface Gap {
  readonly lowIndex: number;
  readonly highIndex: number;
  readonly lowDeg: number;
  readonly widthDeg: number;
}

function gapsOf(count: number, isRound: boolean, at: { readonly firstDeg: number; readonly stepDeg: number }): Gap[] {
  const { firstDeg, stepDeg } = at;
  if (count === 1) return [{ lowIndex: 0, highIndex: 0, lowDeg: firstDeg, widthDeg: 0 }];
  return Array.from({ length: isRound ? count : count - 1 }, (_, k) => ({
    lowIndex: k,
    highIndex: (k + 1) % count,
    lowDeg: firstDeg + k * stepDeg,
    widthDeg: stepDeg,
  }));
}

/**
 * The corners of every grid cell within reach of some places of the way (from `fromIndex` up to `toIndex`, exclusive), and
 * of `spareCellCount` cells around them.
 */
export function neededPoints(
  grid: LatLonFrame,
  corridor: Corridor,
  of: { readonly fromIndex: number; readonly toIndex: number; readonly spareCellCount: number },
): PointMask {
  const { southWest, latStepDeg, lonStepDeg, rowCount, columnCount, wrapsInLon } = grid;
  const rows = gapsOf(rowCount, false, { firstDeg: southWest.lat, stepDeg: latStepDeg });
  const columns = gapsOf(columnCount, wrapsInLon, { firstDeg: southWest.lon, stepDeg: lonStepDeg });
  const mask = new Uint8Array(columnCount * rowCount);
  for (const place of corridor.places.slice(of.fromIndex, of.toIndex)) {
    for (const { row, column } of cellsNear(place, corridor.reachNm, { rows, columns })) {
      for (const rowIndex of [row.lowIndex, row.highIndex]) {
        mask[rowIndex * columnCount + column.lowIndex] = 1;
        mask[rowIndex * columnCount + column.highIndex] = 1;
      }
    }
  }
  let widened: PointMask = mask;
  for (let k = 0; k < of.spareCellCount; k++) widened = withNeighbours(widened, grid);
  return widened;
}

interface Cell {
  readonly row: Gap;
  readonly column: Gap;
}

function cellsNear(
  place: Position,
  reachNm: number,
  { rows, columns }: { readonly rows: readonly Gap[]; readonly columns: readonly Gap[] },
): readonly Cell[] {
  const reachDeg = reachNm / NM_PER_DEG;
  const lonReach = lonReachDeg(place.lat, reachDeg);
  const nearRows = rows.filter(({ lowDeg, widthDeg }) => Math.abs(outside(place.lat - lowDeg, widthDeg)) <= reachDeg);
  const nearColumns = columns.filter((column) => Math.abs(outside(eastOf(place, column), column.widthDeg)) <= lonReach);
  return nearRows.flatMap((row) =>
    nearColumns.map((column) => ({ row, column })).filter((cell) => isNear(cell, place, reachNm)),
  );
}

/** How far a place lies outside a gap, negative below it; 0 within. */
const outside = (fromLowDeg: number, widthDeg: number): number =>
  fromLowDeg < 0 ? fromLowDeg : Math.max(0, fromLowDeg - widthDeg);

/** Degrees from the lower column eastward to the place, the shorter way from the middle of the gap. */
const eastOf = ({ lon }: Position, { lowDeg, widthDeg }: Gap): number =>
  wrap180Deg(lon - lowDeg - widthDeg / 2) + widthDeg / 2;

/** By the nearest point of the cell in latitude and longitude, and by its corners, which near a pole may be nearer. */
function isNear({ row, column }: Cell, place: Position, reachNm: number): boolean {
  const southLat = row.lowDeg;
  const westLon = column.lowDeg;
  const nearest = {
    lat: Math.min(Math.max(place.lat, southLat), southLat + row.widthDeg),
    lon: place.lon - outside(eastOf(place, column), column.widthDeg),
  };
  const corners = [southLat, southLat + row.widthDeg].flatMap((lat) => [
    { lat, lon: westLon },
    { lat, lon: westLon + column.widthDeg },
  ]);
  return [nearest, ...corners].some((point) => greatCircle(place, point).distanceNm <= reachNm);
}

/** The needed points and all their neighbours. */
function withNeighbours(mask: PointMask, { columnCount, rowCount, wrapsInLon }: LatLonFrame): PointMask {
  const widened = new Uint8Array(mask.length);
  for (const [index, needed] of mask.entries()) {
    if (needed === 0) continue;
    const [rowIndex, columnIndex] = [Math.floor(index / columnCount), index % columnCount];
    for (const row of [rowIndex - 1, rowIndex, rowIndex + 1]) {
      for (const column of [columnIndex - 1, columnIndex, columnIndex + 1]) {
        const round = wrapsInLon ? (column + columnCount) % columnCount : column;
        if (row >= 0 && row < rowCount && round >= 0 && round < columnCount) widened[row * columnCount + round] = 1;
      }
    }
  }
  return widened;
}
