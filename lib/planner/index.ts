export type { BindingLimit, NearestMiss, Plan, PlanEntry, PlannedJob } from './plan.ts';
