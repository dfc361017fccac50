import type { Position } from '../../geo/index.ts';

/** Hours between two steps of a digest. */
export const STEP_H = 3;
/** Steps between two places of the way, between two air temperatures, between two sea temperatures. */
export const PLACE_STEPS = 4;
export const AIR_STEPS = 2;
export const SEA_WATER_STEPS = 8;
/** Steps between two nodes of the members' differences. */
export const NODE_STEPS = 2;

/** Lines beside the nominal voyage on which the weather is told too: miles behind it, ahead of it negative. Ours. */
export const LANES_NM = [-60, 60, 120] as const;

/**
 * Weather along the way of one boat, on the fixed scales of `scales.ts`. Lists hold one value per step; NaN is not known.
 * Step i is `firstEpochMs + i · 3 h`.
 */
export interface Digest {
  /** Base time of the forecast, full hours. */
  readonly baseEpochMs: number;
  readonly firstEpochMs: number;
  readonly stepCount: number;
  /** Perturbed members of the ensemble; 0: a single forecast, whose errors follow from its lead. */
  readonly memberCount: number;
  readonly hasControl: boolean;
  /** Whether the forecast holds gusts; if not, they are estimated as the planner does. */
  readonly holdsGust: boolean;
  /** Where the boat would be without stopping, every 12 h and at the last step. */
  readonly places: readonly Position[];
  readonly windKn: readonly number[];
  readonly windFromDegTrue: readonly number[];
  /** Highest of the three hours that end at the step. */
  readonly gustKn: readonly number[];
  readonly seaHeightM: readonly number[];
  readonly wavePeriodS: readonly number[];
  readonly pressureHpa: readonly number[];
  /** Of the three hours that end at the step, by the list of `scales.ts`. */
  readonly rainIndex: readonly number[];
  readonly visibilityIndex: readonly number[];
  /** Every 6 h. */
  readonly airC: readonly number[];
  /** Every 24 h. */
  readonly seaWaterC: readonly number[];
  /** In the order of `LANES_NM`: how it differs there from the nominal voyage at the same instant. */
  readonly lanes: readonly LaneDifferences[];
  /** null: a single forecast. */
  readonly spread: DigestSpread | null;
}

export interface LaneDifferences {
  readonly windKn: readonly number[];
  readonly turnDeg: readonly number[];
  readonly seaM: readonly number[];
}

/** How the members differ from the reference run: first when things happen, then how strong they are. */
export interface DigestSpread {
  /** Hours each member is late at the last step; earlier steps in proportion to the timing error of their lead. */
  readonly timingH: readonly number[];
  /** What is left after timing, as sums of these; most of it first. */
  readonly modes: readonly SpreadMode[];
}

/** One way in which members differ: courses of wind, direction and sea over the nodes, and how much of it each member has. */
export interface SpreadMode {
  /** Size code of the mode; its values are counted in it. */
  readonly sizeIndex: number;
  /** Per node (every 6 h), in sizes: wind, then direction, then sea. */
  readonly values: readonly number[];
  /** Per member. */
  readonly scoresSd: readonly number[];
}

/** Nodes of the members' differences: every 6 h, the last step included. */
export const nodeCountOf = (stepCount: number): number => Math.ceil((stepCount - 1) / NODE_STEPS) + 1;
export const placeCountOf = (stepCount: number): number => Math.ceil((stepCount - 1) / PLACE_STEPS) + 1;
export const airCountOf = (stepCount: number): number => Math.ceil(stepCount / AIR_STEPS);
export const seaWaterCountOf = (stepCount: number): number => Math.ceil(stepCount / SEA_WATER_STEPS);
