/** What is taken where a sail is not measured, and the sizes of its zones. All editable by giving the figure itself. */
import type { SailKind } from './sail-file.ts';

export const OUR_DEFAULT = 'our default';
export const COMMON_PRACTICE = 'common practice, no source';

export interface KindDefaults {
  /** Luff of a typical sail, where no side is given. */
  readonly luffM: number;
  readonly luffToFootRatio: number;
  /** Of the luff above straight aft. */
  readonly luffAngleDeg: number;
  /** Of the foot above straight aft, where the leech is not given. */
  readonly footAngleDeg: number;
}

/** Our defaults, no source: shapes to count panels on, not to cut cloth by. */
export const KIND_DEFAULTS: Readonly<Record<SailKind, KindDefaults>> = {
  mainsail: { luffM: 14, luffToFootRatio: 2.9, luffAngleDeg: 90, footAngleDeg: 0 },
  headsail: { luffM: 14, luffToFootRatio: 2.3, luffAngleDeg: 70, footAngleDeg: 6 },
  staysail: { luffM: 10, luffToFootRatio: 2.5, luffAngleDeg: 70, footAngleDeg: 10 },
  trysail: { luffM: 6, luffToFootRatio: 1.8, luffAngleDeg: 90, footAngleDeg: 5 },
};

/** Greatest roach as a share of the straight leech, of mainsails by battens; other sails have none. Our defaults. */
export const ROACH_RATIO = { full: 0.08, short: 0.04, none: 0 } as const;

/** Height of each reef as a share of the luff, lowest first, by how many there are. Our defaults. */
export const REEF_SHARES: readonly (readonly number[])[] = [
  [],
  [0.22],
  [0.15, 0.32],
  [0.13, 0.28, 0.44],
  [0.12, 0.24, 0.37, 0.5],
  [0.1, 0.2, 0.31, 0.43, 0.55],
  [0.09, 0.18, 0.28, 0.38, 0.48, 0.58],
];

/** How far such a height may be off, as a share of the luff. Our default. */
export const REEF_LOOSE_SHARE = 0.06;

/** Length of a short batten as a share of the chord. Our default. */
export const SHORT_BATTEN_SHARE = 0.25;
/** Half of the width of a batten pocket: a tear nearer than this touches it. Our default. */
export const HALF_POCKET_M = 0.05;

/** Last part of the chord that counts as leech, and the same at the luff; common practice, no source. */
export const EDGE_ZONE_SHARE = 0.15;
/** Around each corner; common practice, no source. */
export const CORNER_ZONE_M = 1;
/** Above the foot; our default. */
export const FOOT_ZONE_M = 0.5;
/** A tear counts as below a reef from here down: the row of ties and its patches are loaded. Our default. */
export const REEF_ROOM_M = 0.1;

/** A tear at this angle to the load line or more runs across it; at the other or less along it. Our defaults. */
export const ACROSS_LEAST_DEG = 60;
export const ALONG_MOST_DEG = 30;

/** A slit that does not gape. Our default. */
export const SLIT_WIDTH_M = 0.02;

/** Reef that a sail without its top batten carries at most; common practice, no source. */
export const TOP_BATTEN_REEF_NUMBER = 2;
