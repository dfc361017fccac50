import type { Finding } from './finding.ts';
import { verdictOf } from './finding.ts';
import type { StartJudge } from './start-judge.ts';

/**
 * What the weather has against a start under each handling, as `whyNotEarlier` asks it.
 *
 * @param judges one for each handling
 * @param acceptsUnknown true: a limit the forecast does not hold stands against nothing (the job is planned conditionally)
 */
export const weatherAgainst =
  (judges: readonly StartJudge[], acceptsUnknown: boolean): ((startSlot: number) => Finding[][]) =>
  (startSlot) =>
    judges.map((judge) => {
      if (!judge.isFair(startSlot)) return judge.findingsAt(startSlot);
      if (acceptsUnknown || judge.at(startSlot).unknownBits[startSlot] === 0) return [];
      return judge.findingsAt(startSlot).filter((finding) => verdictOf(finding) === 'unknown');
    });
