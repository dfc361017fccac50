/** Ranks and shares. */

/** The value at a share of the sorted list, nearest rank; NaN of none. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}

export const shareOf = <T>(values: readonly T[], isSo: (value: T) => boolean): number =>
  values.filter(isSo).length / values.length;
