/** Pieces from which the published problems are put together: one place, one member, a worker who never tires. */
import type {
  Choice,
  ChoiceTable,
  Configs,
  ScheduleJob,
  ScheduleProblem,
  Task,
} from '../../../../lib/schedule/index.ts';

/** What a choice does when its work begins at an instant; null: refused. */
export type TableRow = (beginSlot: number) => {
  readonly durationSlots: number;
  readonly costPoints?: number;
  /** One number for each 32 scenarios; all of one scenario when left out. */
  readonly words?: readonly number[];
} | null;

export function tableOf(slotCount: number, wordCount: number, row: TableRow): ChoiceTable {
  const table = {
    durationSlots: new Uint16Array(slotCount),
    costPoints: new Int32Array(slotCount),
    lossQuanta: new Int16Array(slotCount),
    masks: Array.from({ length: wordCount }, () => new Int32Array(slotCount)),
  };
  for (let t = 0; t < slotCount; t++) {
    const cell = row(t);
    if (cell === null || t + cell.durationSlots > slotCount) continue;
    table.durationSlots[t] = cell.durationSlots;
    table.costPoints[t] = cell.costPoints ?? 0;
    for (const [word, bits] of (cell.words ?? [1]).entries()) {
      const mask = table.masks[word];
      if (mask !== undefined) mask[t] = bits;
    }
  }
  return table;
}

/** A choice open from every config without a change, which keeps no config apart. */
export const plainChoice = (table: ChoiceTable): Choice => ({
  unitCount: 1,
  onlyToFinish: false,
  changeSlots: Int16Array.of(0),
  configAfter: 0,
  configFinished: 0,
  gate: null,
  table,
});

export const wholeTask = (choices: readonly Choice[], rest: Partial<Task> = {}): Task => ({
  unitCount: 1,
  after: [],
  choices,
  finishCostPoints: null,
  ...rest,
});

/** One config, in which nothing is lost. */
const oneConfig = (slotCount: number): Configs => ({
  count: 1,
  start: 0,
  afterWait: Int32Array.of(0),
  waitQuanta: new Int32Array(slotCount + 1),
});

/** Every task together is one job unless told otherwise: all or nothing. */
const allTogether = (tasks: readonly Task[]): readonly ScheduleJob[] => [
  { tasks: tasks.map((_, task) => task), priorityWeight: 1, conditional: false },
];

export function plainProblem(
  slotCount: number,
  tasks: readonly Task[],
  rest: Partial<ScheduleProblem> = {},
): ScheduleProblem {
  return {
    slotCount,
    lagCount: 1,
    rowOfLag: Int32Array.of(0),
    rowCount: 1,
    weights: Int32Array.of(1),
    neededWeight: 1,
    stepWeight: 1,
    tasks,
    jobs: allTogether(tasks),
    configs: oneConfig(slotCount),
    rest: null,
    costPerQuantum: 0,
    endCostPoints: null,
    ...rest,
  };
}
