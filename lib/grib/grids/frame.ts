/**
 * A grid in its own coordinates, turned so that rows run from south to north and columns from west to east: what it takes to
 * go from a place to columns and rows and back. Columns and rows count from 0 in the south-west and may be fractions.
 */
import { assertNever } from '../../result/index.ts';
import { degFromRad, wrap180Deg, wrap360Deg } from '../../units/index.ts';
import type { Cone, LatLon, RotatedLatLonGrid } from '../grid.ts';
import { coneEastAngleDeg, type MapPoint, offCone, onCone } from './cone.ts';
import { latOfHalfColatitudeTangent } from './conformal.ts';
import { isometricLatRad } from './mercator.ts';
import { geographicOf, rotatedEastAngleDeg, turnedOf } from './rotated-sphere.ts';

/** What all frames have. */
export interface FrameShape {
  readonly columnCount: number;
  readonly rowCount: number;
  /** The column after the last is the first again. A repeated last column has been left out. */
  readonly wrapsInLon: boolean;
}

/** Meridians and parallels at equal distances. */
export interface LatLonFrame extends FrameShape {
  readonly kind: 'latlon';
  /** First column and row; longitude in [-180, 180). Later columns may pass 180: longitude = southWest.lon + i · lonStepDeg. */
  readonly southWest: LatLon;
  /** 0 with one column. */
  readonly lonStepDeg: number;
  /** 0 with one row. */
  readonly latStepDeg: number;
}

/** Meridians and parallels of a turned sphere at equal distances; corner and steps count in the turned coordinates. */
export interface RotatedFrame extends Omit<LatLonFrame, 'kind'>, Pick<RotatedLatLonGrid, 'southPole' | 'turnDeg'> {
  readonly kind: 'rotated';
}

/** Meridians at equal distances, and parallels listed one by one from south to north. */
export interface GaussianFrame extends FrameShape {
  readonly kind: 'gaussian';
  readonly westLonDeg: number;
  readonly lonStepDeg: number;
  readonly rowLats: Float64Array;
}

/** Meridians at equal distances, and parallels at equal distances on a Mercator map. */
export interface MercatorFrame extends FrameShape {
  readonly kind: 'mercator';
  readonly westLonDeg: number;
  readonly lonStepDeg: number;
  /** Isometric latitude of the first row. */
  readonly southRad: number;
  readonly rowStepRad: number;
  readonly eccentricityRatio: number;
}

/** Points at equal distances on a conic or stereographic map. */
export interface ConicFrame extends FrameShape {
  readonly kind: 'conic';
  readonly cone: Cone;
  readonly southWest: MapPoint;
  readonly columnStepM: number;
  readonly rowStepM: number;
}

export type GridFrame = LatLonFrame | RotatedFrame | GaussianFrame | MercatorFrame | ConicFrame;

/** A place in a frame: fractions of columns and rows. */
export interface FrameIndex {
  readonly columnIndex: number;
  readonly rowIndex: number;
}

/** Share of a step that counts as on the edge: corners are coded in micro- or millidegrees. */
export const EDGE_TOLERANCE_RATIO = 1e-4;

/** Column and row of a place, or null when it lies outside the grid. Nothing is extrapolated. */
export function toIndex(frame: GridFrame, place: LatLon): FrameIndex | null {
  const { columnIndex, rowIndex } = indexOfPlace(frame, place);
  const lastColumn = frame.wrapsInLon ? frame.columnCount : frame.columnCount - 1;
  const isInside =
    columnIndex >= -EDGE_TOLERANCE_RATIO &&
    columnIndex <= lastColumn + EDGE_TOLERANCE_RATIO &&
    rowIndex >= -EDGE_TOLERANCE_RATIO &&
    rowIndex <= frame.rowCount - 1 + EDGE_TOLERANCE_RATIO;
  return isInside ? { columnIndex, rowIndex } : null;
}

/**
 * As `toIndex`, followed beyond the edges of the grid; NaN or infinite where its map does not reach. Columns outside are
 * counted the shorter way from the middle of the grid.
 */
export function indexOfPlace(frame: GridFrame, place: LatLon): FrameIndex {
  switch (frame.kind) {
    case 'latlon':
      return { columnIndex: columnOf(frame, frame.southWest.lon, place.lon), rowIndex: rowOf(frame, place.lat) };
    case 'rotated': {
      const turned = turnedOf(frame, place);
      return { columnIndex: columnOf(frame, frame.southWest.lon, turned.lon), rowIndex: rowOf(frame, turned.lat) };
    }
    case 'gaussian':
      return {
        columnIndex: columnOf(frame, frame.westLonDeg, place.lon),
        rowIndex: rowAmong(frame.rowLats, place.lat),
      };
    case 'mercator': {
      const northwardRad = isometricLatRad(place.lat, frame.eccentricityRatio) - frame.southRad;
      return {
        columnIndex: columnOf(frame, frame.westLonDeg, place.lon),
        rowIndex: inSteps({ wayDeg: degFromRad(northwardRad), stepDeg: degFromRad(frame.rowStepRad) }),
      };
    }
    case 'conic': {
      const { xM, yM } = onCone(frame.cone, place);
      const { southWest, columnStepM, rowStepM } = frame;
      return { columnIndex: (xM - southWest.xM) / columnStepM, rowIndex: (yM - southWest.yM) / rowStepM };
    }
    default:
      return assertNever(frame);
  }
}

