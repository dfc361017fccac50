/**
 * Problems of three or four tasks that use every rule of the engine, small enough to try all plans. Tables are drawn freely
 * (good spells of random length for each scenario), not from weather: stranger than any sea, which is what a test wants.
 */
import type {
  Choice,
  ChoiceGate,
  ChoiceTable,
  Configs,
  RestModel,
  ScheduleJob,
  ScheduleProblem,
  Task,
} from '../../lib/schedule/index.ts';
import { uniformDraws } from '../sample-forecasts/random.ts';
import { asleepSBySlot, awakeSBySlot, rhythmAt } from './rest-model.ts';

/** What an instance asks; a test counts them. */
export interface SmallFeatures {
  readonly hasSessions: boolean;
  readonly hasLag: boolean;
  readonly isTiring: boolean;
  readonly hasConfigs: boolean;
  readonly hasConditional: boolean;
  readonly hasWaitAfter: boolean;
  readonly hasAwakeLimit: boolean;
  readonly hasInertia: boolean;
  readonly hasUnequalWeights: boolean;
  readonly hasCoarseSteps: boolean;
  readonly hasJobOfTwoTasks: boolean;
  readonly hasFinishCost: boolean;
  readonly hasEndCost: boolean;
  readonly hasRestBetween: boolean;
  readonly hasToolHeld: boolean;
}

export interface SmallInstance {
  readonly features: SmallFeatures;
  readonly problem: ScheduleProblem;
}

/** Slots of half an hour. */
const SLOT_H = 0.5;
const START_H = 18;

type Draw = () => number;

/** A whole number from `low` to `high`, both possible. */
const whole = (draw: Draw, low: number, high: number): number => low + Math.floor(draw() * (high - low + 1));

export function makeSmallInstance(seed: number): SmallInstance {
  const draw = uniformDraws(seed * 7919 + 13);
  // A stream of its own: rules that came later leave the other draws as they are.
  const drawLater = uniformDraws(seed * 104_729 + 5);
  const features = drawFeatures(draw, drawLater);
  const taskCount = features.hasSessions || features.isTiring ? 3 : 4;
  const slotCount = features.isTiring ? whole(draw, 10, 12) : whole(draw, 13, 15);
  const scenarioCount = draw() < 0.15 ? whole(draw, 33, 70) : whole(draw, 5, 12);
  const lagCount = features.hasLag ? whole(draw, 2, 5) : 1;
  const size = { slotCount, scenarioCount, rowCount: features.hasLag ? whole(draw, 1, lagCount) : 1 };
  const configCount = features.hasConfigs ? whole(draw, 2, 3) : 1;
  const weights = Int32Array.from({ length: scenarioCount }, () =>
    features.hasUnequalWeights ? whole(draw, 1, 9) : 1,
  );
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const tasks = Array.from({ length: taskCount }, (_, task) =>
    drawTask(draw, task, features, { ...size, configCount }),
  ).map((task, index) => ({ ...task, ...drawHindrances(drawLater, { index, taskCount }, features) }));
  return {
    features,
    problem: {
      slotCount,
      lagCount,
      rowOfLag: Int32Array.from({ length: lagCount }, (_, lag) => Math.min(size.rowCount - 1, lag)),
      rowCount: size.rowCount,
      weights,
      neededWeight: Math.max(1, Math.round(total * 0.35 * whole(draw, 0, 2))),
      stepWeight: features.hasCoarseSteps ? Math.max(1, Math.round(total / 5)) : 1,
      tasks,
      jobs: drawJobs(draw, taskCount, features),
      configs: drawConfigs(draw, configCount, slotCount, features),
      rest: features.isTiring ? drawRest(draw, slotCount, features) : null,
      costPerQuantum: features.hasLag ? whole(draw, 1, 5) : 0,
      endCostPoints: features.hasEndCost
        ? Int32Array.from({ length: configCount * (slotCount + 1) }, () => whole(draw, 0, 12))
        : null,
    },
  };
}

