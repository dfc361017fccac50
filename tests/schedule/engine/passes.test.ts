import { describe, expect, it } from 'vitest';
import type { ScheduleProblem, ScheduleWorth } from '../../../lib/schedule/index.ts';
import { DEFAULT_SCHEDULE_SETTINGS, simulateSchedule, solveSchedule } from '../../../lib/schedule/index.ts';
import { littleProblem, littleRest } from './little-problem.ts';

/** Tasks whose good scenarios and costs change from slot to slot, as drawn by a multiplier; the worker tires. */
function changeable(taskCount: number, slots: number, startS = 12): ScheduleProblem {
  const noise = (task: number, t: number): number => Math.imul(task * 7919 + t * 104_729 + 17, 0x9e37_79b1) >>> 8;
  const weights = Array.from({ length: 20 }, (_unused, w) => 1 + (w % 3));
  return littleProblem({
    slots,
    weights,
    rest: littleRest(slots, { startS, awakeS: (s, k) => s - k / 4, sleepCostPoints: new Int32Array(slots).fill(1) }),
    tasks: Array.from({ length: taskCount }, (_unused, task) => ({
      choices: [
        {
          slots: 2,
          opens: (t: number) => (noise(task, t) & 3) !== 0,
          cost: (t: number) => noise(task, t) % 50,
          holds: (t: number) =>
            weights.flatMap((_weight, w) => (((noise(task + 31 * w, t >> 3) >> 5) & 7) > 1 ? [w] : [])),
          gate: { leastEndPoints: 4 },
        },
      ],
    })),
  });
}

describe('solveSchedule, passes', () => {
  it('a plan known from before: taken over at once when there is no budget for a better one', () => {
    const problem = changeable(5, 40);
    const best = solveSchedule(problem);
    const again = solveSchedule(problem, { ...DEFAULT_SCHEDULE_SETTINGS, extensionBudget: 0, incumbent: best.entries });
    expect(again.entries).toEqual(best.entries);
    expect(again.worth).toEqual(best.worth);
    expect(again.extensionCount).toBe(0);
  });

  it('a plan known from before that is the best: the search proves it with less work', () => {
    const problem = changeable(6, 40);
    const best = solveSchedule(problem);
    const again = solveSchedule(problem, { ...DEFAULT_SCHEDULE_SETTINGS, incumbent: best.entries });
    expect(again.worth).toEqual(best.worth);
    expect(again.proven).toBe(true);
    expect(again.extensionCount).toBeLessThan(best.extensionCount);
  });

  it('a plan known from before that breaks a rule: left aside', () => {
    const problem = changeable(3, 20);
    const incumbent = [{ kind: 'sleep', startSlot: 0, wokeSlot: 7, endSlot: 8 } as const];
    expect(simulateSchedule(problem, incumbent).ok).toBe(false);
    const solution = solveSchedule(problem, { ...DEFAULT_SCHEDULE_SETTINGS, incumbent });
    expect(solution.worth).toEqual(solveSchedule(problem).worth);
  });

  it('no budget and no plan: an empty answer that claims nothing, with a bound', () => {
    const solution = solveSchedule(changeable(5, 40), { ...DEFAULT_SCHEDULE_SETTINGS, extensionBudget: 0 });
    expect(solution).toMatchObject({ proven: false, provenProbability: false, entries: [] });
    expect(solution.bound.priorityWeight).toBe(5);
  });

  it('a budget spent early: a legal plan, bounds that the best plan keeps to, and no proof of less', () => {
    const problem = changeable(7, 48);
    const best = solveSchedule(problem);
    const isProven = [2, 4, 8, 16, 32].map((part) => {
      const extensionBudget = Math.round(best.extensionCount / part);
      const some = solveSchedule(problem, { ...DEFAULT_SCHEDULE_SETTINGS, extensionBudget });
      expect(simulateSchedule(problem, some.entries)).toMatchObject({ ok: true, worth: some.worth });
      expect(some.bound.priorityWeight).toBeGreaterThanOrEqual(best.worth.priorityWeight);
      const isSameDone = some.worth.priorityWeight === best.worth.priorityWeight;
      const isSameChance = isSameDone && some.worth.jointWeight === best.worth.jointWeight;
      expect(isSameDone ? some.bound.jointWeight : Infinity).toBeGreaterThanOrEqual(best.worth.jointWeight);
      expect(isSameChance ? some.bound.costPoints : -Infinity).toBeLessThanOrEqual(best.worth.costPoints);
      expect(some.proven ? some.worth : best.worth).toEqual(best.worth);
      return some.proven;
    });
    expect(isProven).toContain(false);
  });

  it('cancelled from the start: ends without a search', () => {
    const solution = solveSchedule(changeable(5, 40), { ...DEFAULT_SCHEDULE_SETTINGS, isCancelled: () => true });
    expect(solution).toMatchObject({ extensionCount: 0, proven: false });
  });

  it('progress: told as a share that rises', () => {
    const shares: number[] = [];
    solveSchedule(changeable(8, 48), { ...DEFAULT_SCHEDULE_SETTINGS, onProgress: (share) => shares.push(share) });
    expect(shares[0]).toBe(0);
    expect(shares.toSorted((a, b) => a - b)).toEqual(shares);
    expect(shares.every((share) => share <= 1)).toBe(true);
  });
});

