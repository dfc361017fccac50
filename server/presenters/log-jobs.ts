import type { Job } from '../../lib/jobs/index.ts';
import { type JobState, jobStates, type NumberedEntry } from '../../lib/log/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { newHref } from './log-entry-page.ts';
import type { PlanStanding } from './plan-standing.ts';
import { durationText, epochOf, type TimeTexts, timeTexts } from './time-texts.ts';

/** A job with the buttons that log what becomes of it now. */
export interface LogJobView {
  readonly id: string;
  readonly name: string;
  /** How far it is, or when it is planned. */
  readonly state: string;
  readonly taps: readonly { readonly event: string; readonly text: string }[];
  /** The form with time, minutes and step. */
  readonly formHref: string;
}

export interface LogJobs {
  /** Under way, stopped, and the next of the plan. */
  readonly near: readonly LogJobView[];
  readonly others: readonly LogJobView[];
  /** `Drop the mainsail (Thu 08:12)`, in order. */
  readonly done: readonly string[];
}

/** So many jobs of the plan that are not begun stand beside those that are. */
const NEXT_COUNT = 2;

const TAPS: Readonly<Record<JobState['status'], LogJobView['taps']>> = {
  'not-begun': [{ event: 'started', text: 'Started' }],
  'under-way': [
    { event: 'safe-point', text: 'Safe point' },
    { event: 'stopped', text: 'Stopped' },
    { event: 'done', text: 'Done' },
  ],
  stopped: [
    { event: 'started', text: 'Taken up again' },
    { event: 'done', text: 'Done' },
  ],
  done: [],
};

/** The jobs of a passage as its log and its plan have them. */
export function logJobs(passage: Passage, entries: readonly NumberedEntry[], standing: PlanStanding): LogJobs {
  const times = timeTexts(passage.settings.shipTimeOffsetMin);
  const states = jobStates(entries, passage.jobs, {
    orders: passage.orders.jobs,
    paceRatioOf: () => passage.watchkeeper.paceRatio,
  });
  const starts = plannedStarts(standing);
  const pairs = states.flatMap((state) => {
    const job = passage.jobs.find(({ id }) => id === state.jobId);
    return job === undefined ? [] : [{ job, state, startEpochMs: starts.get(job.id) ?? null }];
  });
  const open = pairs.filter(({ state }) => state.status !== 'done');
  const begun = open.filter(({ state }) => state.status !== 'not-begun');
  const waiting = open
    .filter(({ state }) => state.status === 'not-begun')
    .toSorted((a, b) => (a.startEpochMs ?? Infinity) - (b.startEpochMs ?? Infinity));
  const isNext = ({ startEpochMs }: (typeof waiting)[number], index: number): boolean =>
    index < NEXT_COUNT && (startEpochMs !== null || begun.length === 0);
  const view = (pair: (typeof pairs)[number]): LogJobView => ({
    id: pair.job.id,
    name: pair.job.name,
    state: stateText(pair, times),
    taps: TAPS[pair.state.status],
    formHref: newHref('job', pair.job),
  });
  return {
    near: [...begun, ...waiting.filter(isNext)].map(view),
    others: waiting.filter((pair, index) => !isNext(pair, index)).map(view),
    done: pairs
      .filter(({ state }) => state.status === 'done')
      .map(
        ({ job, state }) => `${job.name}${state.doneEpochMs === null ? '' : ` (${times.dayTime(state.doneEpochMs)})`}`,
      ),
  };
}

const plannedStarts = (standing: PlanStanding): ReadonlyMap<string, number> =>
  new Map(
    standing.kind === 'ready'
      ? standing.view.plan.jobs.flatMap(({ jobId, startUtc }): [string, number][] =>
          startUtc === null ? [] : [[jobId, epochOf(startUtc)]],
        )
      : [],
  );

interface Pair {
  readonly job: Job;
  readonly state: JobState;
  readonly startEpochMs: number | null;
}

function stateText({ job, state, startEpochMs }: Pair, times: TimeTexts): string {
  const { status, startedEpochMs, lastEpochMs, workedMin } = state;
  if (status === 'not-begun') return startEpochMs === null ? 'not planned' : `planned ${times.dayTime(startEpochMs)}`;
  const when =
    status === 'under-way'
      ? `under way${startedEpochMs === null ? '' : ` since ${times.dayTime(startedEpochMs)}`}`
      : `stopped${lastEpochMs === null ? '' : ` ${times.dayTime(lastEpochMs)}`}`;
  const worked = workedMin === 0 ? '' : `; ${durationText(workedMin)} worked since`;
  return `${when}, ${fromWhere(state, job)}${worked}`;
}

function fromWhere({ finishedSteps, safePointStepId }: JobState, { steps }: Job): string {
  if (finishedSteps.length === 0) return 'no step finished';
  const count = `${finishedSteps.length} of ${steps.length} steps finished`;
  if (safePointStepId === null) return `${count}, no safe point yet`;
  return `${count}, safe point after “${steps.find(({ id }) => id === safePointStepId)?.name ?? safePointStepId}”`;
}
