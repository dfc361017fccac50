export { type CutForecast, cutForecast } from './cut-forecast.ts';
export type { CutSummary, KeptQuantity } from './cut-summary.ts';
export { smallestCut, type SmallestCutQuestion } from './smallest-cut.ts';
export type { CutArea, CutMembers, CutPrecision, CutRequest, TimedPlace } from './request.ts';
