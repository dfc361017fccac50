/** Forecasts: fields to quantities, places and instants to weather, one weather to many. */
export { type Box, boxAround } from './box.ts';
export { buildForecast, completeForecast } from './build-forecast.ts';
export { type ForecastOutline, decodeWanted, outlineForecast, type WantedField } from './outline-forecast.ts';
export type { QuantityCoverage } from './coverage.ts';
export {
  type CutArea,
  cutForecast,
  type CutForecast,
  type CutMembers,
  type CutPrecision,
  type CutRequest,
  type CutSummary,
  type KeptQuantity,
  smallestCut,
  type SmallestCutQuestion,
  type TimedPlace,
} from './cut/index.ts';
export { coverageProblems, type NeededCoverage } from './coverage-problems.ts';
export type { Forecast } from './forecast.ts';
export {
  type FilePiece,
  type ForecastFile,
  type HeldFile,
  scanFile,
  sizeOctetsOf,
  sourceOf,
  type UnheldFile,
  type UnheldOctets,
} from './forecast-files.ts';
export { forecastOfSeries } from './forecast-of-series.ts';
export type { Frame, Series } from './frame.ts';
export { LONGEST_STEP_H } from './time-bracket.ts';
export { type KnownAlong, knownAlong, type KnownState } from './known-along.ts';
export { CONTROL_ID, matchField, type MatchedField } from './match-field.ts';
export { QUANTITIES, quantityOf, type Quantity, type QuantityId } from './quantity.ts';
export { sampleReference, sampleScenarioPressure, sampleScenarios } from './sample-scenarios.ts';
export { adjustScenarioSet, leadOfH, type SeenOfSet, timingSdAtH, widenErrors } from './adjust-scenario-set.ts';
export { buildScenarioSet, type ScenarioSet, type ScenarioSetOptions, WEIGHT_SUM } from './scenario-set.ts';
export { shuffledIndices } from './random.ts';
export { type Reading, seriesAt, type SeriesKey, type SeriesQuestion, type SeriesRow } from './series-at.ts';
export { tooMuch } from './too-much.ts';
export { thinScenarios } from './thin-scenarios.ts';
export type { CoursePoints, WeatherAlong } from './weather-along.ts';
