import type { JobFile } from '../../lib/jobs/index.ts';
import type { PlannedJob } from '../../lib/planner/index.ts';
import { parseUtc } from '../../lib/time/index.ts';
import { jobPageHref } from './job-page.ts';
import type { JobDocument } from './job-document.ts';
import { versionText } from './notices.ts';
import type { PassageView } from './plan-standing.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';

/** What is fixed about a job of the plan, and what can be fixed with one button. */
export interface JobOrders {
  readonly jobId: string;
  /** Hidden field of its forms. */
  readonly version: string;
  /** `starts exactly at Fri 29 May 11:00`, one each; empty: nothing is fixed. */
  readonly fixed: readonly string[];
  readonly isLocked: boolean;
  /** Locks it to where the plan has it; null: it is locked already, or not planned. */
  readonly lock: LockButton | null;
  readonly hoursHref: string;
}

/** A button that locks a job, and the hidden fields that say to what. */
export interface LockButton {
  readonly text: string;
  readonly startUtc: string;
  /** Empty: the plan chooses the handling. */
  readonly handlingId: string;
}

/** A start that can be locked from the windows page. */
export interface StartLock {
  readonly action: string;
  readonly version: string;
  readonly button: LockButton;
}

export const hoursHref = (jobId: string): string => `${jobPageHref(jobId)}/hours`;
const lockHref = (jobId: string): string => `${jobPageHref(jobId)}/lock`;

interface OrdersInput {
  readonly document: JobDocument;
  readonly job: PlannedJob;
  readonly view: PassageView;
  readonly times: TimeTexts;
}

/** null: the passage as it is kept now has no such job, or all of it is done. */
export function jobOrders({ document, job, view, times }: OrdersInput): JobOrders | null {
  const entry = document.file.jobs?.find(({ id }) => id === job.jobId);
  if (entry === undefined || job.status === 'done' || entry.done === true) return null;
  const isLocked = entry.startUtc !== undefined || entry.lockHandling !== undefined;
  return {
    jobId: job.jobId,
    version: versionText(document),
    fixed: [
      ...fixedTexts(entry, times, (id) => view.picture.handlingNames[id] ?? id),
      ...forbiddenTexts(document, job.jobId, times),
    ],
    isLocked,
    lock: isLocked ? null : plannedLock(job, view, times),
    hoursHref: hoursHref(job.jobId),
  };
}

function plannedLock(job: PlannedJob, view: PassageView, times: TimeTexts): LockButton | null {
  if (job.startUtc === null) return null;
  const handlings = new Set(
    view.plan.entries.flatMap(({ kind, jobId, handling }) =>
      kind === 'work' && jobId === job.jobId && handling !== null ? [handling] : [],
    ),
  );
  const [only = ''] = handlings;
  return {
    text: `Lock it to ${times.dayTime(epochOf(job.startUtc))}`,
    startUtc: job.startUtc,
    handlingId: handlings.size === 1 ? wholeJobHandling(view, job.jobId, only) : '',
  };
}

/** A handling is locked for the whole job: only one under which each of its parts can be worked; else empty. */
function wholeJobHandling({ names }: PassageView, jobId: string, handlingId: string): string {
  const parts = names.jobs.find((job) => job.jobId === jobId)?.parts ?? [];
  return parts.length > 0 && parts.every(({ handlingIds }) => handlingIds.includes(handlingId)) ? handlingId : '';
}

/** What an entry fixes, in words. */
function fixedTexts(
  { startUtc, lockHandling, notBeforeUtc, finishByUtc }: JobFile,
  times: TimeTexts,
  handlingName: (handlingId: string) => string,
): readonly string[] {
  const at = (words: string, utc: string | undefined): readonly string[] =>
    utc === undefined ? [] : [`${words} ${instantText(utc, times)}`];
  return [
    ...at('starts exactly at', startUtc),
    ...(lockHandling === undefined ? [] : [`worked only under “${handlingName(lockHandling)}”`]),
    ...at('not before', notBeforeUtc),
    ...at('finished by', finishByUtc),
  ];
}

/** Forbidden hours that bind a job, in words. */
const forbiddenTexts = ({ passage }: JobDocument, jobId: string, times: TimeTexts): readonly string[] =>
  passage.orders.forbidden
    .filter((span) => span.jobId === null || span.jobId === jobId)
    .map((span) => `no work from ${times.span(span, 'to')}`);

function instantText(utc: string, times: TimeTexts): string {
  const at = parseUtc(utc, '');
  return at.ok ? times.full(at.value) : utc;
}

interface StartLockInput {
  readonly document: JobDocument | null;
  readonly view: PassageView;
  readonly jobId: string;
  readonly partIndex: number;
  readonly handlingId: string;
  readonly startUtc: string;
}

/** Locks a job to a start that is looked at; null: it is not the start of its first part that is left, or it is gone. */
export function startLock({
  document,
  view,
  jobId,
  partIndex,
  handlingId,
  startUtc,
}: StartLockInput): StartLock | null {
  const entry = document?.file.jobs?.find(({ id }) => id === jobId);
  if (document === null || entry === undefined || entry.done === true) return null;
  const doneStepIds = document.passage.orders.jobs.get(jobId)?.doneStepIds ?? [];
  const parts = view.names.jobs.find((job) => job.jobId === jobId)?.parts ?? [];
  const firstLeft = parts.findIndex(({ steps }) => steps.some(({ id }) => !doneStepIds.includes(id)));
  if (firstLeft !== partIndex) return null;
  return {
    action: lockHref(jobId),
    version: versionText(document),
    button: { text: 'Start then', startUtc, handlingId: wholeJobHandling(view, jobId, handlingId) },
  };
}
