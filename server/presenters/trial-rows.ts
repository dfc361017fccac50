import { changeReasons, jobNamesOf, type PlanChange, planChanges, planChangesText } from '../../lib/brief/index.ts';
import type { PlannedJob } from '../../lib/planner/index.ts';
import type { PassageView } from './plan-standing.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { chanceText } from './trial-figures.ts';
import { sentenceIn } from './units/sentence.ts';
import type { TriedStart } from './trial-standing.ts';

/** One job in the plan that stands and in the trial. */
export interface TrialRow {
  readonly jobId: string;
  readonly name: string;
  readonly before: JobCell;
  readonly after: JobCell;
  /** What changes and why, one sentence each; of one that is out with its name before it. Empty: nothing worth a line. */
  readonly changes: readonly string[];
  /** Its start is the one that is tried. */
  readonly isTried: boolean;
  /** It is in the plan that stands and not in the trial. */
  readonly isOut: boolean;
}

export interface JobCell {
  /** `Fri 11:00`; `not planned`; `done` */
  readonly start: string;
  /** `82 of 100 ± 3`; empty where it has none. */
  readonly chance: string;
}

interface RowsInput {
  readonly before: PassageView;
  readonly after: PassageView;
  readonly tried: TriedStart;
  readonly times: TimeTexts;
}

/** Every job of the trial that one of the two plans holds, the one that is tried first, then by its start. */
export function trialRows(input: RowsInput): TrialRow[] {
  const { before, after, tried } = input;
  const sentences = sentencesByJob(input);
  return after.plan.jobs
    .map((job) => rowOf(job, input, sentences.get(job.jobId) ?? []))
    .filter(({ jobId, before: was, after: is }) => jobId === tried.jobId || was.start !== NOT || is.start !== NOT)
    .toSorted((a, b) => orderOf(a, before, after) - orderOf(b, before, after));
}

const NOT = 'not planned';

function rowOf(job: PlannedJob, { before, after, tried, times }: RowsInput, changes: readonly string[]): TrialRow {
  const { jobId, name } = job;
  const cells = { before: cellOf(before, jobId, times), after: cellOf(after, jobId, times) };
  const isTried = jobId === tried.jobId;
  const isGone = cells.before.start !== NOT && cells.after.start === NOT;
  const isOut = isGone && !isTried;
  return {
    jobId,
    name,
    ...cells,
    changes: isOut ? changes : ownChanges(name, changes, isGone),
    isTried,
    isOut,
  };
}

/** Beside the name of the job it need not be said again; why the tried one is gone stands above all. */
function ownChanges(name: string, changes: readonly string[], isGone: boolean): readonly string[] {
  if (isGone) return ['No longer planned, as said above.'];
  return changes.map((text) => (text.startsWith(`${name}: `) ? upperFirst(text.slice(name.length + 2)) : text));
}

const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function cellOf({ plan, picture }: PassageView, jobId: string, times: TimeTexts): JobCell {
  const job = plan.jobs.find((one) => one.jobId === jobId);
  if (job?.status === 'done') return { start: 'done', chance: '' };
  if (job === undefined || job.startUtc === null) return { start: NOT, chance: '' };
  const sd = picture.jobs.find((one) => one.jobId === jobId)?.probabilitySd ?? null;
  const condition = job.status === 'conditional' ? ', conditional' : '';
  return {
    start: times.dayTime(epochOf(job.startUtc)),
    chance: job.probability === null ? condition.slice(2) : `${chanceText(job.probability, sd)}${condition}`,
  };
}

/** The one that is tried stands first, the others in the order of the hours. */
function orderOf({ jobId, isTried }: TrialRow, before: PassageView, after: PassageView): number {
  const startUtc = [after, before]
    .map(({ plan }) => plan.jobs.find((job) => job.jobId === jobId)?.startUtc ?? null)
    .find((utc) => utc !== null);
  if (isTried) return 0;
  return startUtc === undefined || startUtc === null ? Number.MAX_SAFE_INTEGER : epochOf(startUtc);
}

/** What changes for each job, in the words in which two plans are compared. */
function sentencesByJob({ before, after, tried, times }: RowsInput): ReadonlyMap<string, readonly string[]> {
  const plans = { older: before.plan, newer: after.plan };
  const changes = planChanges(plans.older, plans.newer);
  const reasons = changeReasons(plans, changes).map((reason, k) => (isAskedFor(changes[k], tried) ? null : reason));
  const { shipTimeOffsetMin, handlingNames } = after.picture;
  const jobNames = jobNamesOf(plans.older, plans.newer);
  const texts = planChangesText(changes, { shipTimeOffsetMin, handlingNames, jobNames }, reasons);
  const byJob = new Map<string, string[]>();
  for (const [k, change] of changes.entries()) {
    const text = texts[k];
    if (change.jobId === null || text === undefined) continue;
    byJob.set(change.jobId, [...(byJob.get(change.jobId) ?? []), sentenceIn(text, times.units)]);
  }
  return byJob;
}

/** That the start itself moves has no other reason than that it is tried. */
const isAskedFor = (change: PlanChange | undefined, { jobId }: TriedStart): boolean =>
  change?.jobId === jobId && ['moved', 'fallback-used', 'handling', 'newly-planned'].includes(change.kind);
