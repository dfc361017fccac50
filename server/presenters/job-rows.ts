import type { Plan, PlannedJob } from '../../lib/planner/index.ts';
import { of100 } from './amount-texts.ts';
import { joined, limitName, roomTexts } from './limit-texts.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';

export interface JobRow {
  readonly jobId: string;
  readonly href: string;
  readonly isChosen: boolean;
  readonly status: PlannedJob['status'];
  readonly name: string;
  readonly start: string;
  readonly of100: string;
  /** `conditional on rain`; empty for plainly planned jobs. */
  readonly note: string;
  readonly room: string;
  readonly binds: string;
  readonly ifNot: string;
}

/** Address of the passage page with a job chosen. */
export const jobHref = (jobId: string): string => `/?job=${encodeURIComponent(jobId)}`;

/** Jobs by planned start, unplanned ones last. */
export function jobRows(plan: Plan, chosenJobId: string | null, times: TimeTexts): JobRow[] {
  const startOf = (job: PlannedJob): number => (job.startUtc === null ? Number.MAX_VALUE : epochOf(job.startUtc));
  return plan.jobs
    .toSorted((a, b) => startOf(a) - startOf(b))
    .map((job) => ({
      jobId: job.jobId,
      href: jobHref(job.jobId),
      isChosen: job.jobId === chosenJobId,
      status: job.status,
      name: job.name,
      ...(job.startUtc === null ? unplacedTexts(job, times) : placedTexts(job, times)),
    }));
}

type RowTexts = Pick<JobRow, 'start' | 'of100' | 'note' | 'room' | 'binds' | 'ifNot'>;

function placedTexts(job: PlannedJob, times: TimeTexts): RowTexts {
  const room = job.bindingLimit === null ? null : roomTexts(job.bindingLimit, times);
  const fallback = job.fallback;
  return {
    start: job.startUtc === null ? '' : times.dayTime(epochOf(job.startUtc)),
    of100: job.probability === null ? 'unknown' : String(of100(job.probability)),
    note: job.status === 'conditional' ? `conditional: ${joined(job.unknownLimits.map(limitName))} unknown` : '',
    room: room?.room ?? 'no limit near',
    binds: room?.binds ?? 'nothing near',
    ifNot:
      fallback === null
        ? 'none in this forecast'
        : `${times.dayTime(epochOf(fallback.startUtc))}, ${of100(fallback.probability)} of 100`,
  };
}

function unplacedTexts(job: PlannedJob, times: TimeTexts): RowTexts {
  if (job.status === 'done') return { start: 'done', of100: '', note: '', room: '', binds: '', ifNot: '' };
  const miss = job.nearestMiss;
  const room = miss === null || miss.bindingLimit === null ? null : roomTexts(miss.bindingLimit, times);
  return {
    start: 'not planned',
    of100: 'none',
    note: '',
    room: room?.room ?? miss?.reason.replaceAll('-', ' ') ?? 'unknown',
    binds: room?.binds ?? '',
    ifNot: miss === null ? 'none in this forecast' : miss.text,
  };
}
