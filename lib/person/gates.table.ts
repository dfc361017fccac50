import { choice, type Constant } from './constant.ts';

const priorSleep = (x: number): Constant => ({
  value: x,
  unit: 'h',
  sourceId: 'DAWSON_MCCULLOCH_2005',
  note: 'as given by another author',
});

/** Sleep in any 24 h below which the alarm is sounded [h]; engineering choice, no source. */
export const DEFAULT_LEAST_SLEEP_H = 4;

/** Gates a step must pass before it is planned; all may be edited. */
export const GATES = {
  hardLeastAlertness: {
    value: 8.15,
    unit: 'alertness points',
    sourceId: 'INGRE_2014',
    note: 'KSS P90 < 7 on the model 5c line: (9.68 + 1.07 - 7) / 0.46 = 8.152, rounded',
  },
  deckLeastAlertness: {
    value: 7,
    unit: 'alertness points',
    sourceId: 'BOWDEN_RAGSDALE_2018',
    note: 'sleepiness threshold of the scale',
  },
  hardMostLapses: choice(10, 'lapses'),
  deckMostLapses: choice(12, 'lapses'),
  /** Nothing is planned at or above this mean rating. */
  anyKssBelow: choice(8, 'KSS points'),
  lowHoursFrom: choice(2, 'h after body-clock midnight'),
  lowHoursTo: choice(6, 'h after body-clock midnight'),
  hardLongestAwake: {
    value: 16,
    unit: 'h',
    sourceId: 'DAWSON_REID_1997',
    note: 'an hour under the 17 h set equal to 0.05 % blood alcohol',
  },
  priorSleep24: priorSleep(5),
  priorSleep48: priorSleep(12),
  /** Sleep inertia gate after a sleep of at most 10, 30, 90 minutes, and after a longer one or one that ends 00-06. */
  inertiaAfter10: choice(5, 'min'),
  inertiaAfter30: choice(15, 'min'),
  inertiaAfter90: choice(30, 'min'),
  inertiaAfterLong: choice(45, 'min'),
  inertiaAloftMultiplier: choice(2, 'ratio'),
} as const satisfies Readonly<Record<string, Constant>>;
