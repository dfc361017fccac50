/** The decisions of a problem at one place, each of them a variable: work begun or sleep begun at an instant. */
import type { ScheduleProblem } from '../../lib/schedule/index.ts';

export interface WorkStart {
  readonly name: string;
  readonly task: number;
  readonly choice: number;
  readonly unitCount: number;
  readonly onlyToFinish: boolean;
  readonly beginSlot: number;
  readonly endSlot: number;
  readonly costPoints: number;
  /** Least alertness when it ends. */
  readonly leastEndPoints: number;
  readonly words: readonly number[];
}

export interface SleepStart {
  readonly name: string;
  readonly beginSlot: number;
  readonly wokeSlot: number;
  readonly endSlot: number;
  readonly costPoints: number;
}

export const holdsIn = (words: readonly number[], scenario: number): boolean =>
  (((words[scenario >> 5] ?? 0) >>> (scenario & 31)) & 1) === 1;

/** What the model does not hold; a problem with any of it is refused. */
export function refuseBeyondModel(problem: ScheduleProblem): void {
  const choices = problem.tasks.flatMap((task) => task.choices);
  const beyond = [
    [problem.lagCount > 1, 'lags'],
    [problem.configs.count > 1, 'configs'],
    [problem.configs.waitQuanta.some((quanta) => quanta !== 0), 'way lost by waiting'],
    [problem.stepWeight > 1, 'coarse steps of joint weight'],
    [problem.jobs.some((job) => job.conditional || job.tasks.length > 1), 'conditional jobs, jobs of several tasks'],
    [problem.endCostPoints !== null || problem.tasks.some((task) => task.finishCostPoints !== null), 'end costs'],
    [choices.some(({ changeSlots }) => changeSlots.some((slots) => slots !== 0)), 'changes'],
    [
      choices.some(({ gate }) => gate !== null && (gate.longestAwakeSlots < Infinity || gate.inertiaClass >= 0)),
      'awake limits, inertia',
    ],
    [choices.some(({ gate }) => gate !== null && gate.leastStartPoints > -Infinity), 'alertness at the start'],
    [problem.rest !== null && problem.rest.refusesHistory !== null, 'rules on the history of sleep'],
  ] as const;
  const found = beyond.flatMap(([isThere, what]) => (isThere ? [what] : []));
  if (found.length > 0) throw new Error(`the linear model does not hold: ${found.join('; ')}`);
}

/** Starts that fewer than the needed weight of scenarios allow can be in no plan. */
export function workStarts(problem: ScheduleProblem): readonly WorkStart[] {
  const starts: WorkStart[] = [];
  for (const [task, { choices }] of problem.tasks.entries()) {
    for (const [index, choice] of choices.entries()) {
      for (let t = 0; t < problem.slotCount; t++) {
        const words = choice.table.masks.map((word) => word[t] ?? 0);
        const durationSlots = choice.table.durationSlots[t] ?? 0;
        if (durationSlots === 0 || weigh(words, problem.weights) < problem.neededWeight) continue;
        starts.push({
          name: `x${task}_${index}_${t}`,
          task,
          choice: index,
          unitCount: choice.unitCount,
          onlyToFinish: choice.onlyToFinish,
          beginSlot: t,
          endSlot: t + durationSlots,
          costPoints: (choice.table.costPoints[t] ?? 0) + (choice.table.lossQuanta[t] ?? 0) * problem.costPerQuantum,
          leastEndPoints: choice.gate?.leastEndPoints ?? -Infinity,
          words,
        });
      }
    }
  }
  return starts;
}

function weigh(words: readonly number[], weights: Int32Array): number {
  return weights.reduce((sum, weight, scenario) => sum + (holdsIn(words, scenario) ? weight : 0), 0);
}

export function sleepStarts({ rest, slotCount }: ScheduleProblem): readonly SleepStart[] {
  if (rest === null) return [];
  return rest.sleepSlots.flatMap((slots, index) =>
    Array.from({ length: slotCount }, (_, beginSlot) => beginSlot)
      .filter((t) => t + slots + rest.lookoutSlots <= slotCount)
      .filter((t) => rest.sleepAllowed.subarray(t, t + slots).every((allowed) => allowed === 1))
      .map((t) => ({
        name: `n${index}_${t}`,
        beginSlot: t,
        wokeSlot: t + slots,
        endSlot: t + slots + rest.lookoutSlots,
        costPoints: rest.sleepCostPoints.subarray(t, t + slots).reduce((sum, cost) => sum + cost, 0),
      })),
  );
}
