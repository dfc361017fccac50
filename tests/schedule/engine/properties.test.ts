import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ScheduleProblem, ScheduleSolution, ScheduleWorth } from '../../../lib/schedule/index.ts';
import { DEFAULT_SCHEDULE_SETTINGS, simulateSchedule, solveSchedule } from '../../../lib/schedule/index.ts';
import type { DrawnWorld } from './drawn-problem.ts';
import { drawnWorld, problemOf, SEED } from './drawn-problem.ts';
import { longOrShort } from '../../long-run.ts';

// Properties every plan must have, on drawn problems; fixed seed.

const RUNS = { seed: SEED, numRuns: longOrShort(40, 20) };

/** Worth as one list, greater is better. */
const levels = (problem: ScheduleProblem, worth: ScheduleWorth): readonly number[] => [
  worth.priorityWeight,
  Math.floor(worth.jointWeight / problem.stepWeight),
  worth.conditionalWeight,
  -worth.costPoints,
];

/** Whether a is worth at least as much as b. */
function isAtLeast(a: readonly number[], b: readonly number[]): boolean {
  const at = a.findIndex((value, level) => value !== b[level]);
  return at < 0 || (a[at] ?? 0) > (b[at] ?? 0);
}

/** The empty solution may stand for no legal plan: those worlds show nothing here. */
const hasPlan = (problem: ScheduleProblem, solution: ScheduleSolution): boolean =>
  solution.entries.length > 0 || simulateSchedule(problem, []).ok;

const forAllWorlds = (check: (world: DrawnWorld) => void): void => {
  fc.assert(fc.property(drawnWorld, check), RUNS);
};

describe('solveSchedule, any problem', () => {
  it('the plan: carried out from the raw tables it is worth what is said, mask for mask', () => {
    let workCount = 0;
    forAllWorlds((world) => {
      const problem = problemOf(world);
      const solution = solveSchedule(problem);
      if (!hasPlan(problem, solution)) return;
      workCount += solution.entries.filter((entry) => entry.kind === 'work').length;
      expect(simulateSchedule(problem, solution.entries)).toMatchObject({
        ok: true,
        worth: solution.worth,
        mask: solution.mask,
      });
    });
    expect(workCount).toBeGreaterThan(20);
  });

  it('the complete search: is proven, bound and worth equal', () => {
    forAllWorlds((world) => {
      const solution = solveSchedule(problemOf(world));
      expect(solution.proven).toBe(true);
      expect(solution.provenProbability).toBe(true);
      if (!hasPlan(problemOf(world), solution)) return;
      expect(solution.bound).toEqual(solution.worth);
    });
  });

  it('a narrow beam: never better than the complete search, and its bound never below that', () => {
    let unprovenCount = 0;
    forAllWorlds((world) => {
      const problem = problemOf(world);
      const best = solveSchedule(problem);
      if (!hasPlan(problem, best)) return;
      const narrow = solveSchedule(problem, { ...DEFAULT_SCHEDULE_SETTINGS, beamWidths: [2] });
      if (!narrow.proven) unprovenCount++;
      expect(narrow.bound.priorityWeight).toBeGreaterThanOrEqual(best.worth.priorityWeight);
      if (!hasPlan(problem, narrow)) return;
      expect(isAtLeast(levels(problem, best.worth), levels(problem, narrow.worth))).toBe(true);
      if (narrow.worth.priorityWeight !== best.worth.priorityWeight) return;
      expect(narrow.bound.jointWeight).toBeGreaterThanOrEqual(best.worth.jointWeight);
    });
    expect(unprovenCount).toBeGreaterThan(0);
  });

  it('more passes, each wider: never worse', () => {
    forAllWorlds((world) => {
      const problem = problemOf(world);
      const worths = [[1], [1, 4], [1, 4, 40]].map((beamWidths) => {
        const solution = solveSchedule(problem, { ...DEFAULT_SCHEDULE_SETTINGS, beamWidths });
        return hasPlan(problem, solution) ? levels(problem, solution.worth) : [-1];
      });
      expect(isAtLeast(worths[1] ?? [], worths[0] ?? [])).toBe(true);
      expect(isAtLeast(worths[2] ?? [], worths[1] ?? [])).toBe(true);
    });
  });

  it('a scenario split into two equal halves: changes nothing', () => {
    forAllWorlds((world) => {
      const doubled = {
        ...world,
        weights: world.weights.map((w) => 2 * w),
        needed: 2 * world.needed,
        step: 2 * world.step,
      };
      const whole = problemOf(doubled);
      const halves: ScheduleProblem = {
        ...whole,
        weights: Int32Array.from([...doubled.weights, ...doubled.weights], (weight) => weight / 2),
        tasks: whole.tasks.map((task) => ({
          ...task,
          choices: task.choices.map((choice) => ({
            ...choice,
            table: {
              ...choice.table,
              masks: choice.table.masks.map((words) => words.map((bits) => bits | (bits << world.weights.length))),
            },
          })),
        })),
      };
      const [a, b] = [solveSchedule(whole), solveSchedule(halves)];
      expect(b.worth).toEqual(a.worth);
    });
  });

  it('a scenario that holds more often: never makes the plan worth less', () => {
    forAllWorlds((world) => {
      const before = problemOf(world);
      const after = problemOf(world, { moreHolding: 0 });
      const [a, b] = [solveSchedule(before), solveSchedule(after)];
      if (!hasPlan(before, a)) return;
      expect(isAtLeast(levels(after, b.worth), levels(before, a.worth))).toBe(true);
    });
  });

  it('a task locked to where it begins: stays there, and the worth with it', () => {
    let lockedCount = 0;
    forAllWorlds((world) => {
      const problem = problemOf(world);
      const free = solveSchedule(problem);
      const work = free.entries.find((entry) => entry.kind === 'work' && problem.tasks[entry.task]?.unitCount === 1);
      if (work?.kind !== 'work') return;
      lockedCount++;
      const locked = problemOf(world, { locked: { task: work.task, beginSlot: work.beginSlot } });
      const solution = solveSchedule(locked);
      expect(solution.worth).toEqual(free.worth);
      const starts = solution.entries.flatMap((entry) =>
        entry.kind === 'work' && entry.task === work.task ? [entry.beginSlot] : [],
      );
      expect(starts.every((slot) => slot === work.beginSlot)).toBe(true);
    });
    expect(lockedCount).toBeGreaterThan(RUNS.numRuns / 4);
  });

  it('twice the same: the same plan and the same counts', () => {
    fc.assert(
      fc.property(drawnWorld, (world) => {
        expect(solveSchedule(problemOf(world))).toEqual(solveSchedule(problemOf(world)));
      }),
      { seed: SEED, numRuns: 10 },
    );
  });
});
