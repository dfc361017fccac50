import type { Handling } from '../../boat/index.ts';
import { toolsLeft } from '../../jobs/index.ts';
import { alertnessAtKss, tiredFactorRatio, type Gate } from '../../person/index.ts';
import type { Choice, ChoiceGate, Task, WaitSlots } from '../../schedule/index.ts';
import { itemKey } from '../../stock/index.ts';
import type { PlanningProblem, Unit, UnitWork } from '../problem.ts';
import { effortRestMin, isHeavy } from '../effort-rest.ts';
import { POINTS_PER_WAITING_H } from '../score.ts';
import { choiceTable } from './choice-table.ts';
import type { LagRows } from './lag-quanta.ts';
import type { Go } from './portions.ts';
import { divisionOf } from './portions.ts';
import type { SailConfigs } from './sail-configs.ts';
import { asksHistory } from './sleep-history.ts';
import { allowedSpan } from './start-rules.ts';

/** What a choice of the search means on board. */
export interface ChoiceMeaning {
  readonly unit: Unit;
  readonly handlingIndex: number;
  readonly work: Omit<UnitWork, 'lagNm'>;
}

/** What tasks are made with. */
export interface TaskMaking {
  readonly problem: PlanningProblem;
  readonly rows: LagRows;
  readonly sails: SailConfigs;
  readonly inertiaMultipliers: readonly number[];
  /** Filled while tasks are made. */
  readonly meanings: Map<Choice, ChoiceMeaning>;
  readonly historyGates: Map<Choice, Gate>;
}

/**
 * How tired one may be, rested first: the mean rating up to which a band's time factor holds. Beyond 6 (some signs of
 * sleepiness) the search places no work, not even below: there is always time to sleep first. Plans made by hand may.
 */
const BAND_KSS = [5, 6] as const;

/** The search places no work below this alertness, whatever the gate of the work leaves open. */
export const LEAST_PLANNED_ALERTNESS_POINTS = alertnessAtKss(Math.max(...BAND_KSS));

/** Bands a gate leaves: one that is only entered at an alertness the gate bars is never used. */
function bandsOf({ gate }: Unit): number[] {
  return BAND_KSS.filter(
    (_, band) => band === 0 || alertnessAtKss(BAND_KSS[band - 1] ?? 0) > gate.leastAlertnessPoints,
  );
}

/** The search's task for a unit: every handling, sail state, number of parts and band of tiredness it may be worked in. */
export function unitTask(making: TaskMaking, unit: Unit, conditional: boolean): Task {
  const { problem } = making;
  const division = divisionOf(problem, unit);
  const choices = unit.handlings.flatMap((handling, handlingIndex) =>
    statesFor(making, unit, handling).flatMap((sailStateId) =>
      division.goes.flatMap((go) =>
        bandsOf(unit).flatMap((mostKssPoints) =>
          choiceOf(making, unit, { handling, handlingIndex, sailStateId, go, mostKssPoints, conditional }),
        ),
      ),
    ),
  );
  return {
    unitCount: division.unitCount,
    after: unit.predecessors.map((before) => ({
      task: before.unit,
      waitSlots: ofTheSearch(problem, before.waitSlots),
    })),
    choices,
    restSlots: Math.ceil((unit.block.session?.restMin ?? 0) / problem.grid.slotMin),
    holds: mergedHolds([...heldTools(problem, unit), ...heldByEffort(problem, unit)]),
    finishCostPoints: isLastOfJob(problem, unit) ? waitingCost(problem, unit.job.priorityWeight) : null,
  };
}

/** Tools a job holds stay with a unit until its wait is over: jobs that hold or use one of them do not start before. */
function heldTools(problem: PlanningProblem, unit: Unit): Hold[] {
  const { units, orders } = problem;
  const slots = ofTheSearch(problem, unit.waitSlots);
  const tools = orders.jobs.get(unit.job.id)?.tools ?? [];
  if (unit.block.waitAfter === null || tools.length === 0) return [];
  return units
    .filter(({ job }) => job.id !== unit.job.id && sharesTool(toolsLeft(job, orders.jobs), tools))
    .map(({ index }) => ({ task: index, slots }));
}

/** After heavy work the body rests before that of another job; a job once begun is finished first. */
function heldByEffort({ units, grid, person }: PlanningProblem, unit: Unit): Hold[] {
  const slots = Math.ceil(effortRestMin(unit, person.watchkeeper) / grid.slotMin);
  if (slots === 0) return [];
  return units
    .filter((other) => other.job.id !== unit.job.id && isHeavy(other))
    .map(({ index }) => ({ task: index, slots }));
}

