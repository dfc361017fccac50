/** A forecast held against what was read on board: fit in words, scenarios weighed and shifted. */
export type { Agreement } from './agreement.ts';
export { adjustByLog, seenByLog } from './adjust-by-log.ts';
export type { ComparedForecast, ForecastMatch, NothingToCompare, QuantityMatch, SeenTiming } from './forecast-match.ts';
export { matchForecast, type MatchOptions } from './match-forecast.ts';
export { matchText } from './match-text.ts';
export type { BarometerOffset, SeenQuantity, SeenWeather } from './seen-weather.ts';
export { seenOfLog, type SeenOfLog } from './seen-of-log.ts';
