import { uniformDraws } from '../sample-forecasts/random.ts';

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length);

export interface MeanDifference {
  readonly mean: number;
  /** 95 % of resamplings lie between. */
  readonly low: number;
  readonly high: number;
  readonly betterCount: number;
  readonly worseCount: number;
  readonly count: number;
}

const RESAMPLE_COUNT = 2000;
/** Differences below this are none. */
const SAME = 1e-9;

/** Mean of paired differences with a 95 % interval by resampling the pairs (percentile bootstrap, seeded). */
export function pairedDifference(pairs: readonly (readonly [number, number])[], seed: number): MeanDifference {
  const differences = pairs.map(([ours, theirs]) => ours - theirs);
  const uniform = uniformDraws(seed);
  const means = Array.from({ length: RESAMPLE_COUNT }, () =>
    mean(differences.map(() => differences[Math.floor(uniform() * differences.length)] ?? 0)),
  ).toSorted((a, b) => a - b);
  const at = (share: number): number => means[Math.floor(share * RESAMPLE_COUNT)] ?? 0;
  return {
    mean: mean(differences),
    low: at(0.025),
    high: at(0.975),
    betterCount: differences.filter((difference) => difference > SAME).length,
    worseCount: differences.filter((difference) => difference < -SAME).length,
    count: differences.length,
  };
}

/** One statement of a probability, held against several trials. */
export interface Statement {
  /** Statements of one cluster are not independent. */
  readonly cluster: number;
  readonly stated: number;
  readonly trialCount: number;
  readonly trueCount: number;
}

export interface CalibrationBin {
  readonly from: number;
  readonly to: number;
  readonly trialCount: number;
  readonly meanStated: number;
  readonly observed: number;
  /** Observed less stated. */
  readonly difference: number;
  /** Standard error of the difference, clusters taken as wholes. */
  readonly standardError: number;
}

export interface Calibration {
  readonly bins: readonly CalibrationBin[];
  readonly trialCount: number;
  /** Mean distance between stated and observed, bins weighted by their trials. */
  readonly expectedError: number;
}

const BIN_EDGES = [0, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 1] as const;

/** How often what was stated with a probability came true, by bins of the probability; the last bin holds 1 too. */
export function calibrationOf(statements: readonly Statement[]): Calibration {
  const bins = BIN_EDGES.slice(0, -1).map((from, index) => {
    const to = BIN_EDGES[index + 1] ?? 1;
    const own = statements.filter(({ stated }) => stated >= from && (stated < to || to === 1));
    return binOf(from, to, own);
  });
  const trialCount = bins.reduce((sum, bin) => sum + bin.trialCount, 0);
  const expectedError = bins.reduce((sum, bin) => sum + bin.trialCount * Math.abs(bin.difference), 0) / trialCount;
  return { bins, trialCount, expectedError: trialCount === 0 ? 0 : expectedError };
}

function binOf(from: number, to: number, statements: readonly Statement[]): CalibrationBin {
  const total = (of: (statement: Statement) => number): number =>
    statements.reduce((sum, statement) => sum + of(statement), 0);
  const trialCount = total((one) => one.trialCount);
  if (trialCount === 0) return { from, to, trialCount, meanStated: 0, observed: 0, difference: 0, standardError: 0 };
  const meanStated = total((one) => one.stated * one.trialCount) / trialCount;
  const observed = total((one) => one.trueCount) / trialCount;
  const difference = observed - meanStated;
  return {
    from,
    to,
    trialCount,
    meanStated,
    observed,
    difference,
    standardError: clusteredError(statements, difference),
  };
}

/** Standard error of a mean of trials by the spread between clusters (linearised ratio estimator). */
function clusteredError(statements: readonly Statement[], difference: number): number {
  const residuals = new Map<number, number>();
  for (const { cluster, stated, trialCount, trueCount } of statements) {
    const own = trueCount - stated * trialCount - difference * trialCount;
    residuals.set(cluster, (residuals.get(cluster) ?? 0) + own);
  }
  if (residuals.size < 2) return Number.POSITIVE_INFINITY;
  const squares = [...residuals.values()].reduce((sum, residual) => sum + residual ** 2, 0);
  const trialCount = statements.reduce((sum, one) => sum + one.trialCount, 0);
  return Math.sqrt((squares * residuals.size) / (residuals.size - 1)) / trialCount;
}

/** Bins with fewer trials are shown and not judged. */
const LEAST_TRIALS = 2500;
const ALLOWED = 0.02;

/** Reasons why probabilities are not as good as stated; empty: they are, within two points and two standard errors. */
export function calibrationFaults({ bins, expectedError }: Calibration): string[] {
  const percent = (share: number): string => `${(100 * share).toFixed(1)} points`;
  return [
    ...bins
      .filter((bin) => bin.trialCount >= LEAST_TRIALS)
      .filter((bin) => Math.abs(bin.difference) > ALLOWED + 2 * bin.standardError)
      .map(
        (bin) =>
          `${bin.from}–${bin.to}: off by ${percent(bin.difference)}, standard error ${percent(bin.standardError)}`,
      ),
    ...(expectedError > ALLOWED ? [`expected calibration error ${percent(expectedError)}, at most 2`] : []),
  ];
}
