/** One machine, jobs with release and due dates, no change times. */
import type { ScheduleProblem, Task } from '../../../../lib/schedule/index.ts';
import { plainChoice, plainProblem, tableOf, wholeTask } from './plain-problem.ts';

export interface MachineJob {
  readonly workSlots: number;
  readonly releaseSlot: number;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Long enough to begin after the last release, one job after the other. */
const horizonOf = (jobs: readonly MachineJob[]): number =>
  Math.max(...jobs.map(({ releaseSlot }) => releaseSlot)) + sum(jobs.map(({ workSlots }) => workSlots));

/** Least sum over the jobs of a cost of the instant each is finished. */
export function leastFinishCost(
  jobs: readonly MachineJob[],
  costPoints: (job: number, finishSlot: number) => number,
): ScheduleProblem {
  const slotCount = horizonOf(jobs);
  const tasks = jobs.map((job, index) =>
    machineTask(job, slotCount, {
      finishCostPoints: Int32Array.from({ length: slotCount + 1 }, (_, t) => costPoints(index, t)),
    }),
  );
  return plainProblem(slotCount, tasks);
}

function machineTask({ workSlots, releaseSlot }: MachineJob, slotCount: number, rest: Partial<Task> = {}): Task {
  const table = tableOf(slotCount, 1, (t) => (t < releaseSlot ? null : { durationSlots: workSlots }));
  return wholeTask([plainChoice(table)], rest);
}

/** Least instant at which everything is finished. */
export function leastMakespan(jobs: readonly MachineJob[]): ScheduleProblem {
  const slotCount = horizonOf(jobs);
  const tasks = jobs.map((job) => machineTask(job, slotCount));
  return plainProblem(slotCount, tasks, { endCostPoints: Int32Array.from({ length: slotCount + 1 }, (_, t) => t) });
}

/**
 * Least value of the greatest of some measure: scenario k of `levels` stays good while every job keeps its measure at
 * `levels[k]` or less, so the joint weight of the best plan counts the levels it keeps.
 */
export function leastGreatest(
  jobs: readonly MachineJob[],
  levels: readonly number[],
  measure: (job: number, finishSlot: number) => number,
): ScheduleProblem {
  const slotCount = horizonOf(jobs);
  const tasks = jobs.map(({ workSlots, releaseSlot }, job) => {
    const table = tableOf(slotCount, Math.ceil(levels.length / 32), (t) =>
      t < releaseSlot ? null : { durationSlots: workSlots, words: wordsAtOrAbove(levels, measure(job, t + workSlots)) },
    );
    return wholeTask([plainChoice(table)]);
  });
  return plainProblem(slotCount, tasks, { weights: new Int32Array(levels.length).fill(1) });
}

function wordsAtOrAbove(levels: readonly number[], value: number): readonly number[] {
  const words = Array.from({ length: Math.ceil(levels.length / 32) }, () => 0);
  for (const [k, level] of levels.entries()) if (level >= value) words[k >> 5] = (words[k >> 5] ?? 0) | (1 << (k & 31));
  return words;
}

/** A machine that works for `openSlots` and is shut for `shutSlots` by turns: least makespan. */
export function withShutTimes(
  workSlots: readonly number[],
  { openSlots, shutSlots }: { openSlots: number; shutSlots: number },
): ScheduleProblem {
  const period = openSlots + shutSlots;
  const slotCount = firstFitMakespan(workSlots, openSlots, period);
  const tasks = workSlots.map((slots) => {
    const table = tableOf(slotCount, 1, (t) => ((t % period) + slots > openSlots ? null : { durationSlots: slots }));
    return wholeTask([plainChoice(table)]);
  });
  return plainProblem(slotCount, tasks, { endCostPoints: Int32Array.from({ length: slotCount + 1 }, (_, t) => t) });
}

/** A makespan that can be had: each job, longest first, in the first turn with room for it. */
function firstFitMakespan(workSlots: readonly number[], openSlots: number, period: number): number {
  const used: number[] = [];
  for (const slots of workSlots.toSorted((a, b) => b - a)) {
    const turn = used.findIndex((busy) => busy + slots <= openSlots);
    if (turn === -1) used.push(slots);
    else used[turn] = (used[turn] ?? 0) + slots;
  }
  return (used.length - 1) * period + (used.at(-1) ?? 0);
}
