import { formatAt, MS_PER_H } from '../../time/index.ts';
import { type Digest, STEP_H } from './digest.ts';

/** Ends the summary; it is no letter of the packed alphabet. */
export const SUMMARY_END = '!';

/**
 * One line for the eye before the packed part: `W24-6-18KN,LEAST281500Z,GUST34,SEA3.1-1.1M`. Mean wind at the first step,
 * least, at the last step; when it is least; highest gust; highest and lowest sea. It follows from the packed part.
 */
export function digestSummary(digest: Digest): string {
  const wind = known(digest.windKn);
  const leastStep = digest.windKn.indexOf(Math.min(...wind));
  const leastEpochMs = digest.firstEpochMs + leastStep * STEP_H * MS_PER_H;
  const [gust, sea] = [known(digest.gustKn), known(digest.seaHeightM)];
  return [
    `W${[wind[0], digest.windKn[leastStep], wind.at(-1)].map((value) => Math.round(value ?? 0)).join('-')}KN`,
    `LEAST${formatAt(leastEpochMs, 0, 'ddHHmm')}Z`,
    ...(gust.length === 0 ? [] : [`GUST${Math.max(...gust)}`]),
    ...(sea.length === 0 ? [] : [`SEA${Math.max(...sea).toFixed(1)}-${Math.min(...sea).toFixed(1)}M`]),
  ].join(',');
}

const known = (values: readonly number[]): number[] => values.filter((value) => !Number.isNaN(value));
