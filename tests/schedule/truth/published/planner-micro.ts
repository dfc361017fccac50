/** Own micro instances in the form they are stored in; see `problem` in the file. */
import type { Choice, ChoiceTable, Configs, ScheduleProblem, Task } from '../../../../lib/schedule/index.ts';
import { plainProblem, wholeTask } from './plain-problem.ts';

interface MicroJob {
  readonly p: number;
  readonly r: number;
  readonly d: number;
  readonly pred: readonly number[];
  readonly aMin: number;
  readonly split: { unit: number; min: number; total: number; setup: number } | null;
  readonly down: number;
  readonly modes: number;
}

export interface MicroInstance {
  readonly seed: number;
  readonly T: number;
  readonly N: number;
  readonly L: number;
  readonly fatigue: boolean;
  readonly naps: readonly number[];
  readonly buf: number;
  readonly aw: number;
  readonly bw: number;
  readonly as: number;
  readonly bs: number;
  readonly S0: number;
  readonly ST: number;
  readonly C: readonly number[];
  readonly napCost: readonly number[];
  readonly napOk: readonly number[];
  readonly lagCostInt: number;
  readonly downNum: number;
  readonly downDen: number;
  readonly jobs: readonly MicroJob[];
  readonly loss: readonly (readonly number[])[];
  readonly mask: readonly (readonly (readonly number[])[])[];
  readonly cost: readonly (readonly (readonly number[])[])[];
  readonly opt: { readonly count: number; readonly cost: number };
}

const DOWN = 1;

/**
 * All or nothing, and the plan ends at the horizon with enough S: a last task of one slot, begun there, that comes after all
 * the others and asks for the S. Config 1: something is down.
 */
export function microProblem(instance: MicroInstance): ScheduleProblem {
  const slotCount = instance.T + 1;
  const jobs = instance.jobs.map((job, index) => microTask(instance, job, index));
  const tasks = [...jobs, lastTask(instance, jobs.length)];
  return plainProblem(slotCount, tasks, {
    lagCount: instance.L,
    rowOfLag: Int32Array.from({ length: instance.L }, (_, lag) => lag),
    rowCount: instance.L,
    weights: new Int32Array(instance.N).fill(1),
    configs: microConfigs(instance, slotCount),
    rest: instance.fatigue ? microRest(instance, slotCount) : null,
    costPerQuantum: instance.lagCostInt,
  });
}

const downQuanta = ({ L, downNum, downDen }: MicroInstance, t: number): number =>
  L > 1 ? Math.floor((t * downNum) / downDen) : 0;

function microConfigs(instance: MicroInstance, slotCount: number): Configs {
  const waitQuanta = new Int32Array(2 * (slotCount + 1));
  for (let t = 0; t <= slotCount; t++) waitQuanta[DOWN * (slotCount + 1) + t] = downQuanta(instance, t);
  return { count: 2, start: 0, afterWait: Int32Array.of(0, DOWN), waitQuanta };
}

/** S slot by slot is s -> a s + b: in closed form, towards b / (1 - a). */
const stepped =
  (a: number, b: number) =>
  (s: number, slots: number): number =>
    b / (1 - a) + (s - b / (1 - a)) * a ** slots;

function microRest(instance: MicroInstance, slotCount: number): ScheduleProblem['rest'] {
  return {
    startS: instance.S0,
    startWokeSlot: 0,
    startClearSlots: new Int32Array(0),
    awakeS: stepped(instance.aw, instance.bw),
    asleepS: stepped(instance.as, instance.bs),
    rhythmPoints: Float64Array.from({ length: slotCount + 1 }, (_, t) => instance.C[t] ?? 0),
    sleepSlots: instance.naps,
    lookoutSlots: instance.buf,
    sleepAllowed: Uint8Array.from({ length: slotCount }, (_, t) => (t < instance.T ? (instance.napOk[t] ?? 0) : 0)),
    sleepCostPoints: Int32Array.from({ length: slotCount }, (_, t) => instance.napCost[t] ?? 0),
    leastEndS: 0,
    inertiaSlots: [],
    refusesHistory: null,
  };
}

