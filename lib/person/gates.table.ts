import type { Constant } from './constant.ts';

const CHOICE = 'engineering choice, no source';
const PUBLISHED_LINE =
  'KSS P90 < 7 on the model 5c line: (9.68 + 1.07 − 7) / 0.46 = 8.152, rounded; Ingre et al. 2014, PLoS ONE 9(10):e108679';
const RISK_LINE =
  'Bowden & Ragsdale, The truck driver scheduling problem with fatigue monitoring: 7 = sleepiness threshold';
const PRIOR_SLEEP = 'Dawson & McCulloch 2005, Sleep Medicine Reviews 9:365-380, as given by another author';
const AWAKE = 'a little under the 17 h that Dawson & Reid 1997, Nature 388:235, set equal to 0.05 % blood alcohol';

/** Gates a step must pass before it is planned; all may be edited. */
export const GATES = {
  hardLeastAlertness: { value: 8.15, unit: 'alertness points', provenance: PUBLISHED_LINE },
  deckLeastAlertness: { value: 7, unit: 'alertness points', provenance: RISK_LINE },
  /** Nothing is planned at or above this mean rating. */
  anyKssBelow: { value: 8, unit: 'KSS points', provenance: CHOICE },
  lowHoursFrom: { value: 2, unit: 'h after body-clock midnight', provenance: CHOICE },
  lowHoursTo: { value: 6, unit: 'h after body-clock midnight', provenance: CHOICE },
  hardLongestAwake: { value: 16, unit: 'h', provenance: AWAKE },
  priorSleep24: { value: 5, unit: 'h', provenance: PRIOR_SLEEP },
  priorSleep48: { value: 12, unit: 'h', provenance: PRIOR_SLEEP },
  /** Sleep inertia gate after a sleep of at most 10, 30, 90 minutes, and after a longer one or one that ends 00-06. */
  inertiaAfter10: { value: 5, unit: 'min', provenance: CHOICE },
  inertiaAfter30: { value: 15, unit: 'min', provenance: CHOICE },
  inertiaAfter90: { value: 30, unit: 'min', provenance: CHOICE },
  inertiaAfterLong: { value: 45, unit: 'min', provenance: CHOICE },
  inertiaAloftMultiplier: { value: 2, unit: 'ratio', provenance: CHOICE },
} as const satisfies Readonly<Record<string, Constant>>;
