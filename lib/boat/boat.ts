/** A limit at three levels; the unit stands in the name of the property that holds it. No-go is the limit. */
export interface Levels {
  readonly ideal: number;
  readonly caution: number;
  readonly noGo: number;
}

/** What is set: `full-main`, `deep-reef`, `headsail-only` … */
export interface SailState {
  readonly id: string;
  readonly name: string;
  readonly mainsail: 'full' | 'reefed' | 'none';
  readonly headsail: boolean;
  /** Sail area as a share of full sail; used where the state has no speed table of its own. */
  readonly areaRatio: number;
  /** Closest the boat sails to the wind in this state. */
  readonly closestTwaDeg: number;
}

/** One row of a speed table in long form. */
export interface SpeedRow {
  readonly twaDeg: number;
  readonly twsKn: number;
  readonly boatSpeedKn: number;
}

/** What the boat does while a step is worked. */
export interface Handling {
  readonly id: string;
  readonly name: string;
  /** Sail states in which it exists. */
  readonly sailStates: readonly string[];
  /** Heading: along the track, or at this angle to the true wind. */
  readonly heading: { readonly kind: 'course' } | { readonly kind: 'wind-angle'; readonly twaDeg: number };
  /** Speed through the water: a share of the speed table's, held between least and most. */
  readonly speedRatio: number;
  readonly speedLeastKn: number;
  readonly speedMostKn: number;
  /** Drift straight to leeward, as a share of the 10 m wind. */
  readonly driftRatio: number;
  /** Minutes until the boat lies settled under it, before the work itself begins. */
  readonly settleMin: number;
  /** Limits of the handling itself; they bind together with the step's. True wind at 10 m. */
  readonly limits: { readonly trueWindKn: Levels; readonly seaHeightM: Levels };
  /** Where the figures come from: a source id, or `common practice, no source`. */
  readonly provenance: string;
}

export interface Boat {
  readonly name: string;
  readonly instrumentHeightM: number;
  readonly sailStates: readonly SailState[];
  /** By sail state id; at least the fullest state has one. */
  readonly speedTables: Readonly<Record<string, readonly SpeedRow[]>>;
  readonly handlings: readonly Handling[];
}
