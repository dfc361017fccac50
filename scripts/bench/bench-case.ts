/** What is measured against a reference of the same run, and how it is told. */

export const PART_NAMES = ['grib', 'plan', 'windows', 'messages', 'pages', 'start', 'memory'] as const;
export type PartName = (typeof PART_NAMES)[number];

export const isPartName = (name: string): name is PartName => PART_NAMES.some((one) => one === name);

/** Ours and the reference, measured one right after the other, in the same unit. */
export interface Pair {
  readonly ours: number;
  readonly reference: number;
}

/** One thing measured. */
export interface BenchCase {
  readonly name: string;
  /** Ours over the reference, both of time, octets or memory: less is better. */
  readonly costRatio: number;
  /** How far the rounds of this run lie apart, as a share of the ratio; 0 where there is nothing to vary. */
  readonly spreadShare: number;
  readonly unit: 'ms' | 'octets' | 'MiB';
  /** What the ratio is made of, in the unit. */
  readonly ours: number;
  readonly reference: number;
}

/** What a part hands over; `figures` goes into the JSON as it is. */
export interface PartResult {
  readonly cases: readonly BenchCase[];
  /** What could not be measured here, and why. */
  readonly skipped: readonly { readonly name: string; readonly why: string }[];
  /** Lines to be read below the table. */
  readonly notes: readonly string[];
  readonly figures: unknown;
}

export interface PartOptions {
  /** Fewer cases and rounds: those that are left measure the same as in a whole run. */
  readonly isQuick: boolean;
  /** A folder of this run alone. */
  readonly scratch: string;
}

/** A part of the benchmark. */
export interface Part {
  /** Names of all cases a whole run measures. */
  readonly caseNames: () => readonly string[];
  readonly measure: (options: PartOptions) => Promise<PartResult>;
}

/**
 * A case of rounds. Other work on the machine only ever lengthens a round, so the best of each counts; how much the
 * rounds vary is told by the ratios pair by pair, which share what the machine was doing.
 *
 * @param pairs at least one
 */
export function caseOfRounds(name: string, unit: BenchCase['unit'], pairs: readonly Pair[]): BenchCase {
  const ours = Math.min(...pairs.map((pair) => pair.ours));
  const reference = Math.min(...pairs.map((pair) => pair.reference));
  return {
    name,
    unit,
    ours,
    reference,
    costRatio: ours / reference,
    spreadShare: spreadShareOf(pairs.map((pair) => pair.ours / pair.reference)),
  };
}

/** A case of figures that are the same every time. */
export const exactCase = (name: string, unit: BenchCase['unit'], pair: Pair): BenchCase => ({
  name,
  unit,
  ...pair,
  costRatio: pair.ours / pair.reference,
  spreadShare: 0,
});

/** Half of the values lie within this share of their median; of fewer than four, all of them. */
export function spreadShareOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const cut = values.length < 4 ? 0 : Math.floor(sorted.length / 4);
  const least = sorted[cut] ?? Number.NaN;
  const most = sorted[sorted.length - 1 - cut] ?? Number.NaN;
  const median = sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
  return (most - least) / median;
}
