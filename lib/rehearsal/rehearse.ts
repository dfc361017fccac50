import type { EntryRehearsal, JobRehearsal, Rehearsal, RehearsalEntry, RehearsalSettings } from './rehearsal.ts';
import { type EntryDraws, OUTCOMES, runDraws } from './run-draws.ts';
import { shareSd, shareWhere, type Weighing, weighingOf, weightedSpread } from './weighing.ts';

/**
 * What becomes of a plan when its steps take as long as they take: once per draw, each draw with a scenario of its own.
 *
 * @param entries in the order of time
 */
export function rehearse(entries: readonly RehearsalEntry[], settings: RehearsalSettings): Rehearsal {
  return summed(entries, rehearseDraws(entries, settings), settings);
}

/** Which draws a job is done in. */
interface JobDraws {
  readonly jobId: string;
  readonly conditional: boolean;
  /** 1: done inside all limits. */
  readonly done: Uint8Array;
}

/** The same draw by draw, for counting. */
interface RehearsalDraws {
  readonly entries: readonly EntryDraws[];
  /** In the order of their first entries. */
  readonly jobs: readonly JobDraws[];
}

function rehearseDraws(entries: readonly RehearsalEntry[], settings: RehearsalSettings): RehearsalDraws {
  const draws = runDraws(entries, settings);
  const jobIds = [...new Set(entries.map(({ jobId }) => jobId))];
  const jobs = jobIds.map((jobId) => {
    const last = lastOfBlocks(entries, jobId).flatMap((k) => draws[k] ?? []);
    const conditional = entries.some((entry) => entry.jobId === jobId && entry.conditional);
    return { jobId, conditional, done: allDone(last, settings.weights.length) };
  });
  return { entries: draws, jobs };
}

/** A job is done when the last entry of each of its blocks is: what sessions before it left over was carried to it. */
function lastOfBlocks(entries: readonly RehearsalEntry[], jobId: string): number[] {
  const last = new Map<string, number>();
  for (const [k, entry] of entries.entries()) {
    if (entry.jobId === jobId) last.set(JSON.stringify(entry.steps.map(({ id }) => id)), k);
  }
  return [...last.values()];
}

const allDone = (entries: readonly EntryDraws[], drawCount: number): Uint8Array =>
  Uint8Array.from({ length: drawCount }, (_, w) =>
    entries.every(({ outcome }) => OUTCOMES[outcome[w] ?? 2] === 'done') ? 1 : 0,
  );

function summed(entries: readonly RehearsalEntry[], draws: RehearsalDraws, settings: RehearsalSettings): Rehearsal {
  const weighing = weighingOf(settings.weights, settings.memberIndex);
  const jobs = draws.jobs.map((job) => summedJob(job, { entries, draws, weighing }));
  const sure = draws.jobs.filter(({ conditional }) => !conditional);
  const isAllDone = (w: number): boolean => sure.every(({ done }) => done[w] === 1);
  return {
    drawCount: settings.weights.length,
    entries: entries.map((entry, k) => summedEntry(entry.jobId, draws.entries[k], weighing)),
    jobs,
    allDoneInsideLimitsProbability: sure.length === 0 ? null : shareWhere(weighing, isAllDone),
    allDoneInsideLimitsProbabilitySd: sure.length === 0 ? null : shareSd(weighing, isAllDone),
    expectedJobsDoneCount: jobs.reduce((sum, job) => sum + (job.conditional ? 0 : job.doneInsideLimitsProbability), 0),
  };
}

function summedEntry(jobId: string, draws: EntryDraws | undefined, weighing: Weighing): EntryRehearsal {
  if (draws === undefined) throw new Error('every entry is drawn');
  const share = (outcome: (typeof OUTCOMES)[number]): number =>
    shareWhere(weighing, (w) => OUTCOMES[draws.outcome[w] ?? 2] === outcome);
  return {
    jobId,
    doneInsideLimitsProbability: share('done'),
    interruptedProbability: share('interrupted'),
    notBegunProbability: share('not-begun'),
    lateProbability: shareWhere(weighing, (w) => draws.late[w] === 1),
    endMin: weightedSpread(weighing, draws.endMin),
  };
}

function summedJob(
  job: JobDraws,
  of: { readonly entries: readonly RehearsalEntry[]; readonly draws: RehearsalDraws; readonly weighing: Weighing },
): JobRehearsal {
  const { weighing } = of;
  const own = of.entries.flatMap((entry, k) => {
    const draws = of.draws.entries[k];
    return entry.jobId === job.jobId && draws !== undefined ? [{ entry, draws }] : [];
  });
  const isDone = (w: number): boolean => job.done[w] === 1;
  const endMin = Float64Array.from(job.done, (done, w) => (done === 1 ? latestMin(own, w) : Number.NaN));
  return {
    jobId: job.jobId,
    conditional: job.conditional,
    doneInsideLimitsProbability: shareWhere(weighing, isDone),
    doneInsideLimitsProbabilitySd: shareSd(weighing, isDone),
    coreInterruptedProbability: shareWhere(weighing, (w) =>
      own.some(({ entry, draws }) => entry.isCore && OUTCOMES[draws.outcome[w] ?? 2] === 'interrupted'),
    ),
    lateProbability: shareWhere(weighing, (w) => own.some(({ draws }) => draws.late[w] === 1)),
    endMin: weightedSpread(weighing, endMin),
  };
}

/** The end of a job that is done: of sessions broken off before the last nothing need be known. */
const latestMin = (entries: readonly { readonly draws: EntryDraws }[], w: number): number =>
  Math.max(...entries.map(({ draws }) => draws.endMin[w] ?? Number.NaN).filter((min) => !Number.isNaN(min)));