function lastTask(instance: MicroInstance, jobCount: number): Task {
  const slotCount = instance.T + 1;
  const table = emptyTable(instance, slotCount);
  for (let lag = 0; lag < instance.L; lag++) {
    const cell = lag * slotCount + instance.T;
    table.durationSlots[cell] = 1;
    for (const word of table.masks) word[cell] = -1;
  }
  const choice: Choice = {
    unitCount: 1,
    onlyToFinish: false,
    changeSlots: Int16Array.of(0, 0),
    configAfter: 0,
    configFinished: 0,
    gate: instance.fatigue
      ? {
          leastStartPoints: instance.ST + (instance.C[instance.T] ?? 0),
          leastEndPoints: -Infinity,
          longestAwakeSlots: Infinity,
          inertiaClass: -1,
        }
      : null,
    table,
  };
  return wholeTask([choice], { after: Array.from({ length: jobCount }, (_, task) => ({ task, waitSlots: 0 })) });
}

/** `down` of a job is +1, −1 or 0, and no instance puts down what is down already. */
function microTask(instance: MicroInstance, job: MicroJob, index: number): Task {
  const { split } = job;
  const sessions = split === null ? [1] : Array.from({ length: split.total }, (_, i) => i + 1);
  const choices = sessions.flatMap((units) =>
    Array.from({ length: job.modes }, (_, mode) => mode).flatMap((mode) =>
      [0, DOWN].map((config): Choice => ({
        unitCount: units,
        onlyToFinish: split !== null && units < split.min,
        changeSlots: Int16Array.from([0, DOWN], (from) => (from === config ? 0 : -1)),
        configAfter: config,
        configFinished: Math.min(DOWN, Math.max(0, config + job.down)),
        gate: instance.fatigue
          ? {
              leastStartPoints: -Infinity,
              leastEndPoints: job.aMin,
              longestAwakeSlots: Infinity,
              inertiaClass: -1,
            }
          : null,
        table: microTable(instance, job, { index, mode, units, isDown: config === DOWN }),
      })),
    ),
  );
  return wholeTask(choices, {
    unitCount: split?.total ?? 1,
    after: job.pred.map((task) => ({ task, waitSlots: 0 })),
  });
}

function emptyTable({ L }: MicroInstance, slotCount: number): ChoiceTable {
  return {
    durationSlots: new Uint16Array(L * slotCount),
    costPoints: new Int32Array(L * slotCount),
    lossQuanta: new Int16Array(L * slotCount),
    masks: [new Int32Array(L * slotCount)],
  };
}

interface Way {
  readonly index: number;
  readonly mode: number;
  readonly units: number;
  readonly isDown: boolean;
}

function microTable(instance: MicroInstance, job: MicroJob, { index, mode, units, isDown }: Way): ChoiceTable {
  const slotCount = instance.T + 1;
  const table = emptyTable(instance, slotCount);
  const [mask] = table.masks;
  const setUpSlots = job.split?.setup ?? 0;
  const durationSlots = setUpSlots + units * job.p;
  const lossQuanta = units * (instance.loss[index]?.[mode] ?? 0);
  for (let lag = 0; lag < instance.L; lag++) {
    for (let t = job.r; t + durationSlots <= job.d; t++) {
      const cell = lag * slotCount + t;
      const end = t + durationSlots;
      const starts = Array.from({ length: units }, (_, u) => lag * instance.T + t + setUpSlots + u * job.p);
      const bits = starts.reduce((left, start) => left & (instance.mask[index]?.[mode]?.[start] ?? 0), -1);
      const downLoss = isDown ? downQuanta(instance, end) - downQuanta(instance, t) : 0;
      table.durationSlots[cell] = durationSlots;
      table.costPoints[cell] = starts.reduce((sum, start) => sum + (instance.cost[index]?.[mode]?.[start] ?? 0), 0);
      table.lossQuanta[cell] = lossQuanta + downLoss;
      if (mask !== undefined) mask[cell] = bits;
    }
  }
  return table;
}
