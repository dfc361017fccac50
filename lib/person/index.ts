export type { Constant } from './constant.ts';
export type { GateSettings, Watchkeeper } from './watchkeeper.ts';
export { asleepS, asleepSAsPublished, awakeS, circadianC, inertiaW, ultradianU } from './alertness/three-process.ts';
export {
  displayedKss,
  kssAboveProbability,
  kssFromAlertness,
  kssP90FromAlertness,
  kssWithInertia,
  type RatingPercentile,
} from './alertness/sleepiness.ts';
export { afterAsleep, afterAwake, type Homeostasis } from './alertness/homeostasis.ts';
export {
  asleepUnified,
  awakeUnified,
  lapsesRhythm,
  unifiedC,
  unifiedW,
  type UnifiedState,
} from './alertness/unified-performance.ts';
export { bodyClockAlong, bodyClockH, nextLagMin } from './alertness/body-clock.ts';
export {
  simulateAlertness,
  type AlertnessAt,
  type SimulationOptions,
  type StartValue,
} from './alertness/simulate-alertness.ts';
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
export { alertnessAtKss } from './alertness/sleepiness.ts';
export { windChillC } from './climate/wind-chill.ts';
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
export { wetBulbC } from './climate/wet-bulb.ts';
export { DEFAULT_BODY_KG, restAfterHeavyMin } from './exertion/heavy-work.ts';
export { restFigures, type RestFigures } from './rest/rest-rules.ts';
export { restRuleLines, type RestRule, type RestRuleId, type RestRuleLine } from './rest/rest-rule-lines.ts';
export { MLC_REST, STCW_EXCEPTION, STCW_REST } from './rest/rest-rules.table.ts';
export { LOOKOUT_RULE_TEXT, REST_RULE_SCOPE_TEXT } from './rest/rest-rule-texts.ts';
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
export {
  PACE_RATIO_RANGE,
  paceText,
  WORK_KIND_NAMES,
  WORK_KINDS,
  workKindOf,
  workPaceText,
  type KindedStep,
  type PaceByWork,
  type WorkKind,
  type WorkPace,
} from './work-kinds.ts';
export { asleepPressureRatio, awakePressureRatio, naturalSleepH, naturalWakeH } from './alertness/two-process.ts';
export { alcoholEquivalent, crashOdds, type CrashOdds } from './alertness/crash-odds.ts';
export { ALCOHOL_EQUIVALENCE, type AlcoholRow } from './alertness/crash-odds.table.ts';
export type { Effort } from './exertion/effort.ts';
export {
  bareHandLimitMin,
  frostbiteBand,
  frostbiteSooner,
  warmUpSchedule,
  type WarmUpSchedule,
} from './climate/cold-limits.ts';
export { COLD_LIMITS, FROSTBITE_BANDS, WARM_UP_SCHEDULE, type FrostbiteBand } from './climate/cold-limits.table.ts';
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
} from './climate/heat.ts';
export type { Discomfort } from './climate/heat.table.ts';
export {
  energyKcalPerMin,
  enduranceMin,
  restAfterWorkMin,
  restAllowanceRatio,
  restWithinMin,
  type EnergyBalance,
} from './exertion/exertion.ts';
export { EXERTION, METS, type Activity } from './exertion/exertion.table.ts';
export {
  gripRatio,
  liftFrequencyRatio,
  liftingIndexRatio,
  liftingRisk,
  liftLimitKg,
  type Lift,
} from './exertion/lifting.ts';
export { LIFTING, type Grip, type LiftingSpell } from './exertion/lifting.table.ts';
export {
  interruptionRisk,
  interruptionsPerMin,
  motionDoseMps15,
  sicknessShare,
  type DeckMotion,
} from './exertion/motion.ts';
export {
  CREW_MOTION,
  INTERRUPTION_RISKS,
  MOTION_CRITERIA,
  type InterruptionRisk,
  type MotionCriterion,
} from './exertion/motion.table.ts';
