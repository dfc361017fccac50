/** The problem that is left when the first job of a plan is done, and what is left of the plan. */
import type {
  Choice,
  ChoiceTable,
  RestModel,
  ScheduleEntry,
  ScheduleProblem,
  Task,
  WorkEntry,
} from '../../lib/schedule/index.ts';

export interface Remainder {
  readonly problem: ScheduleProblem;
  readonly incumbent: readonly ScheduleEntry[];
}

/** null: the plan finishes nothing. Holds for the synthetic instances: no waits after tasks, no inertia, no end costs. */
export function afterFirstJob(problem: ScheduleProblem, entries: readonly ScheduleEntry[]): Remainder | null {
  const first = entries.findIndex((entry) => entry.kind === 'work' && entry.finishes);
  const entry = entries[first];
  const choice = entry?.kind === 'work' ? problem.tasks[entry.task]?.choices[entry.choice] : undefined;
  if (entry?.kind !== 'work' || choice === undefined) return null;
  const past = entries.slice(0, first + 1);
  const cell = (problem.rowOfLag[entry.lag] ?? 0) * problem.slotCount + entry.beginSlot;
  const lag = Math.min(problem.lagCount - 1, Math.max(0, entry.lag + (choice.table.lossQuanta[cell] ?? 0)));
  const left = { fromSlot: entry.endSlot, lag, config: choice.configFinished, past };
  const keptTasks = [...problem.tasks.keys()].filter((task) => task !== entry.task);
  return {
    problem: remainingProblem(problem, left, keptTasks),
    incumbent: entries.slice(first + 1).map((later) => movedEntry(later, left, keptTasks)),
  };
}

interface Left {
  readonly fromSlot: number;
  readonly lag: number;
  readonly config: number;
  readonly past: readonly ScheduleEntry[];
}

function movedEntry(entry: ScheduleEntry, { fromSlot, lag }: Left, keptTasks: readonly number[]): ScheduleEntry {
  const startSlot = entry.startSlot - fromSlot;
  const endSlot = entry.endSlot - fromSlot;
  if (entry.kind === 'sleep') return { ...entry, startSlot, wokeSlot: entry.wokeSlot - fromSlot, endSlot };
  return {
    ...entry,
    task: keptTasks.indexOf(entry.task),
    startSlot,
    beginSlot: entry.beginSlot - fromSlot,
    endSlot,
    lag: entry.lag - lag,
  };
}

function remainingProblem(problem: ScheduleProblem, left: Left, keptTasks: readonly number[]): ScheduleProblem {
  const { slotCount, configs } = problem;
  const width = slotCount - left.fromSlot;
  const rowCount = problem.rowCount - left.lag;
  const tasks = keptTasks.map((index) => remainingTask(problem, left, keptTasks, index));
  const waitQuanta = Int32Array.from({ length: configs.count * (width + 1) }, (_, i) => {
    const row = Math.floor(i / (width + 1)) * (slotCount + 1) + left.fromSlot;
    return (configs.waitQuanta[row + (i % (width + 1))] ?? 0) - (configs.waitQuanta[row] ?? 0);
  });
  return {
    ...problem,
    slotCount: width,
    lagCount: rowCount,
    rowOfLag: Int32Array.from({ length: rowCount }, (_, row) => row),
    rowCount,
    tasks,
    jobs: tasks.map((_, task) => ({ tasks: [task], priorityWeight: 1, conditional: false })),
    configs: { ...configs, start: left.config, waitQuanta },
    rest: problem.rest === null ? null : remainingRest(problem.rest, left, width),
  };
}

function remainingTask(problem: ScheduleProblem, left: Left, keptTasks: readonly number[], index: number): Task {
  const task = problem.tasks[index];
  if (task === undefined) throw new Error(`no task ${index}`);
  const begun = left.past.filter((entry): entry is WorkEntry => entry.kind === 'work' && entry.task === index);
  const doneUnits = begun.reduce((sum, { choice }) => sum + (task.choices[choice]?.unitCount ?? 0), 0);
  return {
    ...task,
    unitCount: task.unitCount - doneUnits,
    after: task.after
      .map(({ task: earlier, waitSlots }) => ({ task: keptTasks.indexOf(earlier), waitSlots }))
      .filter(({ task: earlier }) => earlier >= 0),
    choices: task.choices.map((choice): Choice => ({ ...choice, table: remainingTable(choice.table, problem, left) })),
  };
}

/** The rows of the lags and the columns of the instants still to come. */
function remainingTable(
  table: ChoiceTable,
  { slotCount, rowCount }: ScheduleProblem,
  { fromSlot, lag }: Left,
): ChoiceTable {
  const cells = Array.from({ length: rowCount - lag }, (_, i) => (i + lag) * slotCount).flatMap((row) =>
    Array.from({ length: slotCount - fromSlot }, (_, t) => row + fromSlot + t),
  );
  return {
    durationSlots: Uint16Array.from(cells, (cell) => table.durationSlots[cell] ?? 0),
    costPoints: Int32Array.from(cells, (cell) => table.costPoints[cell] ?? 0),
    lossQuanta: Int16Array.from(cells, (cell) => table.lossQuanta[cell] ?? 0),
    masks: table.masks.map((mask) => Int32Array.from(cells, (cell) => mask[cell] ?? 0)),
  };
}

function remainingRest(rest: RestModel, { fromSlot, past }: Left, width: number): RestModel {
  let s = rest.startS;
  let t = 0;
  let wokeSlot = rest.startWokeSlot;
  for (const entry of past) {
    if (entry.kind !== 'sleep') continue;
    s = rest.asleepS(rest.awakeS(s, entry.startSlot - t), entry.wokeSlot - entry.startSlot);
    t = entry.wokeSlot;
    wokeSlot = t;
  }
  return {
    ...rest,
    startS: rest.awakeS(s, fromSlot - t),
    startWokeSlot: wokeSlot - fromSlot,
    rhythmPoints: rest.rhythmPoints.slice(fromSlot),
    sleepAllowed: rest.sleepAllowed.slice(fromSlot, fromSlot + width),
    sleepCostPoints: rest.sleepCostPoints.slice(fromSlot, fromSlot + width),
  };
}
