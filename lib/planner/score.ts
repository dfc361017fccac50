import type { Place } from '../jobs/index.ts';
import { weightOf } from '../windows/index.ts';
import type { PlanningProblem, Unit } from './problem.ts';
import type { Placed, PlanState } from './state.ts';
import { isJobConditional, isJobDone } from './state.ts';

/**
 * Worth of a plan: levels compared one after the other, never added up.
 *
 * 1 priority weight of unconditional jobs done, when they hold together with the wanted probability;
 * 2 that joint weight in steps of the tolerance; 3 priority weight of conditional jobs; 4 cost.
 */
export interface Score {
  readonly priorityWeight: number;
  readonly jointStepCount: number;
  readonly conditionalPriorityWeight: number;
  readonly costPoints: number;
  /** Ties: the earlier last entry. */
  readonly endSlot: number;
}

/** Minutes of exposure by place: our weights, no source. */
const PLACE_POINTS: Readonly<Record<Place, number>> = {
  below: 0,
  cockpit: 0.5,
  deck: 1,
  foredeck: 1.5,
  aloft: 3,
  overside: 3,
};
const DARK_RATIO = 2;
/** A minute of work that tiredness makes a third longer or more (beyond KSS 6: some signs of sleepiness). */
const TIRED_FROM_RATIO = 1.3;
const POINTS_PER_TIRED_MIN = 1;
export const POINTS_PER_LOST_NM = 6;
const POINTS_PER_SLEEP_MISSED_MIN = 0.3;
/** A job done early leaves time for what goes wrong; per hour and unit of priority. */
export const POINTS_PER_WAITING_H = 0.6;

export const tiredPoints = (tiredRatio: number): number => (tiredRatio >= TIRED_FROM_RATIO ? POINTS_PER_TIRED_MIN : 0);

/** Cost of working a unit for some minutes, begun in some light (index into LIGHTS). */
export function exposurePoints(
  unit: Unit,
  of: { plannedMin: number; lightIndex: number; tiredPoints: number },
): number {
  const worst = Math.max(...unit.block.steps.map((step) => PLACE_POINTS[step.place]));
  return of.plannedMin * (worst * (of.lightIndex > 1 ? DARK_RATIO : 1) + of.tiredPoints);
}

export function exposureOf(
  problem: PlanningProblem,
  unit: Unit,
  placed: Pick<Placed, 'plannedMin' | 'startSlot' | 'lagNm' | 'tiredRatio'>,
): number {
  const light = problem.lag.conditionsAt(placed.lagNm).light[placed.startSlot] ?? 0;
  return exposurePoints(unit, { ...placed, lightIndex: light, tiredPoints: tiredPoints(placed.tiredRatio) });
}

export function scoreOf(problem: PlanningProblem, state: PlanState): Score {
  const done = doneWeights(problem, state);
  const jointWeight = weightOf(state.mask, problem.weights);
  const holds = jointWeight >= problem.neededWeight - 1e-6;
  return {
    ...done,
    priorityWeight: holds ? done.priorityWeight : 0,
    jointStepCount: holds ? Math.floor(jointWeight / problem.toleranceWeight + 1e-9) : -1,
    costPoints: costOf(problem, state),
    endSlot: state.slot,
  };
}

/** Priority weight of the jobs done, known limits and unknown ones apart. */
export function doneWeights(
  problem: PlanningProblem,
  state: PlanState,
): Pick<Score, 'priorityWeight' | 'conditionalPriorityWeight'> {
  let priorityWeight = 0;
  let conditionalPriorityWeight = 0;
  for (const job of problem.jobs) {
    if (!isJobDone(state, problem, job.id)) continue;
    if (isJobConditional(state, problem, job.id)) conditionalPriorityWeight += job.priorityWeight;
    else priorityWeight += job.priorityWeight;
  }
  return { priorityWeight, conditionalPriorityWeight };
}

function costOf(problem: PlanningProblem, state: PlanState): number {
  const waiting = problem.jobs
    .filter((job) => isJobDone(state, problem, job.id))
    .reduce((sum, job) => sum + job.priorityWeight * doneAfterH(state, problem, job.id), 0);
  return Math.round(
    state.exposurePoints + lostPoints(problem, state) + sleepPoints(problem, state) + waiting * POINTS_PER_WAITING_H,
  );
}

/** Hours from the beginning of the plan to the end of a job. */
function doneAfterH(state: PlanState, problem: PlanningProblem, jobId: string): number {
  let endSlot = problem.fromSlot;
  for (const unit of problem.units) {
    if (unit.job.id === jobId) endSlot = Math.max(endSlot, state.finishedSlot[unit.index] ?? 0);
  }
  return ((endSlot - problem.fromSlot) * problem.grid.slotMin) / 60;
}

/** Negative: `a` is the better. */
export function compareScores(a: Score, b: Score): number {
  return (
    b.priorityWeight - a.priorityWeight ||
    b.jointStepCount - a.jointStepCount ||
    b.conditionalPriorityWeight - a.conditionalPriorityWeight ||
    a.costPoints - b.costPoints ||
    a.endSlot - b.endSlot
  );
}

/** Miles behind at the horizon, the rest of the way sailed with what is set. */
function lostPoints(problem: PlanningProblem, state: PlanState): number {
  const toSlot = Math.max(state.slot, problem.untilSlot);
  const rest = problem.lag.lostNm(state.lagNm, {
    handling: null,
    sailStateId: state.sailStateId,
    fromSlot: state.slot,
    toSlot,
  });
  return Math.max(0, state.lagNm + rest) * POINTS_PER_LOST_NM;
}

function sleepPoints(problem: PlanningProblem, state: PlanState): number {
  const { slotMin } = problem.grid;
  let sleptMin = 0;
  for (let item = state.person.sleeps; item !== null && item.sleep.fromSlot >= problem.fromSlot; item = item.earlier) {
    sleptMin += (item.sleep.toSlot - item.sleep.fromSlot) * slotMin;
  }
  const elapsedH = ((state.slot - problem.fromSlot) * slotMin) / 60;
  const wantedMin = (elapsedH / 24) * problem.person.watchkeeper.wantedSleepHPer24H * 60;
  return Math.max(0, wantedMin - sleptMin) * POINTS_PER_SLEEP_MISSED_MIN;
}
