import type { Plan } from '../planner/index.ts';
import type { Result } from '../result/index.ts';
import { readJson, readShape } from './json-shape.ts';
import { publishedPlan } from './published-schema.ts';

/**
 * Reads the JSON of `slatch plan`, whole: a plan of another version is refused where its keys differ.
 *
 * @param file named in the problems
 * @returns the plan, or all of `plan.not-json`, `plan.key-unknown`, `plan.missing`, `plan.value`
 */
export function readPlan(text: string, file: string): Result<Plan> {
  const as = { file, kind: 'plan' };
  const json = readJson(text, as);
  return json.ok ? readShape(publishedPlan, json.value, as) : json;
}
