export type { BindingLimit, NearestMiss, Plan, PlanEntry, PlannedJob } from './plan.ts';
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
export type { Planned, PlanInput } from './plan-passage.ts';
export { planPassage, prepareWindows } from './plan-passage.ts';
export { comparisonText } from './publish.ts';
export { limitWords } from './words.ts';
export type { SolveSettings } from './solve.ts';
