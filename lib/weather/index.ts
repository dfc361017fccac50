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
export {
  DIRECTION_UNKNOWN_BELOW_KN,
  sigmaDirectionDeg,
  sigmaSeaHeightM,
  sigmaTimeH,
  sigmaWindKn,
} from './forecast-error.ts';
export {
  DEFAULT_GUST_RATIO,
  estimatedGustKn,
  gustFactorRatio,
  LEAST_GUST_EXCESS_KN,
  type GustExposure,
} from './gust.ts';
export { seaState, SEA_STATES, type SeaState } from './sea-state.ts';
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
export { FORECAST_WIND_HEIGHT_M, SEA_PROFILE_EXPONENT_RATIO, windHeightRatio } from './wind-profile.ts';
