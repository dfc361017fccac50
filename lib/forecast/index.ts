/** Forecasts: fields to quantities, places and instants to weather, one weather to many. */
export { type Box, boxAround } from './box.ts';
export { buildForecast, completeForecast } from './build-forecast.ts';
export { type ForecastOutline, outlineForecast, type WantedField } from './outline-forecast.ts';
export type { QuantityCoverage } from './coverage.ts';
export { coverageProblems, type NeededCoverage } from './coverage-problems.ts';
export type { Forecast, ForecastFile } from './forecast.ts';
export { matchField, type MatchedField } from './match-field.ts';
export { QUANTITIES, quantityOf, type Quantity, type QuantityId } from './quantity.ts';
export { sampleReference, sampleScenarioPressure, sampleScenarios } from './sample-scenarios.ts';
export { adjustScenarioSet, buildScenarioSet, type ScenarioSet, type ScenarioSetOptions } from './scenario-set.ts';
export { type Reading, seriesAt, type SeriesKey, type SeriesQuestion, type SeriesRow } from './series-at.ts';
export type { CoursePoints, WeatherAlong } from './weather-along.ts';
