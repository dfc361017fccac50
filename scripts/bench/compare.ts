/** Ratios of a run held against those kept with the program. */
import type { BenchCase, PartName } from './bench-case.ts';

export interface KeptRatio {
  readonly costRatio: number;
  readonly spreadShare: number;
}

/** By part and case. */
export type KeptRatios = Readonly<Partial<Record<PartName, Readonly<Record<string, KeptRatio>>>>>;

export type Verdict =
  /** Within what is allowed. */
  | 'same'
  | 'better'
  | 'worse'
  /** It would be worse, but the rounds of this run lie further apart than that. */
  | 'unsteady'
  /** No ratio is kept. */
  | 'new';

export interface ComparedCase {
  readonly part: PartName;
  readonly measured: BenchCase;
  readonly kept: KeptRatio | null;
  /** By so much of the kept ratio it has grown; null: none is kept. */
  readonly changeShare: number | null;
  readonly verdict: Verdict;
}

/** A ratio may grow by so much before it is named. */
const MOST_GROWTH_SHARE = 0.25;

export function compareCase(part: PartName, measured: BenchCase, ratios: KeptRatios): ComparedCase {
  const kept = ratios[part]?.[measured.name] ?? null;
  const changeShare = kept === null ? null : measured.costRatio / kept.costRatio - 1;
  return { part, measured, kept, changeShare, verdict: verdictOf(changeShare, measured.spreadShare) };
}

function verdictOf(changeShare: number | null, spreadShare: number): Verdict {
  if (changeShare === null) return 'new';
  // A ratio that is no number is a fault of the benchmark, and must not pass for the same.
  if (Number.isNaN(changeShare)) return 'worse';
  if (changeShare < 1 / (1 + MOST_GROWTH_SHARE) - 1) return 'better';
  if (changeShare <= MOST_GROWTH_SHARE) return 'same';
  return spreadShare > changeShare ? 'unsteady' : 'worse';
}

/** Sentences that name what has become worse. */
export const complaintsOf = (compared: readonly ComparedCase[]): readonly string[] =>
  compared
    .filter(({ verdict }) => verdict === 'worse')
    .map(
      ({ part, measured, kept, changeShare }) =>
        `${part}, ${measured.name}: ${(100 * (changeShare ?? Number.NaN)).toFixed(0)} % worse than kept ` +
        `(${figure(measured.costRatio)} against ${figure(kept?.costRatio ?? Number.NaN)})`,
    );

export const figure = (ratio: number): string => (ratio >= 1000 ? ratio.toFixed(0) : ratio.toPrecision(3));
