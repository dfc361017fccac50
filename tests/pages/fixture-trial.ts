/** Invented plans with one start tried: what moves, what falls out, and a start the job does not get. */
import type { PlannedJob } from '../../lib/planner/index.ts';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import type { PassageView } from '../../server/deps.ts';
import { view } from './fixture-windows.ts';

/** The start that is tried: two hours later than the plan has it. */
export const TRIED_UTC = '2026-05-28T03:00Z';

const withJobs = (change: (job: PlannedJob) => PlannedJob, allDoneProbability: number): PassageView => ({
  ...view,
  plan: {
    ...view.plan,
    jobs: view.plan.jobs.map(change),
    totals: { ...view.plan.totals, allDoneProbability, allDoneProbabilitySd: 0.028 },
  },
  before: view.plan,
});

const notPlanned = (job: PlannedJob, text: string, reason: string): PlannedJob => ({
  ...job,
  status: 'unplanned',
  startUtc: null,
  endUtc: null,
  handling: null,
  probability: null,
  nearestMiss: {
    reason,
    startUtc: '2026-05-28T01:30Z',
    handling: 'run-off',
    probability: 0.81,
    bindingLimit: null,
    text,
    wouldHelp: 'Move the lock there, or take it off.',
  },
});

/** The mainsail comes down two hours later, and the bolt falls out for it. */
export const triedView: PassageView = withJobs((job) => {
  if (job.jobId === 'drop') return { ...job, startUtc: TRIED_UTC, endUtc: '2026-05-28T03:50Z', probability: 0.792 };
  if (job.jobId === 'bolt') return notPlanned(job, 'No two hours are left in which the sea allows it.', 'joint');
  return job;
}, 0.664);

/** The mainsail is not dropped at all: its limits allow no start then. */
export const missedView: PassageView = withJobs(
  (job) =>
    job.jobId === 'drop'
      ? notPlanned(
          job,
          'Its start is locked to Thu 28 May 15:00, and with all that is fixed about it its limits allow no start then; nearest Thu 28 May 13:30 under "Run off", 81 of 100, 1 h 30 min earlier.',
          'orders',
        )
      : job,
  0.7,
);

export const made = (of: PassageView): Result<PassageView> => ok(of);

export const broken: Result<PassageView> = failed({
  code: 'forecast.no-file',
  where: 'forecasts[0]',
  what: 'The forecast file is gone.',
  expected: 'a file that is there',
  remedy: 'Put it back.',
});
