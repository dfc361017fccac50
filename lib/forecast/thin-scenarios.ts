import type { ErrorDraws } from './error-draws.ts';
import { type ScenarioSet, WEIGHT_SUM } from './scenario-set.ts';

/**
 * Few scenarios that stand for many of unequal weight: equally spaced places along the sum of the weights (systematic
 * resampling), so that each stands for the same share; one that is met more than once weighs as often.
 *
 * @param mostCount scenarios left at most; a set that has no more stays as it is
 */
export function thinScenarios(set: ScenarioSet, mostCount: number): ScenarioSet {
  if (set.scenarioCount <= mostCount) return set;
  const { picks, weights } = systematicPicks(set.weights, mostCount);
  const { errors, seenShiftH } = set;
  return {
    ...set,
    scenarioCount: picks.length,
    weights: Int32Array.from(weights),
    sources: picks.flatMap((w) => set.sources[w] ?? []),
    errors: errors === null ? null : { ...errors, draws: pickedDraws(errors.draws, picks) },
    seenShiftH: seenShiftH === null ? null : picked(seenShiftH, picks),
  };
}

function systematicPicks(weights: Int32Array, count: number): { picks: number[]; weights: number[] } {
  const taken = new Map<number, number>();
  let w = 0;
  let reachedWeight = weights[0] ?? 0;
  for (let k = 0; k < count; k++) {
    while (w < weights.length - 1 && reachedWeight <= ((k + 0.5) * WEIGHT_SUM) / count)
      reachedWeight += weights[++w] ?? 0;
    const part = Math.floor((WEIGHT_SUM * (k + 1)) / count) - Math.floor((WEIGHT_SUM * k) / count);
    taken.set(w, (taken.get(w) ?? 0) + part);
  }
  return { picks: [...taken.keys()], weights: [...taken.values()] };
}

const picked = (values: Float64Array, picks: readonly number[]): Float64Array =>
  Float64Array.from(picks, (w) => values[w] ?? 0);

function pickedDraws({ wind, sea, nodeCount, timing, direction }: ErrorDraws, picks: readonly number[]): ErrorDraws {
  const cells = picks.flatMap((w) => Array.from({ length: nodeCount }, (_, node) => w * nodeCount + node));
  return {
    wind: picked(wind, cells),
    sea: picked(sea, cells),
    nodeCount,
    timing: picked(timing, picks),
    direction: picked(direction, picks),
  };
}
