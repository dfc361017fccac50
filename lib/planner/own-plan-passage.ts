import type { Result } from '../result/index.ts';
import { ok } from '../result/index.ts';
import type { OwnPlan } from './own-plan-input.ts';
import type { OwnPlanCheck } from './own-plan.ts';
import { checkOwnPlan } from './own-plan.ts';
import type { PlanInput } from './plan-passage.ts';
import { prepareWindows, reportingWeather } from './plan-passage.ts';

/** A passage made ready once, to judge several plans on the same draws. */
export interface OwnPlanJudge {
  check(own: OwnPlan): OwnPlanCheck;
}

/** Makes a passage ready to judge plans made by hand, or says why its forecast will not do. */
export function ownPlanJudge(input: PlanInput): Result<OwnPlanJudge> {
  const ready = prepareWindows(input);
  if (!ready.ok) return ready;
  const reporting = reportingWeather(input);
  return ok({ check: (own) => checkOwnPlan(ready.value.preparation, reporting, own) });
}
