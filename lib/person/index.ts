export type { Constant } from './constant.ts';
export type { GateSettings, Watchkeeper } from './watchkeeper.ts';
export { asleepS, asleepSAsPublished, awakeS, circadianC, inertiaW, ultradianU } from './three-process.ts';
export {
  displayedKss,
  kssAboveProbability,
  kssFromAlertness,
  kssP90FromAlertness,
  kssWithInertia,
  type RatingPercentile,
} from './sleepiness.ts';
export { afterAsleep, afterAwake, type Homeostasis } from './homeostasis.ts';
export {
  asleepUnified,
  awakeUnified,
  lapsesRhythm,
  unifiedC,
  unifiedW,
  type UnifiedState,
} from './unified-performance.ts';
export { bodyClockAlong, bodyClockH, nextLagMin } from './body-clock.ts';
export { simulateAlertness, type AlertnessAt, type SimulationOptions, type StartValue } from './simulate-alertness.ts';
export { startState, type PersonStart, type PersonState } from './person-state.ts';
export { inertiaGateMin } from './inertia-gate.ts';
export {
  ANY_LEAST_ALERTNESS_POINTS,
  DEFAULT_GATES,
  gateFindings,
  gateFor,
  isLowHour,
  PRIOR_SLEEP_GATE,
  priorSleepFindings,
  strictestGate,
  type Gate,
  type GatedStep,
  type GateFinding,
  type GateRule,
  type GateState,
} from './gates.ts';
export { DEFAULT_LEAST_SLEEP_H } from './gates.table.ts';
export { alertnessAtKss } from './sleepiness.ts';
export { windChillC } from './wind-chill.ts';
export {
  coldFactorRatio,
  coldHandsRatio,
  combinedFactorRatio,
  handsFactorRatio,
  isWetWork,
  tiredFactorRatio,
  tooColdForFineWork,
  type ColdWork,
  type Hands,
  type TooCold,
} from './time-factors.ts';
export { DEFAULT_TIME_FACTORS, glovesRatio, type Gloves, type TimeFactorSettings } from './time-factors.table.ts';
export { wetBulbC } from './wet-bulb.ts';
export { DEFAULT_BODY_KG, restAfterHeavyMin } from './heavy-work.ts';
export { restFigures, type RestFigures } from './rest-rules.ts';
export { restRuleLines, type RestRule, type RestRuleId, type RestRuleLine } from './rest-rule-lines.ts';
export { MLC_REST, STCW_EXCEPTION, STCW_REST } from './rest-rules.table.ts';
export { LOOKOUT_RULE_TEXT, REST_RULE_SCOPE_TEXT } from './rest-rule-texts.ts';
export {
  detectionRange,
  horizonNm,
  leastLookoutIntervalMin,
  lightRangeNm,
  lookoutFactorRatio,
  lookoutInterval,
  lookoutIntervalMin,
  type Approach,
  type DetectionRange,
  type LookoutInterval,
  type LookoutQuestion,
  type Sight,
  type WorkWithLooks,
} from './look-out.ts';
export { LIGHT_RANGES_NM, LOOK_OUT, type LightRanges } from './look-out.table.ts';
export { asleepPressureRatio, awakePressureRatio, naturalSleepH, naturalWakeH } from './two-process.ts';
export { alcoholEquivalent, crashOdds, type CrashOdds } from './crash-odds.ts';
export { ALCOHOL_EQUIVALENCE, type AlcoholRow } from './crash-odds.table.ts';
export type { Effort } from './effort.ts';
export {
  bareHandLimitMin,
  frostbiteBand,
  frostbiteSooner,
  warmUpSchedule,
  type WarmUpSchedule,
} from './cold-limits.ts';
export { COLD_LIMITS, FROSTBITE_BANDS, WARM_UP_SCHEDULE, type FrostbiteBand } from './cold-limits.table.ts';
export {
  heatFactorRatio,
  heatLimitC,
  humidexBand,
  humidexC,
  humidexFromHumidityC,
  wbgtEstimateC,
  wbgtShadeC,
  wbgtSunC,
  workCapacityRatio,
} from './heat.ts';
export type { Discomfort } from './heat.table.ts';
export {
  energyKcalPerMin,
  enduranceMin,
  restAfterWorkMin,
  restAllowanceRatio,
  restWithinMin,
  type EnergyBalance,
} from './exertion.ts';
export { EXERTION, METS, type Activity } from './exertion.table.ts';
export { gripRatio, liftFrequencyRatio, liftingIndexRatio, liftingRisk, liftLimitKg, type Lift } from './lifting.ts';
export { LIFTING, type Grip, type LiftingSpell } from './lifting.table.ts';
export { interruptionRisk, interruptionsPerMin, motionDoseMps15, sicknessShare, type DeckMotion } from './motion.ts';
export {
  CREW_MOTION,
  INTERRUPTION_RISKS,
  MOTION_CRITERIA,
  type InterruptionRisk,
  type MotionCriterion,
} from './motion.table.ts';
