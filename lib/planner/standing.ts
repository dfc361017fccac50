import type { ScheduleSettings } from '../schedule/index.ts';
import { solveSchedule } from '../schedule/index.ts';
import { parseUtc } from '../time/index.ts';
import { hasBit } from '../windows/index.ts';
import { carryOut } from './model/carry-out.ts';
import { restricted } from './model/restrict.ts';
import { scheduleProblem } from './model/schedule-problem.ts';
import type { Plan } from './plan.ts';
import type { PlanningProblem } from './problem.ts';
import type { Report } from './report.ts';
import type { Searched } from './search.ts';
import type { PlanState } from './state.ts';

/** Work a standing plan holds: which unit, how, from which slot. */
interface StandingStart {
  readonly unit: number;
  readonly handlingId: string;
  readonly startSlot: number;
}

/**
 * What a standing plan still is in the present problem: its starts to come, handlings and order as they stand, with
 * sleep and tiredness of today. What no rule allows any more is left out.
 *
 * @returns null when nothing of it lies ahead
 */
export function standingState(searched: Searched, standing: Plan, settings: ScheduleSettings): PlanState | null {
  const { conditionalIds } = searched;
  // What has fallen below the wanted probability is still the standing plan: whether it is kept is judged afterwards.
  const problem = { ...searched.problem, neededWeight: 1 };
  const mostLagCount = searched.model.schedule.lagCount;
  const starts = startsOf(problem, standing);
  if (starts.length === 0) return null;
  const model = scheduleProblem(problem, { conditionalIds, mostLagCount });
  const kept = restricted(model, ({ taskIndex, meaning }, begin) =>
    starts.some(
      (start) =>
        start.unit === taskIndex &&
        start.handlingId === meaning.work.handling.id &&
        start.startSlot === begin + problem.fromSlot,
    ),
  );
  const found = solveSchedule(kept.schedule, settings);
  return found.entries.length === 0 ? null : carryOut(problem, kept, { entries: found.entries, conditionalIds });
}

function startsOf(problem: PlanningProblem, standing: Plan): StandingStart[] {
  const { grid } = problem;
  return standing.entries.flatMap((entry) => {
    const start = parseUtc(entry.startUtc, 'standing plan');
    if (entry.kind !== 'work' || entry.handling === null || !start.ok) return [];
    const startSlot = Math.round((start.value - grid.firstEpochMs) / (grid.slotMin * 60_000));
    const unit = problem.units.find(
      ({ job, block }) => job.id === entry.jobId && block.steps.some((step) => entry.stepIds.includes(step.id)),
    );
    if (unit === undefined || startSlot < problem.fromSlot) return [];
    return [{ unit: unit.index, handlingId: entry.handling, startSlot }];
  });
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
  const means = [...byMember.values()].map(({ sumWeight, weight }) => sumWeight / weight);
  const difference = means.reduce((sum, value) => sum + value, 0) / Math.max(1, means.length);
  const variance = means.reduce((sum, value) => sum + (value - difference) ** 2, 0) / Math.max(1, means.length - 1);
  return { differenceShare: difference, differenceSd: Math.sqrt(variance / Math.max(1, means.length)) };
}

/** Nothing that counts jointly is done: nothing can break. */
const holdsIn = ({ jointMask }: Report, w: number): boolean => jointMask === null || hasBit(jointMask, w);
