/** Small problems in few words: one lag, one config, weather by slot, unless said otherwise. */
import type {
  Choice,
  ChoiceGate,
  RestModel,
  ScheduleEntry,
  ScheduleProblem,
  Task,
} from '../../../lib/schedule/index.ts';

export interface LittleChoice {
  readonly units?: number;
  readonly onlyToFinish?: boolean;
  /** Slots of work; refused at instants for which `opens` says no. */
  readonly slots: number;
  readonly opens?: (beginSlot: number, row: number) => boolean;
  readonly cost?: (beginSlot: number, row: number) => number;
  readonly loss?: (beginSlot: number, row: number) => number;
  /** Scenarios that hold, by number. */
  readonly holds?: (beginSlot: number, row: number) => readonly number[];
  readonly changeSlots?: readonly number[];
  readonly configAfter?: number;
  readonly configFinished?: number;
  readonly gate?: Partial<ChoiceGate>;
}

export interface LittleTask {
  readonly units?: number;
  readonly after?: Task['after'];
  readonly restSlots?: number;
  readonly holdsTools?: Task['holds'];
  readonly choices: readonly LittleChoice[];
  readonly finishCost?: (endSlot: number) => number;
}

export interface LittleWorld {
  readonly slots: number;
  readonly tasks: readonly LittleTask[];
  readonly weights?: readonly number[];
  readonly needed?: number;
  readonly step?: number;
  readonly lags?: number;
  readonly jobs?: ScheduleProblem['jobs'];
  readonly configCount?: number;
  readonly startConfig?: number;
  readonly afterWait?: readonly number[];
  /** Quanta fallen behind in a slot of waiting. */
  readonly waitLoss?: (config: number, t: number) => number;
  readonly costPerQuantum?: number;
  readonly endCost?: (config: number, t: number) => number;
  readonly rest?: RestModel;
}

export function littleProblem(world: LittleWorld): ScheduleProblem {
  const { slots, lags = 1, weights = [1], configCount = 1 } = world;
  return {
    slotCount: slots,
    lagCount: lags,
    rowOfLag: Int32Array.from({ length: lags }, (_, lag) => lag),
    rowCount: lags,
    weights: Int32Array.from(weights),
    neededWeight: world.needed ?? 1,
    stepWeight: world.step ?? 1,
    tasks: world.tasks.map((task) => ({
      unitCount: task.units ?? 1,
      after: task.after ?? [],
      choices: task.choices.map((choice) => littleChoice(choice, { slots, lags, weights, configCount })),
      ...(task.restSlots === undefined ? {} : { restSlots: task.restSlots }),
      ...(task.holdsTools === undefined ? {} : { holds: task.holdsTools }),
      finishCostPoints: sums(slots + 1, task.finishCost),
    })),
    jobs: world.jobs ?? world.tasks.map((_, task) => ({ tasks: [task], priorityWeight: 1, conditional: false })),
    configs: {
      count: configCount,
      start: world.startConfig ?? 0,
      afterWait: Int32Array.from(world.afterWait ?? Array.from({ length: configCount }, (_, config) => config)),
      waitQuanta: waitQuanta(world),
    },
    rest: world.rest ?? null,
    costPerQuantum: world.costPerQuantum ?? 0,
    endCostPoints: endCosts(world),
  };
}

const OPEN_GATE = { leastStartPoints: -99, leastEndPoints: -99, longestAwakeSlots: Infinity, inertiaClass: -1 };

interface Size {
  readonly slots: number;
  readonly lags: number;
  readonly weights: readonly number[];
  readonly configCount: number;
}

function littleTable(choice: LittleChoice, size: Size): Choice['table'] {
  const cells = size.slots * size.lags;
  const table = {
    durationSlots: new Uint16Array(cells),
    costPoints: new Int32Array(cells),
    lossQuanta: new Int16Array(cells),
    masks: Array.from({ length: Math.ceil(size.weights.length / 32) }, () => new Int32Array(cells)),
  };
  const all = size.weights.map((_, w) => w);
  for (let row = 0; row < size.lags; row++)
    for (let t = 0; t < size.slots; t++) {
      const cell = row * size.slots + t;
      table.durationSlots[cell] = choice.opens?.(t, row) === false ? 0 : choice.slots;
      table.costPoints[cell] = choice.cost?.(t, row) ?? 0;
      table.lossQuanta[cell] = choice.loss?.(t, row) ?? 0;
      for (const w of choice.holds?.(t, row) ?? all) {
        const mask = table.masks[w >> 5];
        if (mask !== undefined) mask[cell] = (mask[cell] ?? 0) | (1 << (w & 31));
      }
    }
  return table;
}

function littleChoice(choice: LittleChoice, size: Size): Choice {
  return {
    unitCount: choice.units ?? 1,
    onlyToFinish: choice.onlyToFinish ?? false,
    changeSlots: Int16Array.from(choice.changeSlots ?? Array.from({ length: size.configCount }, () => 0)),
    configAfter: choice.configAfter ?? 0,
    configFinished: choice.configFinished ?? choice.configAfter ?? 0,
    gate: choice.gate === undefined ? null : { ...OPEN_GATE, ...choice.gate },
    table: littleTable(choice, size),
  };
}

const sums = (length: number, cost: ((t: number) => number) | undefined): Int32Array | null =>
  cost === undefined ? null : Int32Array.from({ length }, (_, t) => cost(t));

function waitQuanta({ slots, configCount = 1, waitLoss }: LittleWorld): Int32Array {
  const quanta = new Int32Array(configCount * (slots + 1));
  for (let config = 0; config < configCount; config++)
    for (let t = 0; t < slots; t++) {
      const at = config * (slots + 1) + t;
      quanta[at + 1] = (quanta[at] ?? 0) + (waitLoss?.(config, t) ?? 0);
    }
  return quanta;
}

function endCosts({ slots, configCount = 1, endCost }: LittleWorld): Int32Array | null {
  if (endCost === undefined) return null;
  return Int32Array.from({ length: configCount * (slots + 1) }, (_, i) =>
    endCost(Math.floor(i / (slots + 1)), i % (slots + 1)),
  );
}

/** S falls by 1 in a slot awake and rises by 2 in a slot asleep; alertness is S. */
export function littleRest(slots: number, more: Partial<RestModel> = {}): RestModel {
  return {
    startS: 10,
    startWokeSlot: 0,
    startClearSlots: new Int32Array(0),
    awakeS: (s, count) => s - count,
    asleepS: (s, count) => s + 2 * count,
    rhythmPoints: new Float64Array(slots + 1),
    sleepSlots: [2],
    lookoutSlots: 1,
    sleepAllowed: new Uint8Array(slots).fill(1),
    sleepCostPoints: new Int32Array(slots),
    leastEndS: -99,
    inertiaSlots: [],
    refusesHistory: null,
    ...more,
  };
}

/** `task@start-end`, and `sleep@start-woke`, in order. */
export const inWords = (entries: readonly ScheduleEntry[]): string =>
  entries
    .map((entry) =>
      entry.kind === 'work'
        ? `${entry.task}@${entry.startSlot}-${entry.endSlot}`
        : `sleep@${entry.startSlot}-${entry.wokeSlot}`,
    )
    .join(' ');
