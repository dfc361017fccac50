/** The demo in memory, larger or smaller than it is: jobs, runs of the forecast, hours. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { buildForecast } from '../../lib/forecast/index.ts';
import { parsePassage } from '../../lib/passage/index.ts';
import { type Planned, type PlanInput, planPassage } from '../../lib/planner/index.ts';
import type { Result } from '../../lib/result/index.ts';
import { passageOfJobs } from '../bench-pages/large-passage.ts';
import { type ForecastFile, manyMembers } from '../bench-pages/many-members.ts';

export const DEMO_PATH = fileURLToPath(new URL('../../sample-forecasts/demo-passage.json', import.meta.url));

export interface DemoSize {
  readonly jobCount: number;
  /** Members beside the control, 1 or more; 0: the control alone, on which the error model draws. */
  readonly memberCount: number;
  readonly horizonH: number;
}

export function must<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

export function forecastFiles(memberCount: number): readonly { readonly name: string; readonly bytes: Uint8Array }[] {
  const files: readonly ForecastFile[] = manyMembers(Math.max(1, memberCount));
  return files.slice(0, memberCount === 0 ? 1 : 2).map(({ name, octets }) => ({ name, bytes: octets }));
}

/** What a plan is made of; a horizon beyond the forecast ends with it. */
export function demoInput({ jobCount, memberCount, horizonH }: DemoSize): PlanInput {
  const file = { settings: {}, ...passageOfJobs(readFileSync(DEMO_PATH, 'utf8'), jobCount) };
  const text = JSON.stringify({ ...file, settings: { ...file.settings, horizonH } });
  const passage = must(parsePassage(text, 'demo-passage.json'));
  const forecast = must(buildForecast([...forecastFiles(memberCount)]));
  return { passage, forecast, nowEpochMs: passage.fixedNowEpochMs ?? passage.start.epochMs };
}

export const planOf = (input: PlanInput): Planned => must(planPassage(input));
