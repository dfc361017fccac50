/** Forecasts from public sources: addresses, fetching, checks. The only door of this folder. */
export { estimateFetch, type FetchEstimate } from './engine/estimate.ts';
export type { FetchPhase, FetchProgress } from './engine/meter.ts';
export {
  DEFAULT_LIMITS,
  type Destination,
  type FetchedForecast,
  type FetchLimits,
  type FetchRequest,
} from './engine/request.ts';
export { type FetchJob, startFetch } from './engine/start-fetch.ts';
export { realWorld, type World } from './engine/world.ts';
export { BUILT_IN_SOURCES } from './sources/built-in.table.ts';
export { tooLarge } from './engine/problems.ts';
export { latestCycle, parseCycle } from './sources/cycles.ts';
export {
  chosenQuantities,
  type FetchTarget,
  planTargets,
  type SourceChoice,
  wholeFileTarget,
} from './sources/plan-targets.ts';
export { creditOf, type ForecastSource, readSource } from './sources/source.ts';
