import type { Position } from '../geo/index.ts';

/** How the leg that ends at a waypoint is sailed. */
export type LegKind = 'rhumb' | 'great-circle';

export interface Waypoint extends Position {
  readonly name: string | null;
  /** Leg from the previous waypoint to this one; meaningless at the first. */
  readonly leg: LegKind;
}

/** At least two waypoints. */
export interface Track {
  readonly waypoints: readonly Waypoint[];
}
