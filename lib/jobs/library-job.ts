import type { Job, Step, StepLimits } from './job.ts';

/** A job of the library: a job without its place in a passage. */
export interface LibraryJob extends Omit<Job, 'from' | 'priorityWeight' | 'after' | 'seam'> {
  /** Step whose minutes and twine follow from a seam's length, rows and cloth; null: the job has no seam. */
  readonly seamStepId: string | null;
}

/** No limit known: a start to write limits from. */
export const NO_LIMITS: StepLimits = {
  deckWindKn: null,
  deckGustNoGoKn: null,
  seaHeightM: null,
  steepnessNoGoRatio: null,
  daylight: 'not-needed',
  rain: 'any',
  airLeastC: null,
  seaWaterLeastC: null,
  visibilityLeastNm: null,
  dryBeforeH: null,
  byEye: [],
};

/** What a step is where nothing else is said; the place is not among it. */
export const STEP_DEFAULTS: Omit<Step, 'id' | 'name' | 'place' | 'work'> = {
  stop: 'at-end',
  lookout: 'glances',
  effort: 'moderate',
  hands: 'medium',
  limits: { ...NO_LIMITS, daylight: 'preferred' },
  darkFactorRatio: 1.3,
  session: null,
  waitAfter: null,
  safePointAfter: false,
  sailStateAfter: null,
  materials: [],
  instructions: [],
};
