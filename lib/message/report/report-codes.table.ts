/** Short codes of the words a report uses; the printed key lists them. */

export const SKY_CODES = [
  { sky: 'clear', code: 'C', words: 'clear' },
  { sky: 'partly-cloudy', code: 'P', words: 'partly cloudy' },
  { sky: 'overcast', code: 'O', words: 'overcast' },
  { sky: 'squalls', code: 'Q', words: 'squalls' },
  { sky: 'fog', code: 'F', words: 'fog' },
] as const;

export const EVENT_CODES = [
  { event: 'started', code: 'S', words: 'started' },
  { event: 'safe-point', code: 'P', words: 'at a safe point' },
  { event: 'stopped', code: 'H', words: 'stopped' },
  { event: 'done', code: 'D', words: 'done' },
] as const;

/** Numbers of an observation: letter of the field, its name, words, unit, steps of the scale in one unit. */
export const NUMBER_FIELDS = [
  { letter: 'G', field: 'gustKn', words: 'gust', unit: 'kn', stepsPerUnitCount: 10 },
  { letter: 'B', field: 'pressureHpa', words: 'pressure', unit: 'hPa', stepsPerUnitCount: 10 },
  { letter: 'H', field: 'seaHeightM', words: 'sea', unit: 'm', stepsPerUnitCount: 10 },
  { letter: 'P', field: 'wavePeriodS', words: 'period of the waves', unit: 's', stepsPerUnitCount: 10 },
  { letter: 'V', field: 'visibilityNm', words: 'visibility', unit: 'nm', stepsPerUnitCount: 10 },
  { letter: 'I', field: 'airC', words: 'air', unit: '°C', stepsPerUnitCount: 10 },
  { letter: 'E', field: 'seaWaterC', words: 'sea water', unit: '°C', stepsPerUnitCount: 10 },
] as const;
