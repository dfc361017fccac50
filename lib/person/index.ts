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
export { bodyClockAlong, bodyClockH, nextLagMin } from './body-clock.ts';
export { simulateAlertness, type AlertnessAt, type SimulationOptions, type StartValue } from './simulate-alertness.ts';
export { afterSleep, sleptH, startState, type PersonStart, type PersonState } from './person-state.ts';
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
