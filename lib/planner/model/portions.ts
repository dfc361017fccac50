import type { PlanningProblem, Unit } from '../problem.ts';

/** How a unit of work is divided for the search. */
export interface Division {
  /** Equal parts; 1: worked whole. */
  readonly unitCount: number;
  /** Minutes at pace 1 of one part. */
  readonly partMin: number;
  readonly goes: readonly Go[];
}

/** One way to work some parts in one go. */
export interface Go {
  readonly unitCount: number;
  /** Too short to be worth getting out for, unless it finishes the work. */
  readonly onlyToFinish: boolean;
  readonly workMin: number;
  readonly resumeMin: number;
}

/** A core is worked whole; work that can be stopped anywhere in parts of the least useful session, several to a go. */
export function divisionOf({ grid }: PlanningProblem, unit: Unit): Division {
  const { session } = unit.block;
  const workMin = unit.totalWorkMin;
  if (session === null) {
    const whole = { unitCount: 1, onlyToFinish: false, workMin, resumeMin: 0 };
    return { unitCount: 1, partMin: workMin, goes: [whole] };
  }
  const { resumeMin, leastUsefulMin } = session;
  const longestMin = Math.max(leastUsefulMin, session.longestMin - resumeMin);
  // The first go needs no getting out again: the fewest goes that hold the work and getting it out for all the others.
  const goCount = Math.max(1, Math.ceil((workMin - resumeMin) / longestMin - 1e-9));
  // As many parts to a go as are each worth getting out for.
  const partsPerGo = Math.max(1, Math.floor(longestMin / Math.max(leastUsefulMin, grid.slotMin)));
  const unitCount = goCount * partsPerGo;
  const partMin = workMin / unitCount;
  const goes = Array.from({ length: partsPerGo }, (_, k) => ({
    unitCount: k + 1,
    onlyToFinish: (k + 1) * partMin < leastUsefulMin - 1e-6,
    workMin: (k + 1) * partMin,
    // Each go carries its share of what all but the first need.
    resumeMin: k + 1 === unitCount ? 0 : (resumeMin * (goCount - 1)) / goCount,
  }));
  return { unitCount, partMin, goes };
}
