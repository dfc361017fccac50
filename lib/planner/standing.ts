import type { ScheduleSettings } from '../schedule/index.ts';
import { solveSchedule } from '../schedule/index.ts';
import { MS_PER_MIN, parseUtc } from '../time/index.ts';
import { hasBit } from '../windows/index.ts';
import { carryOut } from './model/carry-out.ts';
import { restricted } from './model/restrict.ts';
import { scheduleProblem } from './model/schedule-problem.ts';
import type { Plan } from './plan.ts';
import type { PlanningProblem } from './problem.ts';
import type { Report } from './report.ts';
import type { Searched } from './search.ts';
import type { PlanState } from './state.ts';
import { weightedMean } from './weighted-mean.ts';

/** Work a standing plan holds: which unit, how, from which slot; one before the first slot of the plan has passed. */
interface StandingStart {
  readonly unit: number;
  readonly handlingId: string;
  readonly startSlot: number;
  readonly startEpochMs: number;
}

/** Work that should have begun by now and is not done. */
export interface OverdueJob {
  readonly jobId: string;
  readonly startEpochMs: number;
  /** Some of it is done: what is left goes on from there. */
  readonly isHalfDone: boolean;
}

/** What is left of a standing plan. */
export interface StandingLeft {
  /** null: nothing of it can still be done. */
  readonly state: PlanState | null;
  /** In order of their starts. */
  readonly overdue: readonly OverdueJob[];
}

/**
 * What a standing plan still is in the present problem: its starts to come, handlings and order as they stand, with
 * sleep and tiredness of today. What should have begun by now and is not done, or half done, is placed anew among them;
 * what no rule allows any more is left out.
 */
export function standingLeft(searched: Searched, standing: Plan, settings: ScheduleSettings): StandingLeft {
  // What has fallen below the wanted probability is still the standing plan: whether it is kept is judged afterwards.
  const problem = { ...searched.problem, neededWeight: 1 };
  const starts = startsOf(problem, standing);
  const overdue = overdueJobs(problem, starts);
  const ahead = starts.filter(({ startSlot }) => startSlot >= problem.fromSlot);
  if (ahead.length === 0) return { state: null, overdue };
  const passed = new Set(starts.filter((start) => !ahead.includes(start)).map(({ unit }) => unit));
  const onlyPassed = [...passed].filter((unit) => !ahead.some((start) => start.unit === unit));
  const held = stateWith(searched, problem, { ahead, freeUnits: new Set(onlyPassed), settings });
  // Work in sessions whose first ones passed unused does not fit into those that are left.
  const isShort = [...passed].some((unit) => !onlyPassed.includes(unit) && !isUnitFinished(held, unit));
  const state = isShort ? stateWith(searched, problem, { ahead, freeUnits: passed, settings }) : held;
  return { state, overdue };
}

const isUnitFinished = (state: PlanState | null, unit: number): boolean => (state?.finishedSlot[unit] ?? -1) >= 0;

function stateWith(
  searched: Searched,
  problem: PlanningProblem,
  of: { ahead: readonly StandingStart[]; freeUnits: ReadonlySet<number>; settings: ScheduleSettings },
): PlanState | null {
  const { conditionalIds } = searched;
  const model = scheduleProblem(problem, { conditionalIds, mostLagCount: searched.model.schedule.lagCount });
  const kept = restricted(
    model,
    ({ taskIndex, meaning }, begin) =>
      of.freeUnits.has(taskIndex) ||
      of.ahead.some(
        (start) =>
          start.unit === taskIndex &&
          start.handlingId === meaning.work.handling.id &&
          start.startSlot === begin + problem.fromSlot,
      ),
  );
  const found = solveSchedule(kept.schedule, of.settings);
  return found.entries.length === 0 ? null : carryOut(problem, kept, { entries: found.entries, conditionalIds });
}

function startsOf(problem: PlanningProblem, standing: Plan): StandingStart[] {
  const { grid } = problem;
  return standing.entries.flatMap((entry) => {
    const start = parseUtc(entry.startUtc, 'standing plan');
    if (entry.kind !== 'work' || entry.handling === null || !start.ok) return [];
    const startSlot = Math.round((start.value - grid.firstEpochMs) / (grid.slotMin * MS_PER_MIN));
    const unit = problem.units.find(
      ({ job, block }) => job.id === entry.jobId && block.steps.some((step) => entry.stepIds.includes(step.id)),
    );
    if (unit === undefined) return [];
    return [{ unit: unit.index, handlingId: entry.handling, startSlot, startEpochMs: start.value }];
  });
}

/** Jobs of which some start has passed and the work it was for is still to be done. */
function overdueJobs(problem: PlanningProblem, starts: readonly StandingStart[]): OverdueJob[] {
  const firsts = new Map<string, OverdueJob>();
  for (const { unit: index, startSlot, startEpochMs } of starts) {
    const job = problem.units[index]?.job;
    if (job === undefined || startSlot >= problem.fromSlot || firsts.has(job.id)) continue;
    const order = problem.orders.jobs.get(job.id);
    const isHalfDone = (order?.doneMin ?? 0) > 0 || (order?.doneStepIds.length ?? 0) > 0;
    firsts.set(job.id, { jobId: job.id, startEpochMs, isHalfDone });
  }
  return [...firsts.values()].toSorted((a, b) => a.startEpochMs - b.startEpochMs);
}

/** How two plans judged on the same fresh scenarios differ. */
export interface PairedDifference {
  /** Probability of the first minus that of the second (0..1). */
  readonly differenceShare: number;
  /** One standard error of it, by scenario and member, since both meet the same weather. */
  readonly differenceSd: number;
}

/** Compares the joint probabilities of two reports scenario by scenario. */
export function pairedDifference(a: Report, b: Report): PairedDifference {
  const byMember = new Map<number, { sumWeight: number; weight: number }>();
  for (let w = 0; w < a.weights.length; w++) {
    const weight = a.weights[w] ?? 0;
    const member = a.memberIndex[w] ?? w;
    const of = byMember.get(member) ?? { sumWeight: 0, weight: 0 };
    of.sumWeight += weight * (Number(holdsIn(a, w)) - Number(holdsIn(b, w)));
    of.weight += weight;
    byMember.set(member, of);
  }
  const found = weightedMean(
    [...byMember.values()].map(({ sumWeight, weight }) => ({ weight, value: sumWeight / weight })),
  );
  return { differenceShare: found.value, differenceSd: found.errorSd };
}

/** Nothing that counts jointly is done: nothing can break. */
const holdsIn = ({ jointMask }: Report, w: number): boolean => jointMask === null || hasBit(jointMask, w);
