/** Grids as the file lays them out. */
import type { Problem } from '../result/index.ts';

/** Regular latitude/longitude grid (template 3.0; edition 1 data representation type 0). */
export interface RegularLatLonGrid {
  readonly kind: 'regular-latlon';
  /** Points along a parallel. */
  readonly ni: number;
  /** Points along a meridian. */
  readonly nj: number;
  /** First point in file order, degrees, as coded. */
  readonly first: { readonly lat: number; readonly lon: number };
  /** Last point in file order, degrees, as coded. */
  readonly last: { readonly lat: number; readonly lon: number };
  /** Distance between neighbours on a parallel, never negative; 0 with one column. From the corners, not as stored. */
  readonly iIncrementDeg: number;
  /** Distance between neighbours on a meridian, never negative; 0 with one row. */
  readonly jIncrementDeg: number;
  /** Increments as stored, null when not given. They are not used where they contradict the corners. */
  readonly stored: { readonly iIncrementDeg: number | null; readonly jIncrementDeg: number | null };
  /** Flag table 3.4. */
  readonly scanningMode: number;
  /** The columns go all the way round, so that the last neighbours the first. */
  readonly isGlobalInLon: boolean;
}

/** A grid this room does not place on the globe. */
export interface UnsupportedGrid {
  readonly kind: 'unsupported';
  /** Code table 3.1 (edition 2) or 6 (edition 1). */
  readonly templateNumber: number;
  readonly name: string;
}

export type FieldGrid = RegularLatLonGrid | UnsupportedGrid;

/** A grid with the number of points the section declares; `support` is null when the grid can be placed on the globe. */
export interface GridDefinition {
  readonly grid: FieldGrid;
  readonly pointCount: number;
  readonly support: Problem | null;
}
