/** Numbers on the fixed scales of the messages: whole counts of a unit, so that nothing is rounded twice. */

const MOST_COUNT = 999_999;

/** The value as it can be sent: the nearest whole number of steps; null: not a number. */
export function onScale(value: number, stepsPerUnitCount: number): number | null {
  if (!Number.isFinite(value)) return null;
  return countOf(value, stepsPerUnitCount) / stepsPerUnitCount;
}

/** Steps of a value that lies on the scale. */
function countOf(value: number, stepsPerUnitCount: number): number {
  const steps = Math.round(value * stepsPerUnitCount);
  // Math.round gives -0, which equals nothing that is read.
  return Math.max(-MOST_COUNT, Math.min(MOST_COUNT, steps)) + 0;
}

/** `33` for 3.3 in tenths; `-5` for -0.5. */
export const formatScaled = (value: number, stepsPerUnitCount: number): string =>
  String(countOf(value, stepsPerUnitCount));

/** The value of a text by `formatScaled`; null: it is none. */
export function parseScaled(text: string, stepsPerUnitCount: number): number | null {
  return /^-?\d{1,6}$/.test(text) ? countOf(Number(text), 1) / stepsPerUnitCount : null;
}

/** A probability in whole per cent; what is not certain never becomes 100, what is possible never 0. */
export function wholePercent(probability: number): number {
  const percent = Math.round(probability * 100);
  if (percent >= 100 && probability < 1) return 0.99;
  if (percent <= 0 && probability > 0) return 0.01;
  return Math.max(0, Math.min(100, percent)) / 100;
}

/** `90` for 0.9. */
export const formatPercent = (probability: number): string => String(Math.round(probability * 100));

/** The probability of a text by `formatPercent`; null: it is none. */
export const parsePercent = (text: string): number | null =>
  /^\d{1,3}$/.test(text) && Number(text) <= 100 ? Number(text) / 100 : null;
