import type { Levels } from '../boat/index.ts';

export type Place = 'below' | 'cockpit' | 'deck' | 'foredeck' | 'aloft' | 'overside';

/** Weather a step can stand. `null`: the step has no such limit. */
export interface StepLimits {
  /** Mean wind over the deck (2 m above it). */
  readonly deckWindKn: Levels | null;
  /** Gust over the deck. */
  readonly deckGustNoGoKn: number | null;
  readonly seaHeightM: Levels | null;
  /** Sea height over deep-water wave length. */
  readonly steepnessNoGoRatio: number | null;
  readonly daylight: 'required' | 'preferred' | 'not-needed';
  readonly rain: 'none' | 'any';
  readonly airLeastC: number | null;
  readonly seaWaterLeastC: number | null;
  readonly visibilityLeastNm: number | null;
  /** A drying spell: no rain for so many hours before the step begins, and none during it. */
  readonly dryBeforeH: number | null;
  /** What no forecast holds and the eye must judge: go-check lines. */
  readonly byEye: readonly string[];
}

/** Three-point estimate of the minutes with daylight, warm hands and a clear head. */
export interface WorkMinutes {
  readonly leastMin: number;
  readonly likelyMin: number;
  readonly mostMin: number;
}

/** Soak, cure, drying, settling: runs by itself after the step. */
export interface BackgroundWait {
  readonly kind: 'soak' | 'cure' | 'dry' | 'settle';
  readonly leastH: number;
  readonly likelyH: number;
  readonly mostH: number;
}

/** How work that can be stopped anywhere is divided. */
export interface SessionRule {
  readonly longestMin: number;
  readonly restMin: number;
  readonly leastUsefulMin: number;
  /** Getting out the work again, once per session after the first. */
  readonly resumeMin: number;
  readonly makeSafeMin: number;
}

export interface MaterialNeed {
  readonly item: string;
  readonly amount: number;
  readonly unit: string;
}

export interface Step {
  readonly id: string;
  readonly name: string;
  readonly place: Place;
  readonly work: WorkMinutes;
  readonly stop: 'anywhere' | 'at-end' | 'never';
  readonly lookout: 'full' | 'glances' | 'none';
  readonly effort: 'light' | 'moderate' | 'heavy';
  /** Fine work suffers most from cold hands. */
  readonly hands: 'gross' | 'medium' | 'fine';
  readonly limits: StepLimits;
  /** Time factor when worked in the dark. */
  readonly darkFactorRatio: number;
  readonly session: SessionRule | null;
  readonly waitAfter: BackgroundWait | null;
  /** The boat may be left for hours after this step (always so at the end of a job and before a wait). */
  readonly safePointAfter: boolean;
  /** What is set once the step is done; null: as before. */
  readonly sailStateAfter: string | null;
  readonly materials: readonly MaterialNeed[];
  readonly instructions: readonly string[];
}

export interface Job {
  readonly id: string;
  readonly name: string;
  /** Library job it was made from, or null for an own job. */
  readonly from: string | null;
  /** Weight in the plan, 1 (when convenient) … 9 (the passage depends on it). */
  readonly priorityWeight: number;
  /** Jobs that must be finished, waits included, before this one starts. */
  readonly after: readonly string[];
  /** Sail states in which it can be worked; empty: any. */
  readonly sailStates: readonly string[];
  /** Handlings it may be worked under, preferred first. */
  readonly handlings: readonly string[];
  readonly steps: readonly Step[];
  /** The seam it sews, by the step that sews it; null: none. */
  readonly seam: { readonly stepId: string; readonly rowCount: number } | null;
  readonly cautions: readonly string[];
  /** The moment after which going on is safer than going back, or null. */
  readonly pointOfNoReturn: string | null;
  /** Where times and limits come from: a source id, or `common practice, no source`. */
  readonly provenance: string;
}
