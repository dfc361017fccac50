import type { Gate } from '../../person/index.ts';
import type { Choice, ScheduleJob, ScheduleProblem, Task } from '../../schedule/index.ts';
import type { PlanningProblem } from '../problem.ts';
import { POINTS_PER_LOST_NM } from '../score.ts';
import { lagRows, QUANTUM_NM } from './lag-quanta.ts';
import { restModel } from './rest-model.ts';
import type { SailConfigs } from './sail-configs.ts';
import { lostNmSailing, sailConfigs } from './sail-configs.ts';
import type { ChoiceMeaning } from './unit-tasks.ts';
import { unitTask } from './unit-tasks.ts';

/** A planning problem as the search sees it, and what its choices mean on board. Tasks stand in the order of units. */
export interface Model {
  readonly schedule: ScheduleProblem;
  readonly meanings: ReadonlyMap<Choice, ChoiceMeaning>;
  /** Lag whose weather a row of the choice tables holds [nm]. */
  readonly rowLagNm: readonly number[];
}

/**
 * Builds the search's problem.
 *
 * @param of `conditionalIds`: jobs that are placed with a limit unknown, all others only where every limit is known
 */
export function scheduleProblem(
  problem: PlanningProblem,
  of: { conditionalIds: ReadonlySet<string>; mostLagCount: number },
): Model {
  const { conditionalIds } = of;
  const sails = sailConfigs(problem);
  const rows = lagRows(problem, { worstNm: worstLostNm(problem, sails), mostLagCount: of.mostLagCount });
  const inertiaMultipliers = [...new Set(problem.units.map(({ gate }) => gate.inertiaMultiplierRatio))];
  const meanings = new Map<Choice, ChoiceMeaning>();
  const historyGates = new Map<Choice, Gate>();
  const making = { problem, rows, sails, inertiaMultipliers, meanings, historyGates };
  const tasks: Task[] = problem.units.map((unit) => unitTask(making, unit, conditionalIds.has(unit.job.id)));
  const schedule: ScheduleProblem = {
    slotCount: problem.untilSlot - problem.fromSlot,
    lagCount: rows.lagCount,
    rowOfLag: rows.rowOfLag,
    rowCount: rows.rowLagNm.length,
    weights: problem.weights,
    neededWeight: Math.max(1, Math.ceil(problem.neededWeight - 1e-6)),
    stepWeight: Math.max(1, Math.round(problem.toleranceWeight)),
    tasks,
    jobs: problem.jobs.map((job) => scheduleJob(problem, job, conditionalIds.has(job.id))),
    configs: sails.configs,
    rest: restModel(problem, { inertiaMultipliers, historyGates }),
    costPerQuantum: QUANTUM_NM * POINTS_PER_LOST_NM,
    endCostPoints: endCost(problem, sails),
  };
  return { schedule, meanings, rowLagNm: rows.rowLagNm };
}

function scheduleJob(
  problem: PlanningProblem,
  job: PlanningProblem['jobs'][number],
  conditional: boolean,
): ScheduleJob {
  const tasks = problem.units.filter((unit) => unit.job.id === job.id).map((unit) => unit.index);
  return { tasks, priorityWeight: job.priorityWeight, conditional };
}

/** Miles the boat loses to the end of the horizon with what is set when the work is over. */
function endCost(problem: PlanningProblem, sails: SailConfigs): Int32Array {
  const { fromSlot, untilSlot } = problem;
  const length = untilSlot - fromSlot + 1;
  const costs = new Int32Array(sails.configs.count * length);
  for (const id of sails.sailStateIds) {
    const row = sails.indexOf(id, null);
    for (let t = 0; t < length; t++) {
      const lostNm = lostNmSailing(problem, id, { fromSlot: fromSlot + t, toSlot: untilSlot });
      costs[row * length + t] = Math.round((lostNm + sails.roundingNm(id, t)) * POINTS_PER_LOST_NM);
    }
  }
  // A handling is over when the work is: every config ends like that of its sails alone.
  for (let config = 0; config < sails.configs.count; config++) {
    const row = sails.configs.afterWait[config] ?? 0;
    if (row !== config) costs.copyWithin(config * length, row * length, (row + 1) * length);
  }
  return costs;
}

/** More than any sensible plan falls behind: every unit under its slowest handling, the least sail for half of the time. */
function worstLostNm(problem: PlanningProblem, sails: SailConfigs): number {
  const span = { fromSlot: problem.fromSlot, toSlot: problem.untilSlot };
  const spanMin = (span.toSlot - span.fromSlot) * problem.grid.slotMin;
  const perState = sails.sailStateIds.map((id) => lostNmSailing(problem, id, span));
  const ofUnits = problem.units.map((unit) => {
    const perHandling = unit.handlings.flatMap((handling) =>
      handling.sailStates
        .filter((id) => sails.sailStateIds.includes(id))
        .map((sailStateId) => problem.lag.lostNm(0, { handling, sailStateId, ...span })),
    );
    return (Math.max(0, ...perHandling) * 1.5 * unit.totalWorkMin) / Math.max(1, spanMin);
  });
  return Math.max(0, ...perState) / 2 + ofUnits.reduce((sum, nm) => sum + nm, 0);
}
