import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { DemoSize } from './demo.ts';

/** What one process found. Times are of the processor, all threads together [ms]. */
export interface PlanRun {
  readonly planMs: number;
  /** The reference work, before the plan and after it. */
  readonly referenceMs: readonly [number, number];
  /** Scenarios searched: members, or draws of the error model. */
  readonly scenarioCount: number;
  /** false: the search ended at its budget, or the plan chosen is not the one proven. */
  readonly isProven: boolean;
  readonly gap: number | null;
  readonly plannedCount: number;
  readonly labelCount: number;
  /** Memory of the process with the forecast read, and at most [MiB]. */
  readonly beforeMib: number;
  readonly peakMib: number;
}

const PROGRAM = fileURLToPath(new URL('plan-process.ts', import.meta.url));

export function runPlan({ jobCount, memberCount, horizonH }: DemoSize): PlanRun {
  const words = ['--import', 'tsx', PROGRAM, ...[jobCount, memberCount, horizonH].map(String)];
  const { status, stdout, stderr } = spawnSync(process.execPath, words, { encoding: 'utf8' });
  if (status !== 0) throw new Error(stderr);
  const run: unknown = JSON.parse(stdout.trim().split('\n').at(-1) ?? '');
  if (!isPlanRun(run)) throw new Error(`the process of a plan said ${stdout}`);
  return run;
}

/** Our own process wrote it, so the rest is as it should be. */
const isPlanRun = (value: unknown): value is PlanRun =>
  typeof value === 'object' && value !== null && 'planMs' in value && 'peakMib' in value;
