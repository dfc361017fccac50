export type {
  BindingLimit,
  EntryFactor,
  NearestMiss,
  NotEarlier,
  Plan,
  PlanEntry,
  PlannedJob,
  PlannedRestRule,
  PlannedSleep,
  PlannedWatch,
  SleepDay,
  SleepFirst,
  StandingPlan,
  WatchHour,
} from './plan.ts';
export type {
  DefaultSetting,
  JobPicture,
  LimitLevels,
  PictureLimits,
  PlanPicture,
  Spread,
  StartSpan,
  TrueWindAt,
  WideSpread,
} from './plan-picture.ts';
export { personBySlot, type Followed } from './person-by-slot.ts';
export type { Planned, PlanInput } from './plan-passage.ts';
export { planPassage, prepareWindows } from './plan-passage.ts';
export { checksBesideFigures } from './go-check.ts';
export { startCheckText } from './start-check-text.ts';
export {
  type CheckNumbers,
  type StartCheck,
  type StartStopNumbers,
  startStopNumbers,
  type WorkedPart,
} from './start-numbers.ts';
export { comparisonText } from './publish.ts';
export { limitWords } from './words.ts';
export type { FoundSoFar } from './search.ts';
export type { SolveSettings } from './solve.ts';
export type { AskedBlock } from './asked-work.ts';
export type { AskedStart, LimitLook, StartLook } from './look-at-start.ts';
export { lookAtStart, lookEnds } from './look-at-start.ts';
export type { HourValues, MoonSeen } from './hour-values.ts';
export type { BlockLimits, HourStart, WindowsPicture } from './windows-picture.ts';
export { windowsPicture } from './windows-picture.ts';
export type { CheckedEntry, CheckedJob, OwnPlanCheck, OwnPlanFigures } from './own-plan.ts';
export type { OwnEntry, OwnPlan } from './own-plan-input.ts';
export { ownPlanJudge, type OwnPlanJudge } from './own-plan-passage.ts';
export { bestWindowPlan } from './best-window.ts';
export { firstFairPlan } from './first-fair.ts';
export { prepare, problemOf, type PlanningWeather, type Preparation } from './prepare.ts';
export { rehearsalOf } from './rehearsed.ts';
export { reportPlan, type Report, type ReportingWeather } from './report.ts';
export { DEFAULT_SOLVE, solve } from './solve.ts';
export { isJobDone, type PlanState } from './state.ts';
export { stepWorkKind } from './own-pace.ts';