/** A way counted in steps. A single row or column has no step: only its own latitude or longitude lies on it. */
function inSteps({ wayDeg, stepDeg }: { readonly wayDeg: number; readonly stepDeg: number }): number {
  if (stepDeg > 0) return wayDeg / stepDeg;
  return Math.abs(wayDeg) < EDGE_TOLERANCE_RATIO ? 0 : Number.NaN;
}

const rowOf = (frame: Pick<LatLonFrame, 'southWest' | 'latStepDeg'>, lat: number): number =>
  inSteps({ wayDeg: lat - frame.southWest.lat, stepDeg: frame.latStepDeg });

type Columns = FrameShape & Pick<LatLonFrame, 'lonStepDeg'>;

function columnOf(frame: Columns, westLonDeg: number, lon: number): number {
  if (frame.wrapsInLon) return wrap360Deg(lon - westLonDeg) / frame.lonStepDeg;
  const halfSpanDeg = (frame.lonStepDeg * (frame.columnCount - 1)) / 2;
  const eastwardDeg = wrap180Deg(lon - westLonDeg - halfSpanDeg) + halfSpanDeg;
  return inSteps({ wayDeg: eastwardDeg, stepDeg: frame.lonStepDeg });
}

/** Between two parallels by latitude; beyond the outermost by the distance to their neighbour. */
function rowAmong(rowLats: Float64Array, lat: number): number {
  const last = rowLats.length - 1;
  if (last === 0) return inSteps({ wayDeg: lat - (rowLats[0] ?? Number.NaN), stepDeg: 0 });
  let [south, north] = [0, last];
  while (north - south > 1) {
    const middle = (south + north) >> 1;
    if ((rowLats[middle] ?? Number.NaN) <= lat) south = middle;
    else north = middle;
  }
  const [southLat, northLat] = [rowLats[south] ?? Number.NaN, rowLats[north] ?? Number.NaN];
  return south + (lat - southLat) / (northLat - southLat);
}

/** Place of a column and a row; longitude in [-180, 180). */
export function positionAt(frame: GridFrame, { columnIndex, rowIndex }: FrameIndex): LatLon {
  switch (frame.kind) {
    case 'latlon':
      return {
        lat: frame.southWest.lat + rowIndex * frame.latStepDeg,
        lon: wrap180Deg(frame.southWest.lon + columnIndex * frame.lonStepDeg),
      };
    case 'rotated':
      return geographicOf(frame, {
        lat: frame.southWest.lat + rowIndex * frame.latStepDeg,
        lon: frame.southWest.lon + columnIndex * frame.lonStepDeg,
      });
    case 'gaussian':
      return {
        lat: latAmong(frame.rowLats, rowIndex),
        lon: wrap180Deg(frame.westLonDeg + columnIndex * frame.lonStepDeg),
      };
    case 'mercator': {
      const tangent = Math.exp(-(frame.southRad + rowIndex * frame.rowStepRad));
      return {
        lat: degFromRad(latOfHalfColatitudeTangent(tangent, frame.eccentricityRatio)),
        lon: wrap180Deg(frame.westLonDeg + columnIndex * frame.lonStepDeg),
      };
    }
    case 'conic':
      return offCone(frame.cone, {
        xM: frame.southWest.xM + columnIndex * frame.columnStepM,
        yM: frame.southWest.yM + rowIndex * frame.rowStepM,
      });
    default:
      return assertNever(frame);
  }
}

function latAmong(rowLats: Float64Array, rowIndex: number): number {
  const south = Math.min(Math.max(Math.floor(rowIndex), 0), Math.max(0, rowLats.length - 2));
  const southLat = rowLats[south] ?? Number.NaN;
  return rowIndex === south
    ? southLat
    : southLat + (rowIndex - south) * ((rowLats[south + 1] ?? Number.NaN) - southLat);
}

/**
 * Angle from true east to the direction of growing columns, counterclockwise [degrees]: what components along the grid are
 * turned by to point to true east and north. 0 where columns are meridians.
 */
export function eastAngleDeg(frame: GridFrame, place: LatLon): number {
  switch (frame.kind) {
    case 'rotated':
      return rotatedEastAngleDeg(frame, place);
    case 'conic':
      return coneEastAngleDeg(frame.cone, place);
    case 'latlon':
    case 'gaussian':
    case 'mercator':
      return 0;
    default:
      return assertNever(frame);
  }
}
