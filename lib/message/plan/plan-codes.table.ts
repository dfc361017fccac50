/** Short codes of the words a plan uses; the printed key lists them. */

export interface LimitCode {
  readonly limit: string;
  readonly code: string;
  readonly words: string;
  readonly unit: string;
  /** Steps of the scale in one of `unit`. */
  readonly stepsPerUnitCount: number;
}

/** Every limit of the planner; the last stands for one this program does not know. */
export const LIMIT_CODES: readonly LimitCode[] = [
  { limit: 'deck-wind', code: 'DW', words: 'wind over the deck', unit: 'kn', stepsPerUnitCount: 10 },
  { limit: 'deck-gust', code: 'DG', words: 'gust over the deck', unit: 'kn', stepsPerUnitCount: 10 },
  { limit: 'sea-height', code: 'SH', words: 'sea', unit: 'm', stepsPerUnitCount: 10 },
  { limit: 'steepness', code: 'ST', words: 'steepness of the sea', unit: 'ratio', stepsPerUnitCount: 1000 },
  { limit: 'handling-wind', code: 'HW', words: 'true wind for the handling', unit: 'kn', stepsPerUnitCount: 10 },
  { limit: 'handling-sea', code: 'HS', words: 'sea for the handling', unit: 'm', stepsPerUnitCount: 10 },
  { limit: 'daylight', code: 'DL', words: 'daylight', unit: 'light', stepsPerUnitCount: 1 },
  { limit: 'rain', code: 'RN', words: 'rain', unit: 'mm/h', stepsPerUnitCount: 10 },
  { limit: 'air-temperature', code: 'AT', words: 'air temperature', unit: '°C', stepsPerUnitCount: 10 },
  { limit: 'sea-temperature', code: 'WT', words: 'sea temperature', unit: '°C', stepsPerUnitCount: 10 },
  { limit: 'steadying-wind', code: 'SW', words: 'steadying wind', unit: 'yes/no', stepsPerUnitCount: 1 },
  { limit: 'highest-wave', code: 'HI', words: 'highest wave', unit: 'm', stepsPerUnitCount: 10 },
  { limit: 'visibility', code: 'VS', words: 'visibility', unit: 'nm', stepsPerUnitCount: 10 },
  { limit: 'dry-spell', code: 'DS', words: 'rain before or during it', unit: 'mm/h', stepsPerUnitCount: 10 },
  { limit: 'other', code: 'XX', words: 'another limit', unit: '', stepsPerUnitCount: 10 },
];

export const REASON_CODES = [
  { reason: 'weather', code: 'W', words: 'the weather' },
  { reason: 'light', code: 'L', words: 'daylight' },
  { reason: 'alertness', code: 'A', words: 'too tired' },
  { reason: 'materials', code: 'M', words: 'parts or tools are short' },
  { reason: 'precedence', code: 'P', words: 'another job must be done first' },
  { reason: 'sail-state', code: 'S', words: 'it needs another sail state' },
  { reason: 'horizon', code: 'H', words: 'no time before the forecast ends' },
  { reason: 'joint', code: 'J', words: 'it does not fit with the other jobs' },
  { reason: 'slowed', code: 'X', words: 'the work would take too long' },
  { reason: 'other', code: 'O', words: 'another reason' },
] as const;

export const STATUS_CODES = [
  { status: 'planned', code: 'J', words: 'planned' },
  { status: 'conditional', code: 'C', words: 'planned on a condition: a limit is not in the forecast' },
  { status: 'unplanned', code: 'N', words: 'not planned' },
  { status: 'done', code: 'D', words: 'done' },
] as const;
