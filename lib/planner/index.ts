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