function drawFeatures(draw: Draw, drawLater: Draw): SmallFeatures {
  const isTiring = draw() < 0.6;
  return {
    hasSessions: draw() < 0.4,
    hasLag: draw() < 0.5,
    isTiring,
    hasConfigs: draw() < 0.5,
    hasConditional: draw() < 0.35,
    hasWaitAfter: draw() < 0.4,
    hasAwakeLimit: isTiring && draw() < 0.3,
    hasInertia: isTiring && draw() < 0.35,
    hasUnequalWeights: draw() < 0.5,
    hasCoarseSteps: draw() < 0.3,
    hasJobOfTwoTasks: draw() < 0.3,
    hasFinishCost: draw() < 0.4,
    hasEndCost: draw() < 0.4,
    hasRestBetween: drawLater() < 0.4,
    hasToolHeld: drawLater() < 0.35,
  };
}

/** Rests between sessions, and tools that other tasks wait for. */
function drawHindrances(
  draw: Draw,
  { index, taskCount }: { readonly index: number; readonly taskCount: number },
  { hasRestBetween, hasToolHeld }: SmallFeatures,
): Pick<Task, 'restSlots' | 'holds'> {
  const restSlots = whole(draw, 1, 3);
  const other = (index + whole(draw, 1, taskCount - 1)) % taskCount;
  const holds = draw() < 0.5 ? [{ task: other, slots: whole(draw, 1, 5) }] : [];
  return { ...(hasRestBetween ? { restSlots } : {}), ...(hasToolHeld ? { holds } : {}) };
}

interface Size {
  readonly slotCount: number;
  readonly scenarioCount: number;
  readonly rowCount: number;
  readonly configCount: number;
}

function drawTask(draw: Draw, task: number, features: SmallFeatures, size: Size): Task {
  const unitCount = features.hasSessions && task === 1 ? whole(draw, 2, 3) : 1;
  const leastUnits = unitCount === 1 ? 1 : whole(draw, 1, 2);
  const after = Array.from({ length: task }, (_, earlier) => earlier)
    .filter(() => draw() < (features.hasWaitAfter ? 0.5 : 0.2))
    .map((earlier) => ({ task: earlier, waitSlots: features.hasWaitAfter ? whole(draw, 0, 3) : 0 }));
  const choices = Array.from({ length: unitCount }, (_, i) => i + 1).flatMap((units) =>
    Array.from({ length: unitCount === 1 ? 2 : 1 }, () => drawChoice(draw, { units, leastUnits }, features, size)),
  );
  return {
    unitCount,
    after,
    choices,
    finishCostPoints: features.hasFinishCost
      ? Int32Array.from({ length: size.slotCount + 1 }, (_, t) => whole(draw, 0, 4) + (t > 8 ? t - 8 : 0))
      : null,
  };
}

function drawChoice(
  draw: Draw,
  { units, leastUnits }: { units: number; leastUnits: number },
  features: SmallFeatures,
  size: Size,
): Choice {
  const config = (): number => whole(draw, 0, size.configCount - 1);
  return {
    unitCount: units,
    onlyToFinish: units < leastUnits,
    changeSlots: Int16Array.from({ length: size.configCount }, () => (features.hasConfigs ? whole(draw, -1, 2) : 0)),
    configAfter: config(),
    configFinished: config(),
    gate: features.isTiring && draw() < 0.85 ? drawGate(draw, features) : null,
    table: drawTable(draw, units, features, size),
  };
}

function drawGate(draw: Draw, features: SmallFeatures): ChoiceGate {
  return {
    leastStartPoints: draw() < 0.5 ? -Infinity : 5 + 5 * draw(),
    leastEndPoints: 5 + 5 * draw(),
    longestAwakeSlots: features.hasAwakeLimit && draw() < 0.7 ? whole(draw, 3, 9) : Infinity,
    inertiaClass: features.hasInertia ? whole(draw, -1, 1) : -1,
  };
}

