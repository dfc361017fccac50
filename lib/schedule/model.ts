import type { Choice, ScheduleProblem, Task, WaitSlots } from './problem.ts';
import { ScenarioScale } from './scenario-scale.ts';
import { i32, item } from './typed-reads.ts';
import { isWait } from './wait-slots.ts';

/** A problem prepared for the search: choices in one list, weights of their tables, the memories a state must keep. */
export interface Model {
  readonly problem: ScheduleProblem;
  readonly scale: ScenarioScale;
  readonly choices: readonly ModelChoice[];
  /** Indices into `choices`, by task. */
  readonly choicesOfTask: readonly (readonly number[])[];
  /** Tasks whose work narrows the joint set of scenarios. */
  readonly narrows: readonly boolean[];
  /** Classes of inertia that some choice asks for, and work that some other (or the next session) waits after. */
  readonly inertiaClasses: readonly number[];
  readonly releases: readonly Release[];
  /** Waits of each task: as in its choices. */
  readonly waitsOfTask: readonly ModelChoice['waits'][];
  readonly asksAwake: boolean;
}

/**
 * Work after which others wait: what is kept is the instant at which the longest wait of a fixed length is over, or one
 * that goes by the instant.
 */
export interface Release {
  readonly task: number;
  /** Kept when the task is finished, or when a session leaves units of it over. */
  readonly when: 'finished' | 'session';
  readonly longestWaitSlots: WaitSlots;
  /** Shortest work that could finish it. */
  readonly leastDurationSlots: number;
}

export interface ModelChoice {
  readonly task: number;
  /** Index within the task. */
  readonly choiceIndex: number;
  readonly choice: Choice;
  readonly narrows: boolean;
  /** Weight of each mask of the table. */
  readonly marginalWeight: Int32Array;
  /** Memory of the inertia class asked for; −1: none. */
  readonly inertiaMemoryIndex: number;
  readonly waits: readonly Wait[];
}

/** A memory a task waits for, and how many slots before the kept instant it may start. */
export interface Wait {
  readonly memoryIndex: number;
  readonly earlierSlots: number;
  /** Whether the task cannot start before that work is finished at all. */
  readonly follows: boolean;
}

export function buildModel(problem: ScheduleProblem): Model {
  const scale = new ScenarioScale(problem.weights);
  const narrows = problem.tasks.map((_, task) => isUnconditional(problem, task));
  const inertiaClasses = problem.rest === null ? [] : askedInertia(problem);
  const releases = findReleases(problem);
  const waitsOfTask = problem.tasks.map((_, task) => waitsOf(problem, task, { releases, inertiaClasses }));
  const marginals = new Map<object, Int32Array>();
  const choices = problem.tasks.flatMap((task, taskIndex) =>
    task.choices.map((choice, choiceIndex): ModelChoice => {
      const marginalWeight = marginals.get(choice.table) ?? weighTable(problem, scale, choice);
      marginals.set(choice.table, marginalWeight);
      const inertiaClass = choice.gate?.inertiaClass ?? -1;
      return {
        task: taskIndex,
        choiceIndex,
        choice,
        narrows: item(narrows, taskIndex),
        marginalWeight,
        inertiaMemoryIndex: inertiaClasses.indexOf(inertiaClass),
        waits: item(waitsOfTask, taskIndex),
      };
    }),
  );
  return {
    problem,
    scale,
    choices,
    choicesOfTask: problem.tasks.map((_, task) => choices.flatMap((choice, i) => (choice.task === task ? [i] : []))),
    narrows,
    inertiaClasses,
    releases,
    waitsOfTask,
    asksAwake:
      problem.rest !== null && choices.some(({ choice }) => (choice.gate?.longestAwakeSlots ?? Infinity) < Infinity),
  };
}

/** A task of no job narrows too: that never makes a plan look better than it is. */
const isUnconditional = ({ jobs }: ScheduleProblem, task: number): boolean => {
  const owners = jobs.filter((job) => job.tasks.includes(task));
  return owners.length === 0 || owners.some((job) => !job.conditional);
};

