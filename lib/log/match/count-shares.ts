import { MS_PER_H } from '../../time/index.ts';

/** Readings nearer in time than this tell partly the same: gusts, swell and the instrument are the same still. Ours. */
const INDEPENDENT_AFTER_H = 3;

/**
 * How much each reading counts, above 0 and at most 1: one over the number of readings around it, where one at the same
 * time counts in full, one three hours away not at all, linear between. Their sum is the effective number: hourly
 * readings count a third each.
 */
export function countShares(epochMs: readonly number[]): number[] {
  return epochMs.map((at) => {
    const around = epochMs.reduce(
      (sum, other) => sum + Math.max(0, 1 - Math.abs(at - other) / (INDEPENDENT_AFTER_H * MS_PER_H)),
      0,
    );
    return 1 / around;
  });
}
