/** Planning again when the first job is done: what is left must be worth what was left of it. */
import { describe, expect, it } from 'vitest';
import { simulateSchedule, solveSchedule } from '../../../lib/schedule/index.ts';
import { afterFirstJob } from '../../../scripts/bench-plan/after-first-job.ts';
import { quantile } from '../../../scripts/bench-plan/statistics.ts';
import { makeInstance } from '../../../scripts/schedule-instances/make-instance.ts';

describe('after the first job', () => {
  it.each([
    ['repair', 8],
    ['random', 24],
    ['repair', 1],
  ] as const)('%s, %i lags: the rest of the best plan is a best plan of the rest', (family, lagCount) => {
    const spec = {
      seed: 2,
      family,
      hourCount: family === 'repair' ? 24 : 36,
      slotMin: 30,
      taskCount: 6,
      memberCount: 8,
      lagCount,
      isTiring: true,
      limitRatio: 1,
    };
    const problem = makeInstance(spec);
    const old = solveSchedule(problem);
    const rest = afterFirstJob(problem, old.entries);
    expect(old.proven).toBe(true);
    if (rest === null) throw new Error('the plan does nothing');
    const carried = simulateSchedule(rest.problem, rest.incumbent);
    if (!carried.ok) throw new Error(`entry ${carried.at} breaks ${carried.rule}`);
    expect(carried.worth.priorityWeight).toBe(old.worth.priorityWeight - 1);
    expect(carried.worth.jointWeight).toBeGreaterThanOrEqual(old.worth.jointWeight);
    const fresh = solveSchedule(rest.problem);
    const warm = solveSchedule(rest.problem, {
      beamWidths: [150, 1500, 15_000, Infinity],
      extensionBudget: 50_000_000,
      incumbent: rest.incumbent,
    });
    expect(fresh.proven && warm.proven).toBe(true);
    expect(warm.worth).toEqual(fresh.worth);
    expect(warm.worth.priorityWeight).toBe(carried.worth.priorityWeight);
  });
});

describe('ranks', () => {
  it('of one to ten: nearest rank', () => {
    const values = [10, 3, 1, 9, 2, 8, 4, 7, 6, 5];
    expect([0.5, 0.9, 0.95, 1].map((share) => quantile(values, share))).toEqual([5, 9, 10, 10]);
  });
});
