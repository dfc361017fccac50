import type { WorkMinutes } from './job.ts';
import { normalProbability, normalQuantile } from './normal.ts';

/**
 * Minutes that a step stays within with a probability: quantile of the beta distribution on [least, most] with
 * α = 1 + 4(likely − least)/(most − least), β = 6 − α (PERT).
 *
 * @param probability in (0, 1); throws outside it
 */
export const pertQuantileMin = (work: WorkMinutes, probability: number): number =>
  pertDrawMin(work, normalQuantile(probability));

/** The same by the normal score of the probability: what correlated draws come in. Any finite score will do. */
export function pertDrawMin(work: WorkMinutes, scoreSd: number): number {
  const rangeMin = work.mostMin - work.leastMin;
  if (rangeMin <= 0) return work.leastMin;
  return work.leastMin + rangeMin * shareAt(tableFor((work.likelyMin - work.leastMin) / rangeMin), scoreSd);
}

/** Scores the table holds: ± 6 standard deviations, in steps of a thirty-second. */
const MOST_SCORE_SD = 6;
const STEPS_PER_SD = 32;

/** Quantile as a share of the range, at evenly spaced scores; the distribution depends on the likely value's place alone. */
const kept = new Map<number, Float64Array>();

function tableFor(likelyShare: number): Float64Array {
  const known = kept.get(likelyShare);
  if (known !== undefined) return known;
  // Passages hold some tens of different estimates; a run over thousands of passages must not grow without end.
  if (kept.size > 1000) kept.clear();
  const table = shareTable(likelyShare);
  kept.set(likelyShare, table);
  return table;
}

function shareAt(table: Float64Array, scoreSd: number): number {
  const place = (Math.min(MOST_SCORE_SD, Math.max(-MOST_SCORE_SD, scoreSd)) + MOST_SCORE_SD) * STEPS_PER_SD;
  const index = Math.min(Math.floor(place), table.length - 2);
  const low = table[index] ?? 0;
  return low + ((table[index + 1] ?? 0) - low) * (place - index);
}

function shareTable(likelyShare: number): Float64Array {
  const sums = cumulativeDensity(likelyShare);
  const cells = sums.length - 1;
  const whole = sums[cells] ?? 1;
  const table = new Float64Array(2 * MOST_SCORE_SD * STEPS_PER_SD + 1);
  for (let k = 0, cell = 0; k < table.length; k++) {
    const wanted = normalProbability(k / STEPS_PER_SD - MOST_SCORE_SD) * whole;
    while (cell < cells - 1 && (sums[cell + 1] ?? 0) < wanted) cell += 1;
    const low = sums[cell] ?? 0;
    const width = (sums[cell + 1] ?? 0) - low;
    const share = width > 0 ? Math.min(1, Math.max(0, (wanted - low) / width)) : 0;
    table[k] = Math.sin(((cell + share) / cells) * (Math.PI / 2)) ** 2;
  }
  return table;
}

const CELL_COUNT = 2048;

/**
 * Integral of the density from 0, at evenly spaced angles θ with x = sin²θ: there the density
 * sin(θ)^(2α − 1) cos(θ)^(2β − 1) has no steep end. Midpoint of each cell.
 */
function cumulativeDensity(likelyShare: number): Float64Array {
  const [sinePower, cosinePower] = [1 + 8 * likelyShare, 9 - 8 * likelyShare];
  const sums = new Float64Array(CELL_COUNT + 1);
  for (let cell = 0; cell < CELL_COUNT; cell++) {
    const angle = ((cell + 0.5) / CELL_COUNT) * (Math.PI / 2);
    sums[cell + 1] = (sums[cell] ?? 0) + Math.sin(angle) ** sinePower * Math.cos(angle) ** cosinePower;
  }
  return sums;
}
