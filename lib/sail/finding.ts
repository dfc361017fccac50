/** What can be said of a damage: one kind each, with its amounts. `finding-text.ts` has the words. */
import type { Counted } from './counting.ts';
import type { Scale } from './outline.ts';
import type { Corner } from './sail-file.ts';

export type Zone = 'leech' | 'luff' | 'foot' | 'corner';
export type Urgency = 'urgent' | 'soon' | 'slow';
/** Of a reef: takes the whole tear out of use surely, by the drawn place, in part, or not. */
export type ReefVerdict = 'below' | 'likely-below' | 'partly' | 'above';

export interface PanelFound {
  readonly count: Counted;
  /** Of a gore: its corner, and its number in that fan, counted on from the edge before. */
  readonly fan: { readonly corner: Corner; readonly count: Counted } | null;
}

/** Where the tear is and how well that is known. */
export interface PlaceFinding {
  readonly code: 'tear.place';
  readonly panels: readonly PanelFound[];
  readonly betweenBattens: readonly (string | number)[] | null;
  /** How far up and how far down the real place may be [m]. */
  readonly upM: number;
  readonly downM: number;
  /** Distance from the leech or along the panel was said. */
  readonly isPlaceSaid: boolean;
  readonly scale: Scale;
}

export interface LengthFinding {
  readonly code: 'tear.length';
  readonly lengthM: number;
  /** Shorter than the tear: the typical sail drawn is too small for it. */
  readonly drawnM: number;
}

/** The tear was moved from the place counted to lie on the sail. */
export interface MovedFinding {
  readonly code: 'tear.moved';
  readonly movedM: number;
}

export interface LoadFinding {
  readonly code: 'tear.load';
  readonly loadAngleDeg: number;
  readonly runs: 'across' | 'aslant' | 'along';
  readonly urgency: Urgency;
  /** false: taken across where it fits, the worse. */
  readonly isDirectionSaid: boolean;
}

export interface ZonesFinding {
  readonly code: 'tear.zones';
  /** The one that asks most of a repair first; empty: the low-loaded middle. */
  readonly zones: readonly Zone[];
  /** Zones it may reach, the place being uncertain. */
  readonly maybe: readonly Zone[];
}

export interface SeamFinding {
  readonly code: 'tear.seam';
  readonly panelNumbers: readonly [number, number] | null;
  readonly corners: readonly [Corner, Corner] | null;
  readonly panelCount: number;
  readonly isAlong: boolean;
}

export interface BattenFinding {
  readonly code: 'tear.batten';
  readonly count: Counted;
  /** Crosses the batten, or only its pocket. */
  readonly isCrossed: boolean;
}

export interface ReefLineFinding {
  readonly code: 'tear.reef-line';
  readonly count: Counted;
}

export interface ReefFinding {
  readonly code: 'tear.reef';
  readonly count: Counted;
  readonly verdict: ReefVerdict;
  /** From the top of the tear up to the reef [m]; negative: the tear reaches above it. */
  readonly roomM: number;
  /** How far the reef itself may be off, its height not being given [m]. */
  readonly looseM: number;
  /** The reef is in now. */
  readonly isSet: boolean;
  /** Seen by the sailor, not reckoned. */
  readonly isSeen: boolean;
}

/** What to do before sewing: the least reef that takes the tear out of use; null: none does. */
export interface AnswerFinding {
  readonly code: 'tear.first-answer';
  readonly reef: Counted | null;
  readonly isSure: boolean;
  readonly isSetNow: boolean;
  readonly reefCount: number;
}

export type TearFinding =
  | PlaceFinding
  | LengthFinding
  | MovedFinding
  | LoadFinding
  | ZonesFinding
  | SeamFinding
  | BattenFinding
  | ReefLineFinding
  | ReefFinding
  | AnswerFinding;

/** What a batten that is not whole means for the sail. */
export interface BattenLimit {
  readonly code: 'batten.limit';
  readonly count: Counted;
  readonly state: 'cracked' | 'joined' | 'missing';
  readonly isShort: boolean;
  /** Least reef to sail with; null: no limit, or no reef takes it out of use. */
  readonly reef: Counted | null;
  readonly why: 'top-batten' | 'deepest-for-top' | 'below-reef' | 'no-reef-above' | 'no-reefs' | 'flutter' | 'joined';
}
