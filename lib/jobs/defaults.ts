import type { BackgroundWait, Job, Step, StepLimits } from './job.ts';
import { OWN_FIGURE } from './provenance.ts';

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
  rate: null,
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
  clipTo: null,
  materials: [],
  instructions: [],
};

/** What a background wait is where nothing else is said: the same hours in any air. */
export const WAIT_DEFAULTS: Pick<BackgroundWait, 'atC' | 'halvesPerC' | 'floorC' | 'keptAtC'> = {
  atC: 20,
  halvesPerC: null,
  floorC: null,
  keptAtC: null,
};

/** What a job is where nothing else is said. */
export const JOB_DEFAULTS: Omit<Job, 'id' | 'name'> = {
  from: null,
  group: 'preparation',
  priorityWeight: 5,
  after: [],
  sailStates: [],
  handlings: ['hold-course'],
  steps: [],
  seam: null,
  cautions: [],
  pointOfNoReturn: null,
  safePoints: [],
  turnBack: null,
  checksAfter: [],
  startEarly: [],
  goesWith: [],
  makes: [],
  needsTools: [],
  provenance: { '*': OWN_FIGURE },
};