/** Where a step of the joint weight is one. */
function isBetter(a: ScheduleWorth, b: ScheduleWorth): boolean {
  const byChance = a.priorityWeight - b.priorityWeight || a.jointWeight - b.jointWeight;
  return byChance > 0 || (byChance === 0 && a.costPoints < b.costPoints);
}

describe('solveSchedule, plans told of on the way', () => {
  it('each is better than the one before, the last is the answer', () => {
    const told: ScheduleWorth[] = [];
    const problem = changeable(7, 48);
    const { worth } = solveSchedule(problem, {
      ...DEFAULT_SCHEDULE_SETTINGS,
      onPlan: ({ worth: one }) => told.push(one),
    });
    expect(told.length).toBeGreaterThan(1);
    expect(told.at(-1)).toEqual(worth);
    for (const [k, plan] of told.slice(1).entries()) expect(isBetter(plan, told[k] ?? worth)).toBe(true);
  });
});

describe('solveSchedule, only a plan with every job', () => {
  const settings = { ...DEFAULT_SCHEDULE_SETTINGS, onlyWhole: true };

  it('there is one: the same answer as without', () => {
    const problem = changeable(6, 40);
    const whole = solveSchedule(problem, settings);
    expect(whole.isLeftOff).toBe(false);
    expect(whole).toEqual(solveSchedule(problem));
  });

  it('there is none: left off, with nothing claimed', () => {
    // Seven tasks of two slots do not go into twelve.
    const problem = changeable(7, 12);
    const whole = solveSchedule(problem, settings);
    expect(whole).toMatchObject({ isLeftOff: true, proven: false, provenProbability: false });
    const best = solveSchedule(problem);
    expect(whole.bound.priorityWeight).toBeGreaterThanOrEqual(best.worth.priorityWeight);
    expect(best).toMatchObject({ isLeftOff: false, proven: true });
    expect(whole.extensionCount).toBeLessThan(best.extensionCount);
  });
});

describe('solveSchedule, advice', () => {
  it('as many jobs in as many scenarios, no proof of the cost, less work', () => {
    const problem = changeable(7, 48);
    const best = solveSchedule(problem);
    const some = solveSchedule(problem, { ...DEFAULT_SCHEDULE_SETTINGS, isAdvice: true });
    expect(simulateSchedule(problem, some.entries)).toMatchObject({ ok: true, worth: some.worth });
    expect(some.worth).toMatchObject({
      priorityWeight: best.worth.priorityWeight,
      jointWeight: best.worth.jointWeight,
    });
    expect(some.worth.costPoints).toBeGreaterThanOrEqual(best.worth.costPoints);
    expect(some).toMatchObject({ proven: false, provenProbability: true });
    expect(some.extensionCount).toBeLessThan(best.extensionCount);
  });
});

describe('solveSchedule, a problem too large for tables', () => {
  const large = changeable(18, 90, 22);
  const settings = { ...DEFAULT_SCHEDULE_SETTINGS, extensionBudget: 300_000 };
  const solution = solveSchedule(large, settings);

  it('the plan: does every task, keeps every rule, and is worth what is said', () => {
    expect(solution.worth.priorityWeight).toBe(18);
    expect(simulateSchedule(large, solution.entries)).toMatchObject({ ok: true, worth: solution.worth });
  });

  it('the bound: not below the plan, and nothing claimed that is not proven', () => {
    expect(solution.bound.priorityWeight).toBe(18);
    expect(solution.bound.jointWeight).toBeGreaterThanOrEqual(solution.worth.jointWeight);
    expect(solution.bound.costPoints).toBeLessThanOrEqual(solution.worth.costPoints);
    expect(solution.proven).toBe(false);
  });

  it('a plan known from before: never made worse', () => {
    const again = solveSchedule(large, { ...settings, extensionBudget: 60_000, incumbent: solution.entries });
    expect(again.worth.jointWeight).toBeGreaterThanOrEqual(solution.worth.jointWeight);
    expect(again.worth.priorityWeight).toBe(18);
  });
});
