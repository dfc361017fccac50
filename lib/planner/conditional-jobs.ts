import type { BlockTable } from '../windows/index.ts';
import type { PlanningProblem, Unit } from './problem.ts';
import { divisionOf } from './model/portions.ts';

/**
 * Jobs that only a start with a limit unknown can do, and every job that comes after one of them.
 *
 * The rest is placed only where every limit is known.
 */
export function conditionalJobs(problem: PlanningProblem): Set<string> {
  const ids = new Set<string>();
  for (const unit of problem.units) {
    const fair = fairStarts(problem, unit);
    if (!fair.known && fair.unknown) ids.add(unit.job.id);
  }
  return withFollowers(problem, ids);
}

/** Jobs of those given that some start with a limit unknown could do, and every job that comes after one of them. */
export function conditionalAmong(problem: PlanningProblem, jobIds: ReadonlySet<string>): Set<string> {
  const ids = new Set<string>();
  for (const unit of problem.units) {
    if (jobIds.has(unit.job.id) && fairStarts(problem, unit).unknown) ids.add(unit.job.id);
  }
  return withFollowers(problem, ids);
}

function withFollowers(problem: PlanningProblem, ids: Set<string>): Set<string> {
  // Jobs stand after all they wait for.
  for (const job of problem.jobs) if (job.after.some((id) => ids.has(id))) ids.add(job.id);
  return ids;
}

/** Whether some start on the nominal voyage is fair with every limit known, and some with a limit unknown. */
function fairStarts(problem: PlanningProblem, unit: Unit): { known: boolean; unknown: boolean } {
  let known = false;
  let unknown = false;
  for (const table of tablesOf(problem, unit)) {
    for (let i = problem.fromSlot; i < problem.untilSlot && !(known && unknown); i++) {
      if ((table.weight[i] ?? 0) < problem.neededWeight - 1e-6 || (table.referenceSlots[i] ?? 0) === 0) continue;
      if ((table.unknownBits[i] ?? 0) === 0) known = true;
      else unknown = true;
    }
  }
  return { known, unknown };
}

function tablesOf(problem: PlanningProblem, unit: Unit): BlockTable[] {
  const [go] = divisionOf(problem, unit).goes;
  if (go === undefined) return [];
  const { workMin, resumeMin } = go;
  return unit.handlings.flatMap((handling) =>
    handling.sailStates
      .filter((id) => unit.sailStates.length === 0 || unit.sailStates.includes(id))
      .map((sailStateId) =>
        problem.tableFor(unit, { handling, sailStateId, workMin, resumeMin, tiredRatio: 1, lagNm: 0 }),
      ),
  );
}
