/** Least and greatest of lists of any length: a file may hold more fields than a call takes arguments. */

/** Infinity for an empty list. */
export const leastOf = <T>(items: readonly T[], of: (item: T) => number): number =>
  items.reduce((least, item) => Math.min(least, of(item)), Infinity);

/** -Infinity for an empty list. */
export const mostOf = <T>(items: readonly T[], of: (item: T) => number): number =>
  items.reduce((most, item) => Math.max(most, of(item)), -Infinity);
