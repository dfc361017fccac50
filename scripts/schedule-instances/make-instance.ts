/** A whole synthetic planning problem from its specification. */
import type { Choice, Configs, ScheduleProblem, Task } from '../../lib/schedule/index.ts';
import { uniformDraws } from '../sample-forecasts/random.ts';
import { choiceTable, type Strain, strainOf } from './choice-tables.ts';
import { type InstanceSpec, slotCountOf, slotHours, slotsOf } from './instance-spec.ts';
import { drawKinds } from './random-kinds.ts';
import { restModel } from './rest-model.ts';
import { synthesiseWeather } from './synthetic-weather.ts';
import { HANDLINGS, REPAIR_KINDS, type TaskKind } from './task-kinds.table.ts';

const MAIN_UP = 0;
const MAIN_DOWN = 1;
/** Slots of way lost per slot with the main down. */
const DOWN_LOST_SHARE = 0.4;
const POINTS_PER_LOST_H = 10;

/**
 * Quantum of lag: the way of one slot. With one lag the boat keeps her place and the main costs no way; with more, the
 * state of the main is the config. Every task is a job of weight 1, and one member inside the limits is enough.
 */
export function makeInstance(spec: InstanceSpec): ScheduleProblem {
  const uniform = uniformDraws(spec.seed);
  const weather = synthesiseWeather(spec, uniform);
  const kinds = spec.family === 'repair' ? REPAIR_KINDS : drawKinds(spec, uniform);
  const configs = sailConfigs(spec, kinds);
  const tasks = kinds.map((kind) => {
    const strains = kind.handlings.map((handling) => strainOf(kind, handlingAt(handling), spec, weather));
    return taskOf(kind, strains, spec, configs);
  });
  return {
    slotCount: slotCountOf(spec),
    lagCount: spec.lagCount,
    rowOfLag: Int32Array.from({ length: spec.lagCount }, (_, lag) => lag),
    rowCount: spec.lagCount,
    weights: new Int32Array(spec.memberCount).fill(1),
    neededWeight: 1,
    stepWeight: 1,
    tasks,
    jobs: tasks.map((_, task) => ({ tasks: [task], priorityWeight: 1, conditional: false })),
    configs,
    rest: spec.isTiring ? restModel(spec) : null,
    costPerQuantum: Math.round(POINTS_PER_LOST_H * slotHours(spec)),
    endCostPoints: null,
  };
}

function handlingAt(index: number): (typeof HANDLINGS)[number] {
  const handling = HANDLINGS[index];
  if (handling === undefined) throw new Error(`no handling ${index}`);
  return handling;
}

function sailConfigs(spec: InstanceSpec, kinds: readonly TaskKind[]): Configs {
  const slotCount = slotCountOf(spec);
  const hasTwo = spec.lagCount > 1 && kinds.some(({ mainsail }) => mainsail !== null);
  const count = hasTwo ? 2 : 1;
  // Config by config: nothing is lost with the main up.
  const up = new Int32Array(slotCount + 1);
  const waitQuanta = hasTwo ? Int32Array.from([...up, ...up.map((_, t) => downQuanta(t))]) : up;
  return { count, start: MAIN_UP, afterWait: Int32Array.from({ length: count }, (_, config) => config), waitQuanta };
}

/** Way lost with the main down, summed from instant 0: rounded once, so that no chain of short stretches drifts. */
const downQuanta = (t: number): number => Math.floor(t * DOWN_LOST_SHARE);

function taskOf(kind: TaskKind, strains: readonly Strain[], spec: InstanceSpec, configs: Configs): Task {
  const choices = sessionsOf(kind).flatMap((session) =>
    kind.handlings.flatMap((handling, place) => {
      const strain = strains[place];
      if (strain === undefined) throw new Error(`no strain for handling ${handling}`);
      return Array.from({ length: configs.count }, (_, config) =>
        choiceOf({ kind, strain, session, lostShare: handlingAt(handling).lostShare }, spec, configs, config),
      );
    }),
  );
  return {
    unitCount: kind.sessions?.unitCount ?? 1,
    after: kind.after.map((task) => ({ task, waitSlots: 0 })),
    choices,
    finishCostPoints: null,
  };
}

interface Session {
  readonly unitCount: number;
  readonly onlyToFinish: boolean;
}

function sessionsOf({ sessions }: TaskKind): readonly Session[] {
  if (sessions === null) return [{ unitCount: 1, onlyToFinish: false }];
  return Array.from({ length: sessions.unitCount }, (_, i) => ({
    unitCount: i + 1,
    onlyToFinish: i + 1 < sessions.leastUnitCount,
  }));
}

interface Way {
  readonly kind: TaskKind;
  readonly strain: Strain;
  readonly session: Session;
  readonly lostShare: number;
}

/** One choice for one state of the main: what the state loses while the work goes on is in its table. */
function choiceOf(
  { kind, strain, session, lostShare }: Way,
  spec: InstanceSpec,
  configs: Configs,
  config: number,
): Choice {
  const unitSlots = slotsOf(kind.workMin, spec.slotMin);
  const lostPerUnit = Math.round(lostShare * unitSlots);
  const isDown = config === MAIN_DOWN;
  const finished = { drops: MAIN_DOWN, hoists: MAIN_UP }[kind.mainsail ?? 'hoists'];
  return {
    ...session,
    changeSlots: Int16Array.from({ length: configs.count }, (_, from) => (from === config ? 0 : -1)),
    configAfter: config,
    configFinished: kind.mainsail === null || configs.count === 1 ? config : finished,
    gate: spec.isTiring
      ? {
          leastStartPoints: -Infinity,
          leastEndPoints: kind.alertnessPoints,
          longestAwakeSlots: Infinity,
          inertiaClass: -1,
        }
      : null,
    table: choiceTable(strain, spec, {
      layOutSlots: kind.sessions === null ? 0 : slotsOf(kind.sessions.layOutMin, spec.slotMin),
      workSlots: unitSlots * session.unitCount,
      lostQuanta: (fromSlot, toSlot) =>
        lostPerUnit * session.unitCount + (isDown ? downQuanta(toSlot) - downQuanta(fromSlot) : 0),
    }),
  };
}
