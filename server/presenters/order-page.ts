import type { Job } from '../../lib/jobs/index.ts';
import type { PlannedJob } from '../../lib/planner/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { orderBetween, type Sequence } from '../order-forms/index.ts';
import type { Clock } from './clock.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { versionText } from './notices.ts';
import type { PlanStanding } from './plan-standing.ts';
import { epochOf, timeTexts, type TimeTexts } from './time-texts.ts';

export const ORDER_HREF = '/plan/order';

/** The order of the work: as the plan has it, what is ordered, and how it is changed. */
export interface OrderPage {
  readonly kind: 'order';
  /** Of the passage. */
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  /** In the order of the plan; without a plan, as they are listed. */
  readonly rows: readonly OrderRow[];
  /** Empty: fewer than two jobs are left. */
  readonly choices: readonly { readonly jobId: string; readonly text: string }[];
  /** What was chosen and refused; null: nothing was. */
  readonly chosen: Sequence | null;
  readonly problems: readonly Problem[];
}

export interface OrderRow {
  readonly jobId: string;
  readonly text: string;
  readonly href: string;
  /** `Fri 11:00 to 11:50`, or `not planned`. */
  readonly when: string;
  /** Jobs it comes after, as the passage orders it. */
  readonly after: readonly OrderedAfter[];
  /** Past the job before it in this list; null: it is the first. */
  readonly earlier: Move | null;
  /** Past the job behind it; null: it is the last. */
  readonly later: Move | null;
}

export interface OrderedAfter extends Sequence {
  readonly text: string;
}

/** A button that puts one job before another; or why there is none. */
export type Move =
  | ({ readonly kind: 'can'; readonly text: string; readonly label: string } & Sequence)
  | { readonly kind: 'cannot'; readonly text: string };

interface OrderInput {
  readonly document: JobDocument;
  readonly standing: PlanStanding;
  readonly nowEpochMs: number;
  /** null: nothing was refused. */
  readonly refused: {
    readonly chosen: Sequence;
    readonly problems: readonly Problem[];
    readonly version: string;
  } | null;
}

export function orderPage({ document, standing, nowEpochMs, refused }: OrderInput): OrderPage {
  const { passage } = document;
  const times = timeTexts(passage.settings.shipTimeOffsetMin);
  const planned = standing.kind === 'ready' ? standing.view.plan.jobs : [];
  const jobs = inPlanOrder(openJobs(document, planned), planned);
  return {
    kind: 'order',
    name: passage.name,
    clock: documentClock(passage, nowEpochMs),
    version: refused?.version ?? versionText(document),
    rows: jobs.map((job, i) => ({
      jobId: job.id,
      text: job.name,
      href: `/jobs/${encodeURIComponent(job.id)}`,
      when: whenText(
        planned.find(({ jobId }) => jobId === job.id),
        standing,
        times,
      ),
      after: job.after.flatMap((firstId) => {
        const first = jobs.find(({ id }) => id === firstId);
        return first === undefined ? [] : [{ text: first.name, firstId, secondId: job.id }];
      }),
      earlier: moveOf(passage.jobs, { mover: job, passed: jobs[i - 1] }, 'earlier'),
      later: moveOf(passage.jobs, { mover: job, passed: jobs[i + 1] }, 'later'),
    })),
    choices: jobs.length < 2 ? [] : jobs.map(({ id, name }) => ({ jobId: id, text: name })),
    chosen: refused?.chosen ?? null,
    problems: refused?.problems ?? [],
  };
}

/** What is done needs no order any more. */
function openJobs({ file, passage }: JobDocument, planned: readonly PlannedJob[]): readonly Job[] {
  const doneIds = new Set([
    ...(file.jobs ?? []).filter(({ done }) => done === true).map(({ id }) => id),
    ...planned.filter(({ status }) => status === 'done').map(({ jobId }) => jobId),
  ]);
  return passage.jobs.filter(({ id }) => !doneIds.has(id));
}

/** By their starts; those without one stand last, as they are listed. */
function inPlanOrder(jobs: readonly Job[], planned: readonly PlannedJob[]): readonly Job[] {
  const startOf = (jobId: string): number => {
    const startUtc = planned.find((job) => job.jobId === jobId)?.startUtc ?? null;
    return startUtc === null ? Number.MAX_SAFE_INTEGER : epochOf(startUtc);
  };
  return jobs.toSorted((a, b) => startOf(a.id) - startOf(b.id));
}

function whenText(planned: PlannedJob | undefined, standing: PlanStanding, times: TimeTexts): string {
  if (standing.kind !== 'ready') return 'no plan yet';
  if (planned === undefined) return 'not in this plan yet';
  if (planned.startUtc === null || planned.endUtc === null) return 'not planned';
  const span = { fromEpochMs: epochOf(planned.startUtc), toEpochMs: epochOf(planned.endUtc) };
  return `${times.span(span, 'to')}${planned.status === 'conditional' ? ', conditional' : ''}`;
}

function moveOf(
  jobs: readonly Job[],
  { mover, passed }: { readonly mover: Job; readonly passed: Job | undefined },
  way: 'earlier' | 'later',
): Move | null {
  if (passed === undefined) return null;
  const pair = { firstId: mover.id, secondId: passed.id };
  const turned = { firstId: passed.id, secondId: mover.id };
  const wanted = way === 'earlier' ? pair : turned;
  const against = orderBetween(jobs, way === 'earlier' ? turned : pair);
  if (against !== null) {
    const text = way === 'earlier' ? `It is ordered after “${passed.name}”` : `“${passed.name}” is ordered after it`;
    return { kind: 'cannot', text: against.length === 2 ? `${text}.` : `${text}, by way of others.` };
  }
  const word = way === 'earlier' ? 'before' : 'after';
  return {
    kind: 'can',
    text: way === 'earlier' ? 'Earlier' : 'Later',
    label: `${way === 'earlier' ? 'Earlier' : 'Later'}: “${mover.name}” ${word} “${passed.name}”`,
    ...wanted,
  };
}