const askedInertia = (problem: ScheduleProblem): readonly number[] => [
  ...new Set(
    problem.tasks
      .flatMap((task) => task.choices.map((choice) => choice.gate?.inertiaClass ?? -1))
      .filter((inertiaClass) => inertiaClass >= 0),
  ),
];

function findReleases({ tasks }: ScheduleProblem): readonly Release[] {
  const longest = new Map<number, number>();
  const byInstant: { readonly task: number; readonly longestWaitSlots: Int32Array }[] = [];
  const keep = (task: number, slots: WaitSlots): void => {
    if (!isWait(slots)) return;
    if (typeof slots === 'number') longest.set(task, Math.max(slots, longest.get(task) ?? 0));
    else if (!byInstant.some((kept) => kept.task === task && kept.longestWaitSlots === slots))
      byInstant.push({ task, longestWaitSlots: slots });
  };
  for (const [index, { after, holds }] of tasks.entries()) {
    for (const { task, waitSlots } of after) keep(task, waitSlots);
    for (const { slots } of holds ?? []) keep(index, slots);
  }
  const finished = [...[...longest].map(([task, longestWaitSlots]) => ({ task, longestWaitSlots })), ...byInstant].map(
    (of) => release(tasks, { ...of, when: 'finished' }),
  );
  const sessions = tasks.flatMap(({ restSlots = 0, unitCount }, task) =>
    restSlots > 0 && unitCount > 1 ? [release(tasks, { task, longestWaitSlots: restSlots, when: 'session' })] : [],
  );
  return [...finished, ...sessions];
}

const release = (tasks: readonly Task[], of: Omit<Release, 'leastDurationSlots'>): Release => ({
  ...of,
  leastDurationSlots: item(tasks, of.task).choices.reduce(
    (least, choice) => choice.table.durationSlots.reduce((l, slots) => (slots > 0 ? Math.min(l, slots) : l), least),
    0xffff,
  ),
});

function waitsOf(
  { tasks }: ScheduleProblem,
  task: number,
  memories: { readonly releases: readonly Release[]; readonly inertiaClasses: readonly number[] },
): readonly Wait[] {
  const waitFor = (before: number, slots: WaitSlots, how: Pick<Release, 'when'> & Pick<Wait, 'follows'>): Wait => {
    const k = memories.releases.findIndex(
      ({ task: other, when, longestWaitSlots: kept }) =>
        other === before &&
        when === how.when &&
        (typeof slots === 'number' ? typeof kept === 'number' : kept === slots),
    );
    const { longestWaitSlots: longest } = item(memories.releases, k);
    const earlierSlots = typeof slots === 'number' && typeof longest === 'number' ? longest - slots : 0;
    return { memoryIndex: memories.inertiaClasses.length + k, earlierSlots, follows: how.follows };
  };
  const { after, restSlots = 0, unitCount } = item(tasks, task);
  return [
    ...after.flatMap((before) =>
      isWait(before.waitSlots) ? [waitFor(before.task, before.waitSlots, { when: 'finished', follows: true })] : [],
    ),
    ...tasks.flatMap(({ holds }, holder) =>
      (holds ?? []).flatMap((held) =>
        held.task === task && isWait(held.slots)
          ? [waitFor(holder, held.slots, { when: 'finished', follows: false })]
          : [],
      ),
    ),
    ...(restSlots > 0 && unitCount > 1 ? [waitFor(task, restSlots, { when: 'session', follows: false })] : []),
  ];
}

function weighTable({ rowCount, slotCount }: ScheduleProblem, scale: ScenarioScale, choice: Choice): Int32Array {
  const { masks } = choice.table;
  const weights = new Int32Array(rowCount * slotCount);
  const mask = new Int32Array(scale.wordCount);
  for (let cell = 0; cell < weights.length; cell++) {
    for (let word = 0; word < scale.wordCount; word++) mask[word] = i32(item(masks, word), cell);
    weights[cell] = scale.weigh(mask, 0);
  }
  return weights;
}
