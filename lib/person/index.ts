export type { Constant } from './constant.ts';
export type { GateSettings, Gloves, Watchkeeper } from './watchkeeper.ts';
export { asleepS, asleepSAsPublished, awakeS, circadianC, inertiaW, ultradianU } from './three-process.ts';
export {
  displayedKss,
  kssAboveProbability,
  kssFromAlertness,
  kssWithInertia,
  type RatingPercentile,
} from './sleepiness.ts';
export { afterAsleep, afterAwake, type Homeostasis } from './homeostasis.ts';
export {
  asleepUnified,
  awakeUnified,
  lapsesOf,
  lapsesRhythm,
  unifiedC,
  UNIFIED_START,
  unifiedW,
  type UnifiedState,
} from './unified-performance.ts';
export { bodyClockAlong, bodyClockH, nextLagMin } from './body-clock.ts';
export { simulateAlertness, type AlertnessAt, type SimulationOptions, type StartValue } from './simulate-alertness.ts';
export { startState, type PersonStart, type PersonState } from './person-state.ts';
export { inertiaGateMin } from './inertia-gate.ts';
export {
  DEFAULT_GATES,
  gateFindings,
  gateFor,
  isLowHour,
  priorSleepFindings,
  strictestGate,
  type Gate,
  type GatedStep,
  type GateFinding,
  type GateRule,
  type GateState,
} from './gates.ts';
export { alertnessAtKss } from './sleepiness.ts';
export { windChillC } from './wind-chill.ts';
export {
  coldFactorRatio,
  combinedFactorRatio,
  handsFactorRatio,
  isTooColdForFineWork,
  tiredFactorRatio,
  type ColdWork,
  type Hands,
} from './time-factors.ts';
export {
  restFigures,
  restRuleLines,
  type RestFigures,
  type RestRule,
  type RestRuleId,
  type RestRuleLine,
} from './rest-rules.ts';
export { MLC_REST, STCW_EXCEPTION, STCW_REST } from './rest-rules.table.ts';
export { LOOKOUT_RULE_TEXT, REST_RULE_SCOPE_TEXT } from './rest-rule-texts.ts';
export {
  detectionRange,
  horizonNm,
  lightRangeNm,
  lookoutFactorRatio,
  lookoutInterval,
  lookoutIntervalMin,
  lookShare,
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
export { ALCOHOL_EQUIVALENCE, CRASH_ODDS, type AlcoholRow } from './crash-odds.table.ts';
