import type { BackgroundWait, JobGroup, Place, Step, StepLimits } from '../../lib/jobs/index.ts';

/** Words for what a job file says in keys. */
export const placeWords: Readonly<Record<Place, string>> = {
  below: 'below',
  cockpit: 'in the cockpit',
  deck: 'on deck',
  foredeck: 'on the foredeck',
  aloft: 'aloft',
  overside: 'over the side',
};

export const stopWords: Readonly<Record<Step['stop'], string>> = {
  anywhere: 'can be stopped anywhere',
  'at-end': 'can be stopped at its end only',
  never: 'cannot be stopped',
};

export const lookoutWords: Readonly<Record<Step['lookout'], string>> = {
  full: 'look-out goes on',
  glances: 'look-out in glances',
  none: 'no look-out while it is worked',
};

export const effortWords: Readonly<Record<Step['effort'], string>> = {
  light: 'light work',
  moderate: 'moderate work',
  heavy: 'heavy work',
};

export const handsWords: Readonly<Record<Step['hands'], string>> = {
  gross: 'coarse: hauling, holding',
  medium: 'medium: bolts, shackles',
  fine: 'fine: needle, splicing',
};

export const groupWords: Readonly<Record<JobGroup, string>> = {
  preparation: 'Preparation',
  'sail-handling': 'Sail handling',
  'sail-repair': 'Sail repair',
  rig: 'Rig',
  steering: 'Steering',
  hull: 'Hull',
  engine: 'Engine',
  systems: 'Systems',
};

export const daylightWords: Readonly<Record<StepLimits['daylight'], string>> = {
  required: 'daylight needed',
  preferred: 'daylight preferred',
  'not-needed': 'daylight not needed',
};

export const rainWords: Readonly<Record<StepLimits['rain'], string>> = {
  none: 'no rain',
  any: 'rain does not matter',
};

export const waitWords: Readonly<Record<BackgroundWait['kind'], string>> = {
  soak: 'soaks',
  cure: 'cures',
  dry: 'dries',
  settle: 'settles',
};

/** Weight in the plan, said. */
const priorityTexts = [
  'when convenient',
  'little depends on it',
  'little depends on it',
  'useful',
  'usual',
  'important',
  'important',
  'very important',
  'the passage depends on it',
] as const;

/** `8 of 9, very important` */
export const priorityText = (priority: number): string =>
  `${priority} of 9, ${priorityTexts[Math.min(9, Math.max(1, priority)) - 1] ?? ''}`;

/** A choice from words by key. */
export const optionsOf = (
  words: Readonly<Record<string, string>>,
): readonly { readonly value: string; readonly text: string }[] =>
  Object.entries(words).map(([value, text]) => ({ value, text }));
