import type { PlanningProblem } from '../problem.ts';

/** While searching, miles behind the nominal voyage count in whole steps of this: half the step of the lag table. */
export const QUANTUM_NM = 4;

/** Lags kept at first, and each time a plan has run to the end of them: what the boat meets beyond is taken from the last. */
export const LAG_COUNTS = [25, 49] as const;

const LEAN_NM = 0.1;

/** Lags of the search and the row of weather that serves each. */
export interface LagRows {
  readonly lagCount: number;
  readonly rowOfLag: Int32Array;
  /** Lag whose weather a row holds. */
  readonly rowLagNm: readonly number[];
}

/** As many lags as the worst plan could need, up to the most that are kept. */
export function lagRows(problem: PlanningProblem, of: { worstNm: number; mostLagCount: number }): LagRows {
  const lagCount = Math.max(1, Math.min(of.mostLagCount, Math.ceil(of.worstNm / QUANTUM_NM) + 2));
  const rowLagNm: number[] = [];
  const rowOfLag = new Int32Array(lagCount);
  let lastIndex = -1;
  for (let lag = 0; lag < lagCount; lag++) {
    // Half-way lags take the row nearer to no lag: most of a plan's work is done while little is lost.
    const index = problem.lag.indexOf(lag * QUANTUM_NM - LEAN_NM);
    if (index !== lastIndex) rowLagNm.push(Math.max(0, lag * QUANTUM_NM - LEAN_NM));
    lastIndex = index;
    rowOfLag[lag] = rowLagNm.length - 1;
  }
  return { lagCount, rowOfLag, rowLagNm };
}
