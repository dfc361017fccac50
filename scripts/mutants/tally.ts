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

/** Inputs made of samples of one kind, and how many of them gave a field that was decoded. */
export interface KindCount {
  readonly triedCount: number;
  readonly decodedCount: number;
}

export type KindCounts = Readonly<{ [kind: string]: KindCount }>;

export interface Tally {
  readonly triedCount: number;
  /** Inputs per problem code, `decoded` and `nothing` among them. */
  readonly codes: Readonly<{ [code: string]: number }>;
  readonly failures: readonly Failure[];
  /** Processor time [ms]. */
  readonly slowest: Record;
  /** Octets the process grew by. */
  readonly largest: Record;
  /** Left out: not counted. */
  readonly kinds?: KindCounts;
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
    ...(a.kinds === undefined && b.kinds === undefined ? {} : { kinds: addKinds(a.kinds ?? {}, b.kinds ?? {}) }),
  };
}

function addKinds(a: KindCounts, b: KindCounts): KindCounts {
  const kinds = new Map(Object.entries(a));
  for (const [kind, { triedCount, decodedCount }] of Object.entries(b)) {
    const before = kinds.get(kind) ?? { triedCount: 0, decodedCount: 0 };
    kinds.set(kind, {
      triedCount: before.triedCount + triedCount,
      decodedCount: before.decodedCount + decodedCount,
    });
  }
  return Object.fromEntries(kinds);
}

/** Lines of a table: kind, samples, inputs made of them, share decoded and refused. Kinds without a sample stand first. */
export function formatKinds(kinds: KindCounts, sampleCounts: ReadonlyMap<string, number>): string {
  const rows = [...sampleCounts].toSorted(
    ([a, count], [b, other]) => Math.min(count, 1) - Math.min(other, 1) || (a < b ? -1 : 1),
  );
  const cell = (text: string | number): string => String(text).padStart(9);
  return [
    `${'kind'.padEnd(36)}${['samples', 'inputs', 'decoded', 'refused'].map(cell).join('')}`,
    ...rows.map(([kind, sampleCount]) => {
      const { triedCount, decodedCount } = kinds[kind] ?? { triedCount: 0, decodedCount: 0 };
      const cells = [sampleCount, triedCount, decodedCount, triedCount - decodedCount];
      return `${kind.padEnd(36)}${cells.map(cell).join('')}`;
    }),
  ].join('\n');
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
