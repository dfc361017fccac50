/** Grids as the file lays them out. */
import type { Problem } from '../result/index.ts';

/** A place, signed degrees, north and east positive. */
export interface LatLon {
  readonly lat: number;
  readonly lon: number;
}

/** Columns, rows and the order of the points in the file; all grids but thinned ones have it. */
export interface GridShape {
  /** Points along a parallel, or along x. */
  readonly ni: number;
  /** Points along a meridian, or along y. */
  readonly nj: number;
  /** Flag table 3.4. */
  readonly scanningMode: number;
}

/** Increments as stored, null when not given. They are not used where they contradict the corners. */
export interface StoredIncrements {
  readonly iIncrementDeg: number | null;
  readonly jIncrementDeg: number | null;
}

/** Corners of a grid whose columns are meridians; degrees, as coded. */
export interface GridCorners {
  /** First point in file order. */
  readonly first: LatLon;
  /** Last point in file order. */
  readonly last: LatLon;
}

/** Columns that lie on equally spaced meridians. */
export interface MeridianColumns {
  /** Distance between neighbours on a parallel, never negative; 0 with one column. From the corners, not as stored. */
  readonly iIncrementDeg: number;
  /** The columns go all the way round, so that the last neighbours the first. */
  readonly isGlobalInLon: boolean;
}

/** Regular latitude/longitude grid (template 3.0; edition 1 data representation type 0). */
export interface RegularLatLonGrid extends GridShape, GridCorners, MeridianColumns {
  readonly kind: 'regular-latlon';
  /** Distance between neighbours on a meridian, never negative; 0 with one row. */
  readonly jIncrementDeg: number;
  readonly stored: StoredIncrements;
}

/** Where components of wind and current point: true east and north, or along the grid's own x and y (flag table 3.3, bit 5). */
export interface VectorSense {
  readonly areVectorsGridRelative: boolean;
}

/** Regular grid of a turned sphere (template 3.1; type 10): corners and increments count in the turned coordinates. */
export interface RotatedLatLonGrid extends GridShape, GridCorners, MeridianColumns, VectorSense {
  readonly kind: 'rotated-latlon';
  readonly jIncrementDeg: number;
  readonly stored: StoredIncrements;
  /** Geographic place of the south pole of the turned coordinates. */
  readonly southPole: LatLon;
  /** Turn about the new polar axis, clockwise when looking from its south to its north. */
  readonly turnDeg: number;
}

/** Which parallels of a Gaussian grid are there: `parallelCount` between pole and equator, counted from the northernmost, 0. */
export interface GaussianRows {
  readonly parallelCount: number;
  /** Of the first row in the file. */
  readonly firstParallelIndex: number;
}

/** Gaussian grid (template 3.40; type 4): rows at the roots of a Legendre polynomial. */
export interface GaussianGrid extends GridShape, GridCorners, MeridianColumns, GaussianRows {
  readonly kind: 'gaussian';
}

/**
 * How the numbers of a list of points per row are meant. `circles`: points of the whole parallel, at multiples of 360°
 * divided by that number, of which those between the extreme longitudes are there (code table 3.11, 1); `extremes`: points
 * from one extreme longitude to the other (code table 3.11, 2).
 */
export type RowMeaning = 'circles' | 'extremes';

/** Rows of different length. */
export interface ThinnedRows extends GridCorners {
  readonly nj: number;
  readonly scanningMode: number;
  readonly rowMeaning: RowMeaning;
  /** The list as coded, one number for each row in file order. */
  readonly listedCounts: readonly number[];
  /** Rows go all the way round, so that the last point neighbours the first. */
  readonly isGlobalInLon: boolean;
}

/** Thinned latitude/longitude grid (template 3.0 or type 0 with a list): rows equally spaced from corner to corner. */
export interface ThinnedLatLonGrid extends ThinnedRows {
  readonly kind: 'thinned-latlon';
  readonly jIncrementDeg: number;
}

/** Reduced Gaussian grid (template 3.40 or type 4 with a list). */
export interface ThinnedGaussianGrid extends ThinnedRows, GaussianRows {
  readonly kind: 'thinned-gaussian';
}

/** Distances between neighbours on the ground [m], where the projection is true to scale. */
export interface GridLengths {
  readonly xM: number;
  readonly yM: number;
}

/** Mercator grid (template 3.10; type 1): rows equally spaced in isometric latitude. */
export interface MercatorGrid extends GridShape, GridCorners, MeridianColumns {
  readonly kind: 'mercator';
  /** Distance between rows in isometric latitude, never negative; 0 with one row. */
  readonly jIncrementRad: number;
  readonly eccentricityRatio: number;
}

/**
 * A cone laid on the earth (Snyder, Map Projections: A Working Manual, USGS Professional Paper 1395, sections 15 and 21):
 * places lie at the distance `radiusM` · t^`coneRatio` from its apex, which is a pole. A stereographic plane is the cone of ratio ±1.
 */
export interface Cone {
  /** n of the reference; negative when the apex is the south pole. */
  readonly coneRatio: number;
  /** a · F of the reference; of the sign of `coneRatio`. */
  readonly radiusM: number;
  /** Meridian parallel to the columns. */
  readonly lonDeg: number;
  readonly eccentricityRatio: number;
}

/** Polar stereographic (template 3.20; type 5) or Lambert conformal grid (template 3.30; type 3). */
export interface ConicGrid extends GridShape, VectorSense {
  readonly kind: 'polar-stereographic' | 'lambert';
  /** First point in file order, degrees, as coded. */
  readonly first: LatLon;
  readonly cone: Cone;
  readonly lengths: GridLengths;
}

/** A grid this room does not place on the globe. */
export interface UnsupportedGrid {
  readonly kind: 'unsupported';
  /** Code table 3.1 (edition 2) or 6 (edition 1). */
  readonly templateNumber: number;
  readonly name: string;
}

/** Grids with a list of points per row. */
export type ThinnedGrid = ThinnedLatLonGrid | ThinnedGaussianGrid;

/** Grids whose rows all have the same number of points. */
export type EvenGrid = RegularLatLonGrid | RotatedLatLonGrid | GaussianGrid | MercatorGrid | ConicGrid;

/** Every grid whose points can be placed. */
export type PlacedGrid = EvenGrid | ThinnedGrid;

export type FieldGrid = PlacedGrid | UnsupportedGrid;

/** A grid with the number of points the section declares; `support` is null when the grid can be placed on the globe. */
export interface GridDefinition {
  readonly grid: FieldGrid;
  readonly pointCount: number;
  readonly support: Problem | null;
}
