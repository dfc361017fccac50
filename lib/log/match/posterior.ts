import { shuffledIndices, WEIGHT_SUM } from '../../forecast/index.ts';
import { shiftAtShareH, SHIFTS_H } from './shifts.ts';

/** What becomes of the scenarios of a set. */
export interface Posterior {
  /** Integers of at least 1, sum 1 000 000. */
  readonly weights: Int32Array;
  readonly shiftH: Float64Array;
  /** Scenarios the weights are worth: 1 / Σ p². */
  readonly effectiveCount: number;
  /** Power the likelihood was tempered to (0..1); 1: as it is. */
  readonly temperRatio: number;
}

export interface PosteriorQuestion {
  /** Weights before, sum 1 000 000. */
  readonly weights: Int32Array;
  /** Scenario-major, one for each shift. */
  readonly logs: Float64Array;
  /** Of the shifts before the readings, sum 1. */
  readonly shiftShares: Float64Array;
  /** Part of the weight that stays as it was, timing drawn and all (0..1). */
  readonly unweightedShare: number;
  readonly seed: number;
}

/** The weights must be worth a quarter of the scenarios there are, 64 at most. Ours. */
const LEAST_EFFECTIVE_SHARE = 0.25;
const ENOUGH_SCENARIO_COUNT = 64;

/**
 * Weights and shifts after the readings: a mixture of Bayes' weights over scenarios and shifts with the weights before.
 *
 * Where few scenarios would carry all, the likelihood of scenarios (not of shifts) is tempered. A scenario's shift is
 * drawn from what the mixture says of its timing, stratified over the scenarios.
 */
export function posteriorOf(of: PosteriorQuestion): Posterior {
  const before = Float64Array.from(of.weights, (weight) => weight / WEIGHT_SUM);
  const scenarioLogs = Float64Array.from(before, (_, w) => logOfScenario(of, w));
  const { shares: bayes, temperRatio } = tempered(before, scenarioLogs);
  const kept = of.unweightedShare;
  const shares = bayes.map((share, w) => (1 - kept) * share + kept * (before[w] ?? 0));
  const weights = wholeWeights(shares);
  const order = shuffledIndices(before.length, { seed: of.seed, purpose: 'log', variable: 'seen shift' });
  const shiftH = shares.map((share, w) => {
    const timing = of.shiftShares.map((own, k) => {
      const seen = Math.exp(logAt(of, w, k) - (scenarioLogs[w] ?? 0));
      return (own * ((1 - kept) * (bayes[w] ?? 0) * seen + kept * (before[w] ?? 0))) / share;
    });
    return shiftAtShareH(timing, ((order[w] ?? 0) + 0.5) / before.length);
  });
  return { weights, shiftH, effectiveCount: effectiveCount(shares), temperRatio };
}

const logAt = ({ logs }: PosteriorQuestion, w: number, k: number): number => logs[w * SHIFTS_H.length + k] ?? -Infinity;

/** Log likelihood of a scenario whatever its shift. */
function logOfScenario(of: PosteriorQuestion, w: number): number {
  const own = of.shiftShares.map((share, k) => Math.log(share) + logAt(of, w, k));
  const most = own.reduce((greatest, log) => Math.max(greatest, log), -Infinity);
  return most + Math.log(own.reduce((sum, log) => sum + Math.exp(log - most), 0));
}

const effectiveCount = (shares: Float64Array): number => 1 / shares.reduce((sum, share) => sum + share * share, 0);

const HALVINGS = 30;

/** Bayes' weights, the likelihood to the greatest power up to 1 that leaves enough scenarios. */
function tempered(before: Float64Array, logs: Float64Array): { shares: Float64Array; temperRatio: number } {
  const enough = Math.min(LEAST_EFFECTIVE_SHARE * effectiveCount(before), ENOUGH_SCENARIO_COUNT);
  const sharesAt = (powerRatio: number): Float64Array => weighed(before, logs, powerRatio);
  if (effectiveCount(sharesAt(1)) >= enough) return { shares: sharesAt(1), temperRatio: 1 };
  let [low, high] = [0, 1];
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (low + high) / 2;
    if (effectiveCount(sharesAt(middle)) >= enough) low = middle;
    else high = middle;
  }
  return { shares: sharesAt(low), temperRatio: low };
}

function weighed(before: Float64Array, logs: Float64Array, powerRatio: number): Float64Array {
  const most = logs.reduce((greatest, log) => Math.max(greatest, log), -Infinity);
  const heights = before.map((share, w) => share * Math.exp(powerRatio * ((logs[w] ?? -Infinity) - most)));
  const sum = heights.reduce((total, height) => total + height, 0);
  return heights.map((height) => height / sum);
}

/** Whole weights of at least 1 in proportion to shares; what rounding leaves goes to the greatest remainders. */
function wholeWeights(shares: Float64Array): Int32Array {
  const spread = WEIGHT_SUM - shares.length;
  const exact = shares.map((share) => 1 + share * spread);
  const weights = Int32Array.from(exact, Math.floor);
  const left = WEIGHT_SUM - weights.reduce((sum, weight) => sum + weight, 0);
  const remainder = (w: number): number => (exact[w] ?? 0) - Math.floor(exact[w] ?? 0);
  const byRemainder = [...exact.keys()].toSorted((a, b) => remainder(b) - remainder(a) || a - b);
  for (const w of byRemainder.slice(0, left)) weights[w] = (weights[w] ?? 0) + 1;
  return weights;
}
