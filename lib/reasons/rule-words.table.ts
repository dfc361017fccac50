/** Words for limits, as they stand inside a sentence. */
export const LIMIT_WORDS: Readonly<Record<string, string>> = {
  'deck-wind': 'wind over the deck',
  'deck-gust': 'gusts over the deck',
  'sea-height': 'sea',
  steepness: 'steepness of the sea',
  'handling-wind': 'true wind for this handling',
  'handling-sea': 'sea for this handling',
  daylight: 'daylight',
  rain: 'rain',
  'air-temperature': 'air temperature',
  'sea-temperature': 'sea temperature',
  'steadying-wind': 'wind to steady her in the swell',
  'highest-wave': 'highest wave',
  visibility: 'visibility',
  'dry-spell': 'rain in the hours before it',
};

/** A limit that is a lower bound. */
export const LEAST_LIMITS: ReadonlySet<string> = new Set(['air-temperature', 'sea-temperature', 'visibility']);
