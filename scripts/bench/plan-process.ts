/**
 * One whole plan, in a process of its own so that its peak of memory is its own: `node plan-process.ts JOBS MEMBERS HOURS`.
 * Prints a line of JSON.
 */
import { processorMs } from '../bench-plan/clock.ts';
import { demoInput, planOf } from './demo.ts';
import type { PlanRun } from './plan-run.ts';
import { referenceWork } from './reference-work.ts';

const [jobCount = 0, memberCount = 0, horizonH = 0] = process.argv.slice(2).map(Number);

function timedMs(work: () => unknown): number {
  const begunMs = processorMs();
  work();
  return processorMs() - begunMs;
}

const input = demoInput({ jobCount, memberCount, horizonH });
const mib = (octets: number): number => Math.round(octets / 2 ** 20);
const beforeMib = mib(process.memoryUsage().rss);
// Compiled before it counts.
referenceWork();
const referenceBeforeMs = timedMs(referenceWork);
let planned: ReturnType<typeof planOf> | null = null;
const planMs = timedMs(() => {
  planned = planOf(input);
});
const { plan } = planned ?? planOf(input);
const run: PlanRun = {
  planMs,
  referenceMs: [referenceBeforeMs, timedMs(referenceWork)],
  scenarioCount: plan.forecast.members,
  isProven: plan.solver.optimal,
  gap: plan.solver.gap,
  plannedCount: plan.jobs.filter(({ status }) => status !== 'unplanned').length,
  labelCount: plan.solver.labels,
  beforeMib,
  peakMib: Math.round(process.resourceUsage().maxRSS / 1024),
};
process.stdout.write(`${JSON.stringify(run)}\n`);
