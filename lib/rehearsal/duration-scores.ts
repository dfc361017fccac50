import { drawBits, permutation, textBits } from './hash.ts';
import { normalQuantile } from '../jobs/index.ts';
import { SOBOL_DIMENSION_COUNT, sobolColumn } from './sobol.ts';

/** Names a duration: the same step of the same job's same session is drawn alike in every plan it stands in. */
export interface DrawKey {
  readonly jobId: string;
  readonly stepId: string;
  /** 0 for work in one go and for the first session. */
  readonly sessionNumber: number;
}

export interface DrawSettings {
  readonly seed: number;
  readonly drawCount: number;
  /**
   * Steps that take the dimensions of a Sobol sequence, the more important first; the list of the passage, not of a plan.
   * Every other step, and sessions after the first, take a Latin hypercube's: as evenly spread each, less so together.
   */
  readonly sobolSteps: readonly { readonly jobId: string; readonly stepId: string }[];
}

/** Correlation between the durations of any two steps of one plan (their normal scores); common practice, no source. */
const CORRELATION_RATIO = 0.5;

/**
 * Normal scores of durations [standard deviations], one per draw: what one factor of the whole plan and one of the
 * step's own give together (Gaussian copula).
 *
 * A score depends on the seed, the number of draws and its own key, never on the other steps of a plan or their order, so
 * that two plans meet the same draws (common random numbers).
 */
export function durationScores(settings: DrawSettings): (key: DrawKey) => Float64Array {
  const dimensions = new Map(
    settings.sobolSteps
      .slice(0, SOBOL_DIMENSION_COUNT - 1)
      .map(({ jobId, stepId }, index) => [streamName({ jobId, stepId, sessionNumber: 0 }), index + 1]),
  );
  // Draw i is paired with scenario i, whose member may be i modulo a power of two: the sequence must not be in step with it.
  const order = permutation(settings.drawCount, textBits(settings.seed, 'order of points'));
  const shared = sobolScores(settings, { dimensionIndex: 0, order, name: 'shared' });
  const kept = new Map<string, Float64Array>();
  return (key) => {
    const name = streamName(key);
    const known = kept.get(name);
    if (known !== undefined) return known;
    const dimensionIndex = dimensions.get(name);
    const own =
      dimensionIndex === undefined
        ? latinScores(settings, name)
        : sobolScores(settings, { dimensionIndex, order, name });
    const scores = own.map(
      (ownSd, i) => Math.sqrt(CORRELATION_RATIO) * (shared[i] ?? 0) + Math.sqrt(1 - CORRELATION_RATIO) * ownSd,
    );
    kept.set(name, scores);
    return scores;
  };
}

const streamName = ({ jobId, stepId, sessionNumber }: DrawKey): string =>
  JSON.stringify([jobId, stepId, sessionNumber]);

function sobolScores(
  { seed, drawCount }: DrawSettings,
  of: { readonly dimensionIndex: number; readonly order: Uint32Array; readonly name: string },
): Float64Array {
  const scrambleBits = textBits(seed, of.name);
  const column = sobolColumn({ pointCount: drawCount, dimensionIndex: of.dimensionIndex, scrambleBits });
  return Float64Array.from(of.order, (point) => normalQuantile(column[point] ?? 0.5));
}

/** One draw in each of as many equally likely strata as there are draws, in an order of the step's own. */
function latinScores({ seed, drawCount }: DrawSettings, name: string): Float64Array {
  const stream = textBits(seed, name);
  return Float64Array.from(permutation(drawCount, stream), (stratum, i) => {
    const jitter = (drawBits(stream ^ 0x2545f491, i) + 0.5) / 2 ** 32;
    return normalQuantile((stratum + jitter) / drawCount);
  });
}
