import type { NearestMiss } from '../../lib/planner/index.ts';
import type { PassageView } from './plan-standing.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import type { Trial } from './trial-standing.ts';
import { sentenceIn } from './units/sentence.ts';
import { windowsHref } from './windows-choice.ts';

/** Why a trial does not hold the job whose start is tried. */
export interface TrialMiss {
  /** By how much it misses. */
  readonly text: string;
  readonly wouldHelp: string;
  /** A look at the nearest start; null: there is none. */
  readonly nearest: { readonly text: string; readonly href: string } | null;
}

/** By how much the start misses, in the planner’s words, and the nearest start that does not. */
export function missOf({ plan }: PassageView, { tried }: Trial, times: TimeTexts): TrialMiss {
  const job = plan.jobs.find(({ jobId }) => jobId === tried.jobId);
  const miss = job?.nearestMiss ?? null;
  if (miss === null) {
    return {
      text: 'Nothing more is known of the reason: the search was stopped, or the job is not in the passage any more.',
      wouldHelp: 'Look at another start.',
      nearest: null,
    };
  }
  // What the planner calls locked is here only tried: nothing is to be taken off.
  const wouldHelp = miss.reason === 'orders' ? 'Try another start, or leave it to the plan.' : miss.wouldHelp;
  return {
    text: sentenceIn(miss.text, times.units),
    wouldHelp: sentenceIn(wouldHelp, times.units),
    nearest: nearestOf(miss, tried, times),
  };
}

function nearestOf({ startUtc, handling }: NearestMiss, tried: Trial['tried'], times: TimeTexts): TrialMiss['nearest'] {
  if (startUtc === null) return null;
  const startEpochMs = epochOf(startUtc);
  const { jobId, partIndex, shownHandlingId } = tried;
  const handlingId = handling ?? shownHandlingId;
  if (startEpochMs === epochOf(tried.startUtc) && handlingId === shownHandlingId) return null;
  return {
    text: `Look at the start at ${times.dayTime(startEpochMs)}`,
    href: windowsHref({ jobId, partIndex, handlingId }, startEpochMs),
  };
}
