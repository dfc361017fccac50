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

/** Work measured by an amount: how much of it is done in an hour. */
export interface WorkRate {
  readonly amount: number;
  readonly unit: string;
  readonly slowestPerH: number;
  readonly likelyPerH: number;
  readonly fastestPerH: number;
  /** Before the first of it. */
  readonly setUpMin: number;
}

/** Soak, cure, drying, settling: runs by itself after the step. */
export interface BackgroundWait {
  readonly kind: 'soak' | 'cure' | 'dry' | 'settle';
  readonly leastH: number;
  readonly likelyH: number;
  readonly mostH: number;
  /** Air at which these hours hold. */
  readonly atC: number;
  /** Warmer by so much, it takes half the time, colder twice; null: whatever the air. */
  readonly halvesPerC: number | null;
  /** In colder air it does not go on at all; null: it always does. */
  readonly floorC: number | null;
  /** Kept warm below at this temperature; null: it stands in the air. */
  readonly keptAtC: number | null;
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
  /** What the minutes follow from; null: from nothing else. */
  readonly rate: WorkRate | null;
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
  /** Where the tether is clipped; null: below, or nothing is said. */
  readonly clipTo: string | null;
  readonly materials: readonly MaterialNeed[];
  readonly instructions: readonly string[];
}

/** What to look at some time after the end. */
export interface CheckAfter {
  readonly afterMin: number;
  readonly look: string;
}

/** What a job is about. */
export type JobGroup =
  | 'preparation'
  | 'sail-handling'
  | 'sail-repair'
  | 'rig'
  | 'steering'
  | 'hull'
  | 'engine'
  | 'systems';

/** The seam a job sews. */
export interface JobSeam {
  /** Step that sews it. */
  readonly stepId: string;
  readonly lengthM: number;
  readonly rowCount: number;
  /** Cloth id of the stitch rates. */
  readonly cloth: string;
}

export interface Job {
  readonly id: string;
  readonly name: string;
  /** Library job it was made from, or null for an own job. */
  readonly from: string | null;
  readonly group: JobGroup;
  /** Weight in the plan, 1 (when convenient) … 9 (the passage depends on it). */
  readonly priorityWeight: number;
  /** Jobs that must be finished, waits included, before this one starts. */
  readonly after: readonly string[];
  /** Sail states in which it can be worked; empty: any. */
  readonly sailStates: readonly string[];
  /** Handlings it may be worked under, preferred first. */
  readonly handlings: readonly string[];
  readonly steps: readonly Step[];
  /** null: it sews none. */
  readonly seam: JobSeam | null;
  readonly cautions: readonly string[];
  /** The moment after which going on is safer than going back, or null. */
  readonly pointOfNoReturn: string | null;
  /** States in which she may be left for hours, in words. */
  readonly safePoints: readonly string[];
  /** What to do when it must be given up; null: nothing is said. */
  readonly turnBack: string | null;
  readonly checksAfter: readonly CheckAfter[];
  /** Library jobs whose waits are best begun long before this job. */
  readonly startEarly: readonly string[];
  /** Library jobs worth doing on the same occasion. */
  readonly goesWith: readonly string[];
  /** What is in the locker once it is done, waits included. */
  readonly makes: readonly MaterialNeed[];
  /** Tools it is worked with; they must be on board. */
  readonly needsTools: readonly string[];
  /**
   * Whose figures: by `*` (all), `*.KEY` (of every step) or `STEP.KEY`; a source id, `common practice, no source`,
   * `our default`, or words. The narrowest one holds, see `provenanceOf`.
   */
  readonly provenance: Readonly<Record<string, string>>;
}