function drawTable(draw: Draw, units: number, features: SmallFeatures, size: Size): ChoiceTable {
  const { slotCount, scenarioCount, rowCount } = size;
  const cellCount = rowCount * slotCount;
  const baseSlots = units === 1 ? whole(draw, 1, 3) : whole(draw, 1, 2) * units;
  const masks = Array.from({ length: Math.ceil(scenarioCount / 32) }, () => new Int32Array(cellCount));
  for (let w = 0; w < scenarioCount; w++) {
    // Weather one row on is the weather of a slot later, as for a boat behind her time.
    const isGood = drawSpells(draw, slotCount + rowCount);
    const word = masks[w >> 5];
    if (word === undefined) throw new Error(`no mask for scenario ${w}`);
    for (const [cell, bits] of word.entries()) {
      const t = (cell % slotCount) + Math.floor(cell / slotCount);
      if (isGood[t] === true) word[cell] = bits | (1 << (w & 31));
    }
  }
  return {
    durationSlots: Uint16Array.from({ length: cellCount }, () => {
      if (draw() < 0.07) return 0;
      return baseSlots + (draw() < 0.15 ? 1 : 0);
    }),
    costPoints: Int32Array.from({ length: cellCount }, () => whole(draw, 0, 9)),
    lossQuanta: Int16Array.from({ length: cellCount }, () => (features.hasLag ? whole(draw, -1, 3) : 0)),
    masks,
  };
}

/** Good and bad by turns: a good spell lasts five slots, a bad one two and a half in the mean. */
function drawSpells(draw: Draw, count: number): readonly boolean[] {
  let good = draw() < 0.67;
  return Array.from({ length: count }, () => {
    if (draw() < (good ? 0.2 : 0.4)) good = !good;
    return good;
  });
}

function drawJobs(draw: Draw, taskCount: number, features: SmallFeatures): readonly ScheduleJob[] {
  const groups = Array.from({ length: taskCount }, (_, task) => [task]);
  if (features.hasJobOfTwoTasks) {
    const last = groups.pop() ?? [];
    groups[0] = [...(groups[0] ?? []), ...last];
  }
  const conditional = features.hasConditional ? whole(draw, 0, groups.length - 1) : -1;
  return groups.map((tasks, index) => ({
    tasks,
    priorityWeight: whole(draw, 1, 4),
    conditional: index === conditional,
  }));
}

function drawConfigs(draw: Draw, count: number, slotCount: number, features: SmallFeatures): Configs {
  const waitQuanta = new Int32Array(count * (slotCount + 1));
  for (let config = 0; config < count && features.hasLag; config++) {
    const share = whole(draw, 0, 2) * 0.4;
    for (let t = 0; t <= slotCount; t++) waitQuanta[config * (slotCount + 1) + t] = Math.floor(t * share);
  }
  return {
    count,
    start: whole(draw, 0, count - 1),
    afterWait: Int32Array.from({ length: count }, (_, config) => (draw() < 0.6 ? config : whole(draw, 0, count - 1))),
    waitQuanta,
  };
}

function drawRest(draw: Draw, slotCount: number, features: SmallFeatures): RestModel {
  const classCount = features.hasInertia ? 2 : 0;
  const sleepSlots = [2, 4];
  return {
    startS: 8 + 4 * draw(),
    startWokeSlot: -whole(draw, 0, 4),
    startClearSlots: Int32Array.from({ length: classCount }, () => whole(draw, 0, 3)),
    awakeS: awakeSBySlot(SLOT_H),
    asleepS: asleepSBySlot(SLOT_H),
    rhythmPoints: Float64Array.from({ length: slotCount + 1 }, (_, t) => rhythmAt((START_H + t * SLOT_H) % 24)),
    sleepSlots,
    lookoutSlots: whole(draw, 0, 1),
    sleepAllowed: Uint8Array.from({ length: slotCount }, () => (draw() < 0.9 ? 1 : 0)),
    sleepCostPoints: Int32Array.from({ length: slotCount }, () => whole(draw, 0, 2)),
    leastEndS: 7.5 + 2 * draw(),
    inertiaSlots: Array.from({ length: classCount }, () =>
      Int16Array.from({ length: sleepSlots.length * (slotCount + 1) }, () => whole(draw, 0, 3)),
    ),
    refusesHistory: null,
  };
}
