/** Shifts of time tried, in hours, positive later. */
export const SHIFTS_H: readonly number[] = Array.from({ length: 25 }, (_, k) => k - 12);
const SHIFT_STEP_H = 1;

/**
 * Shares of a normal timing error on the shifts tried, sum 1: each shift stands for the hour around it, whose own spread
 * is taken off.
 */
export function shiftShares(timingSdH: number): Float64Array {
  const sdH = Math.sqrt(Math.max(0.25, timingSdH ** 2 - SHIFT_STEP_H ** 2 / 12));
  const heights = Float64Array.from(SHIFTS_H, (shiftH) => Math.exp(-((shiftH / sdH) ** 2) / 2));
  const sum = heights.reduce((total, height) => total + height, 0);
  return heights.map((height) => height / sum);
}

/** The shift at which so much of the shares lies below, each share spread evenly over its hour. */
export function shiftAtShareH(shares: Float64Array, soughtShare: number): number {
  let belowShare = 0;
  for (const [k, share] of shares.entries()) {
    if (share > 0 && belowShare + share >= soughtShare)
      return (SHIFTS_H[k] ?? 0) + SHIFT_STEP_H * ((soughtShare - belowShare) / share - 0.5);
    belowShare += share;
  }
  return SHIFTS_H.at(-1) ?? 0;
}

/** Mean of the shares over the shifts, and one standard deviation. */
export function momentsOfShift(shares: Float64Array): { readonly shiftH: number; readonly shiftSd: number } {
  let [meanH, square] = [0, 0];
  for (const [k, share] of shares.entries()) {
    meanH += share * (SHIFTS_H[k] ?? 0);
    square += share * (SHIFTS_H[k] ?? 0) ** 2;
  }
  return { shiftH: meanH, shiftSd: Math.sqrt(Math.max(0, square - meanH * meanH)) };
}

/** Shares in proportion to e^log, sum 1. */
export function sharesOfLogs(logs: Float64Array): Float64Array {
  const most = logs.reduce((greatest, log) => Math.max(greatest, log), -Infinity);
  const heights = logs.map((log) => Math.exp(log - most));
  const sum = heights.reduce((total, height) => total + height, 0);
  return heights.map((height) => height / sum);
}
