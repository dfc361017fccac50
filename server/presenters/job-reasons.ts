import type { PlannedJob, PlanPicture } from '../../lib/planner/index.ts';
import { formatUtc } from '../../lib/time/index.ts';
import { roomWord } from './chance-words.ts';
import { handlingText } from './handling-text.ts';
import { chanceFacts } from './job-chances.ts';
import { joined, limitName, roomTexts } from './limit-texts.ts';
import type { Fact } from './fact.ts';
import type { JobDocument } from './job-document.ts';
import { type JobOrders, jobOrders } from './job-orders.ts';
import { decideByText, fallbackText, standingText, startBetweenText } from './next-card.ts';
import type { PassageView } from './plan-standing.ts';
import { startWarning } from './start-check.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';

/** Why a job stands where it stands. */
export interface JobReason {
  readonly jobId: string;
  readonly name: string;
  readonly status: PlannedJob['status'];
  /** `Fri 29 May 11:00`, with UTC; null: not planned. */
  readonly when: string | null;
  readonly whenUtc: string | null;
  readonly startBetween: string | null;
  /** Conditional, not planned, done: said before everything else. */
  readonly standing: string | null;
  readonly facts: readonly Fact[];
  readonly paragraphs: readonly Paragraph[];
  /** What is asked for less often: folded on a screen, unfolded on paper. */
  readonly folded: readonly Paragraph[];
  readonly checks: readonly string[];
  /** What is left when its window passes unused; null: nothing was worked out. */
  readonly planLeft: PlanLeft | null;
  /** What would open a window, each searched anew, and the start to look at. */
  readonly wouldBuy: readonly { readonly text: string; readonly href: string }[];
  readonly windowsHref: string;
  /** What is fixed about it; null: nothing can be. */
  readonly orders: JobOrders | null;
}

export interface Paragraph {
  readonly label: string;
  readonly text: string;
}

/** The plan without a job's window: said in a sentence, then start by start. */
export interface PlanLeft {
  readonly text: string;
  /** `Fri 29 May 13:00: Drop the mainsail, running off` */
  readonly starts: readonly string[];
}

/**
 * By planned start; unplanned ones last.
 *
 * @param document the passage as it is kept now, for what is fixed in it; null: it cannot be read
 */
export function jobReasons(view: PassageView, times: TimeTexts, document: JobDocument | null = null): JobReason[] {
  const { plan } = view;
  const startOf = (job: PlannedJob): number => (job.startUtc === null ? Number.MAX_VALUE : epochOf(job.startUtc));
  return plan.jobs
    .toSorted((a, b) => startOf(a) - startOf(b))
    .map((job) => ({
      ...jobReason(job, view, times),
      orders: document === null ? null : jobOrders({ document, job, view, times }),
    }));
}

function jobReason(job: PlannedJob, view: PassageView, times: TimeTexts): Omit<JobReason, 'orders'> {
  const { picture } = view;
  const startEpochMs = job.startUtc === null ? null : epochOf(job.startUtc);
  const windowsHref = `/windows?job=${encodeURIComponent(job.jobId)}`;
  return {
    jobId: job.jobId,
    name: job.name,
    status: job.status,
    when: startEpochMs === null ? null : times.full(startEpochMs),
    whenUtc: startEpochMs === null ? null : times.utc(startEpochMs),
    startBetween: job.startBetween === null ? null : startBetweenText(job.startBetween, times),
    standing: standingText(job),
    facts: [...chanceFacts(job, picture), ...roomFacts(job, times)],
    paragraphs: paragraphs(job, picture, times),
    folded: told([
      ['Why not earlier', job.whyNotEarlier],
      ['Standard criterion', job.standardCriterion?.text],
    ]),
    checks: [...new Set(job.goCheck)],
    planLeft: planLeft(job, view, times),
    wouldBuy: job.wouldBuy.map((bought) => ({ text: bought.text, href: boughtHref(job.jobId, bought, view) })),
    windowsHref,
  };
}

function planLeft({ fallbackPlan }: PlannedJob, { plan, picture }: PassageView, times: TimeTexts): PlanLeft | null {
  if (fallbackPlan === null) return null;
  const nameOf = (jobId: string): string => plan.jobs.find((job) => job.jobId === jobId)?.name ?? jobId;
  return {
    text: fallbackPlan.text,
    starts: fallbackPlan.entries.map(
      ({ jobId, startUtc, handling }) =>
        `${times.full(epochOf(startUtc))}: ${nameOf(jobId)}, ${handlingText(picture, handling)}`,
    ),
  };
}

/** The start that would be bought, under its handling where the job's first part is worked under it at all. */
function boughtHref(jobId: string, bought: PlannedJob['wouldBuy'][number], { names }: PassageView): string {
  const menu = names.jobs.find((job) => job.jobId === jobId);
  const isKnown = menu?.parts[0]?.handlingIds.includes(bought.handling) === true;
  const query = new URLSearchParams({ job: jobId, ...(isKnown ? { handling: bought.handling } : {}) });
  return `/windows?${query.toString()}&start=${formatUtc(epochOf(bought.startUtc))}`;
}

function roomFacts(job: PlannedJob, times: TimeTexts): Fact[] {
  const limit = job.bindingLimit ?? job.nearestMiss?.bindingLimit ?? null;
  if (limit === null) return job.startUtc === null ? [] : [{ term: 'Room', figure: 'no limit near', rest: '' }];
  const { room, binds, measured } = roomTexts(limit, times);
  const sd = job.marginSd === null ? '' : `; ${roomWord(job.marginSd)}`;
  return [{ term: limit.margin < 0 ? 'Beyond' : 'Room', figure: room, rest: binds, below: `${measured}${sd}` }];
}

function paragraphs(job: PlannedJob, picture: PlanPicture, times: TimeTexts): Paragraph[] {
  const miss = job.startUtc === null ? job.nearestMiss : null;
  return told([
    ['Sleep first', job.sleepFirst?.text.replace(/^Sleep first\. /, '')],
    ['Before you start', startWarning(job, times)],
    ['Why then', job.why],
    ['Nearest', miss?.text],
    // What was searched anew says more.
    ['What would help', job.wouldBuy.length === 0 ? miss?.wouldHelp : null],
    ['If not', fallbackText(job, picture, times)],
    ['Decide by', job.decideByUtc === null ? null : decideByText(job.decideByUtc, times)],
    ['Unknown', job.unknownLimits.length === 0 ? null : `${joined(job.unknownLimits.map(limitName))}.`],
  ]);
}

/** Those of which there is something to say. */
const told = (texts: readonly (readonly [string, string | null | undefined])[]): Paragraph[] =>
  texts.flatMap(([label, text]) => (text === null || text === undefined || text === '' ? [] : [{ label, text }]));
