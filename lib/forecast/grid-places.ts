import type { Position } from '../geo/index.ts';
import { EDGE_TOLERANCE_RATIO, type GridFrame, indexOfPlace, type LatLonFrame } from '../grib/index.ts';
import { wrap360Deg } from '../units/index.ts';

/** Where places lie in a grid: the grid point to the south-west, the way to its neighbours, and their weights. */
export interface GridPlaces {
  /** Index of the south-western grid point; -1: outside the grid. */
  readonly cornerIndex: Int32Array;
  /** Steps in the value array to the eastern and the northern neighbour; 0 where there is none to weigh. */
  readonly eastStep: Int32Array;
  readonly northStep: Int32Array;
  readonly eastShare: Float64Array;
  readonly northShare: Float64Array;
}

/** Places of points in a grid; longitudes may be given in any turn of the circle. */
export function placesOn(
  grid: GridFrame,
  points: { readonly lat: Float64Array; readonly lon: Float64Array },
): GridPlaces {
  const count = points.lat.length;
  const places = {
    cornerIndex: new Int32Array(count).fill(-1),
    eastStep: new Int32Array(count),
    northStep: new Int32Array(count),
    eastShare: new Float64Array(count),
    northShare: new Float64Array(count),
  };
  for (let i = 0; i < count; i++) {
    const { row, column } = alongBoth(grid, { lat: points.lat[i] ?? Number.NaN, lon: points.lon[i] ?? Number.NaN });
    if (row === null || column === null) continue;
    places.cornerIndex[i] = row.index * grid.columnCount + column.index;
    places.eastStep[i] = column.share === 0 ? 0 : isWrapColumn(grid, column.index) ? -column.index : 1;
    places.northStep[i] = row.share === 0 ? 0 : grid.columnCount;
    places.eastShare[i] = column.share;
    places.northShare[i] = row.share;
  }
  return places;
}

const isWrapColumn = (grid: GridFrame, columnIndex: number): boolean => columnIndex === grid.columnCount - 1;

interface Along {
  readonly index: number;
  readonly share: number;
}

interface AlongBoth {
  readonly row: Along | null;
  readonly column: Along | null;
}

/** Through the grid's own coordinates, so that nothing is resampled. */
function alongBoth(grid: GridFrame, place: Position): AlongBoth {
  if (grid.kind === 'latlon')
    return { row: along(rowOf(grid, place.lat), grid.rowCount), column: columnOf(grid, place.lon) };
  const { rowIndex, columnIndex } = indexOfPlace(grid, place);
  const column = grid.wrapsInLon
    ? along(columnIndex, grid.columnCount + 1, grid.columnCount)
    : along(columnIndex, grid.columnCount);
  return { row: along(rowIndex, grid.rowCount), column };
}

const rowOf = (grid: LatLonFrame, lat: number): number => offsetInSteps(lat - grid.southWest.lat, grid.latStepDeg);

function columnOf(grid: LatLonFrame, lon: number): Along | null {
  const eastDeg = wrap360Deg(lon - grid.southWest.lon);
  if (grid.wrapsInLon) return along(eastDeg / grid.lonStepDeg, grid.columnCount + 1, grid.columnCount);
  // A place a rounding error west of the first column is wrapped to just under 360.
  const signedDeg = eastDeg > 360 - EDGE_TOLERANCE_RATIO ? eastDeg - 360 : eastDeg;
  return along(offsetInSteps(signedDeg, grid.lonStepDeg), grid.columnCount);
}

/** A single row or column has no step: only its own latitude or longitude lies on it. */
function offsetInSteps(offsetDeg: number, stepDeg: number): number {
  if (stepDeg > 0) return offsetDeg / stepDeg;
  return Math.abs(offsetDeg) < EDGE_TOLERANCE_RATIO ? 0 : Number.NaN;
}

/** Whole and broken part of a position in steps; null outside 0 … count − 1. */
function along(stepCount: number, count: number, period = Infinity): Along | null {
  if (!(stepCount >= -EDGE_TOLERANCE_RATIO && stepCount <= count - 1 + EDGE_TOLERANCE_RATIO)) return null;
  const within = Math.min(Math.max(stepCount, 0), count - 1);
  const nearest = Math.round(within);
  const onPoint = Math.abs(within - nearest) < 1e-9;
  const index = onPoint ? nearest : Math.floor(within);
  return { index: index === period ? 0 : index, share: onPoint ? 0 : within - index };
}

/**
 * Bilinear value at place `i`. Where grid points are missing (land) the others are used if they carry at least half
 * of the weight; else NaN.
 */
export function bilinearAt(values: Float32Array, places: GridPlaces, i: number): number {
  const corner = places.cornerIndex[i] ?? Number.NaN;
  if (corner < 0) return Number.NaN;
  const east = corner + (places.eastStep[i] ?? Number.NaN);
  const north = places.northStep[i] ?? Number.NaN;
  const x = places.eastShare[i] ?? Number.NaN;
  const y = places.northShare[i] ?? Number.NaN;
  const southWest = values[corner] ?? Number.NaN;
  const southEast = values[east] ?? Number.NaN;
  const northWest = values[corner + north] ?? Number.NaN;
  const northEast = values[east + north] ?? Number.NaN;
  const south = southWest + (southEast - southWest) * x;
  const value = south + (northWest + (northEast - northWest) * x - south) * y;
  return value === value ? value : partialMean([southWest, southEast, northWest, northEast], x, y);
}

/** Least weight of present grid points from which a value is still read; design: half. */
const LEAST_WEIGHT_SHARE = 0.5;

function partialMean(corners: readonly number[], x: number, y: number): number {
  const weights = [(1 - x) * (1 - y), x * (1 - y), (1 - x) * y, x * y];
  let [sum, weight] = [0, 0];
  for (const [k, value] of corners.entries()) {
    if (Number.isNaN(value)) continue;
    sum += value * (weights[k] ?? 0);
    weight += weights[k] ?? 0;
  }
  return weight >= LEAST_WEIGHT_SHARE - 1e-12 ? sum / weight : Number.NaN;
}
