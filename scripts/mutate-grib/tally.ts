/** What a run of mutants came to. */

/** An input the room did not stand. */
export interface Failure {
  readonly index: number;
  readonly story: string;
  readonly fault: string;
}

/** The most of some figure, and the input that had it. */
export interface Record {
  readonly index: number;
  readonly amount: number;
}

export interface Tally {
  readonly triedCount: number;
  /** Inputs per problem code, `decoded` and `nothing` among them. */
  readonly codes: Readonly<{ [code: string]: number }>;
  readonly failures: readonly Failure[];
  /** Processor time [ms]. */
  readonly slowest: Record;
  /** Octets the process grew by. */
  readonly largest: Record;
}

export const EMPTY_TALLY: Tally = {
  triedCount: 0,
  codes: {},
  failures: [],
  slowest: { index: -1, amount: 0 },
  largest: { index: -1, amount: 0 },
};

export const greater = (a: Record, b: Record): Record => (b.amount > a.amount ? b : a);

export function addTallies(a: Tally, b: Tally): Tally {
  const codes = new Map(Object.entries(a.codes));
  for (const [code, count] of Object.entries(b.codes)) codes.set(code, (codes.get(code) ?? 0) + count);
  return {
    triedCount: a.triedCount + b.triedCount,
    codes: Object.fromEntries(codes),
    failures: [...a.failures, ...b.failures],
    slowest: greater(a.slowest, b.slowest),
    largest: greater(a.largest, b.largest),
  };
}

/** Lines for people: outcomes by how often they came. */
export function formatTally(tally: Tally): string {
  const byCount = Object.entries(tally.codes).toSorted(([, a], [, b]) => b - a);
  return [
    `${tally.triedCount} inputs, ${tally.failures.length} failures`,
    ...byCount.map(([code, count]) => `${String(count).padStart(9)}  ${code}`),
    `slowest: ${tally.slowest.amount.toFixed(0)} ms of processor time (input ${tally.slowest.index})`,
    `most memory: grew by ${(tally.largest.amount / 2 ** 20).toFixed(1)} MiB (input ${tally.largest.index})`,
  ].join('\n');
}