type Hold = NonNullable<Task['holds']>[number];

/** Every hold once; of those of fixed length on one task the longest. */
function mergedHolds(holds: readonly Hold[]): Hold[] {
  const longest = new Map<number, number>();
  const byInstant = holds.filter(({ slots }) => typeof slots !== 'number');
  for (const { task, slots } of holds)
    if (typeof slots === 'number') longest.set(task, Math.max(slots, longest.get(task) ?? 0));
  return [...[...longest].map(([task, slots]) => ({ task, slots })), ...byInstant];
}

/** The wait as the search counts slots: from the first of the plan. */
const ofTheSearch = ({ fromSlot, untilSlot }: PlanningProblem, wait: WaitSlots): WaitSlots =>
  typeof wait === 'number' ? wait : wait.subarray(fromSlot, untilSlot + 1);

const sharesTool = (own: readonly string[], held: readonly string[]): boolean =>
  own.some((tool) => held.some((other) => itemKey(other) === itemKey(tool)));

function statesFor({ sails }: TaskMaking, unit: Unit, handling: Handling): string[] {
  return sails.sailStateIds.filter(
    (id) => handling.sailStates.includes(id) && (unit.sailStates.length === 0 || unit.sailStates.includes(id)),
  );
}

interface ChoiceOf {
  readonly handling: Handling;
  readonly handlingIndex: number;
  readonly sailStateId: string;
  readonly go: Go;
  readonly mostKssPoints: number;
  readonly conditional: boolean;
}

function choiceOf(making: TaskMaking, unit: Unit, of: ChoiceOf): Choice[] {
  const { problem, rows, sails } = making;
  const { handling, sailStateId, go } = of;
  const tiredRatio = tiredFactorRatio(of.mostKssPoints, problem.person.watchkeeper.timeFactors);
  const gate = gateOf(making, unit, of.mostKssPoints);
  if (tiredRatio === null) return [];
  const work = { handling, sailStateId, workMin: go.workMin, resumeMin: go.resumeMin, tiredRatio };
  const allowed = allowedSpan(problem, unit, handling.id);
  const afterId = unit.block.sailStateAfter ?? sailStateId;
  const leftId = divisionOf(problem, unit).unitCount === 1 ? afterId : sailStateId;
  const table = choiceTable(problem, rows, {
    unit,
    work,
    allowed,
    conditional: of.conditional,
    roundingBeforeNm: (t) => sails.roundingNm(sailStateId, t),
    roundingAfterNm: (t) => sails.roundingNm(leftId, t),
  });
  if (table.durationSlots.every((slots) => slots === 0)) return [];
  const choice: Choice = {
    unitCount: go.unitCount,
    onlyToFinish: go.onlyToFinish,
    changeSlots: sails.changeSlots(sailStateId, handling),
    configAfter: sails.indexOf(sailStateId, handling.id),
    configFinished: sails.indexOf(afterId, handling.sailStates.includes(afterId) ? handling.id : null),
    gate,
    table,
  };
  making.meanings.set(choice, { unit, handlingIndex: of.handlingIndex, work });
  if (asksHistory(unit.gate)) making.historyGates.set(choice, unit.gate);
  return [choice];
}

function gateOf({ problem, inertiaMultipliers }: TaskMaking, unit: Unit, mostKssPoints: number): ChoiceGate {
  const { gate } = unit;
  return {
    leastStartPoints: Math.max(gate.leastAlertnessPoints, alertnessAtKss(mostKssPoints)),
    leastEndPoints: gate.leastAlertnessPoints,
    longestAwakeSlots:
      gate.longestAwakeH === null ? Infinity : Math.floor((gate.longestAwakeH * 60) / problem.grid.slotMin + 1e-9),
    inertiaClass: inertiaMultipliers.indexOf(gate.inertiaMultiplierRatio),
  };
}

function isLastOfJob({ units }: PlanningProblem, unit: Unit): boolean {
  return units.findLast(({ job }) => job.id === unit.job.id)?.index === unit.index;
}

/** A job done early leaves time for what goes wrong. */
function waitingCost({ grid, fromSlot, untilSlot }: PlanningProblem, priorityWeight: number): Int32Array {
  const slotH = grid.slotMin / 60;
  return Int32Array.from({ length: untilSlot - fromSlot + 1 }, (_, t) =>
    Math.round(t * slotH * priorityWeight * POINTS_PER_WAITING_H),
  );
}
