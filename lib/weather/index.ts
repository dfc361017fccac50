export { alphaRatio, CONFIDENCE_SD, standardSeaAlphaRatio, standardWindAlphaRatio } from './alpha.ts';
export type { SeaAlphaTable } from './alpha.table.ts';
export {
  apparentWind,
  trueWind,
  velocityToward,
  windComponents,
  windFeltBy,
  windOverWater,
  type Velocity,
  type Wind,
} from './apparent-wind.ts';
export { beaufort, BEAUFORT_SCALE, beaufortSpeedMps, type BeaufortForce } from './beaufort.ts';
export { sigmaDirectionDeg, sigmaSeaHeightM, sigmaTimeH, sigmaWindKn } from './forecast-error.ts';
export { estimatedGustKn, gustFactorRatio, type GustExposure } from './gust.ts';
export { seaState, type SeaState } from './sea-state.ts';
export {
  combinedSeaHeightM,
  deepWaterWave,
  encounterPeriodByCircularS,
  encounterPeriodS,
  exceedanceProbability,
  highestExpectedWaveM,
  meanOfHighestRatio,
  modalHighestRatio,
  rayleighHeightM,
  steepnessRatio,
} from './waves.ts';
export { barbSide, windBarb, type WindBarb } from './wind-barb.ts';
export { windHeightRatio } from './wind-profile.ts';
