import type { Job } from '../jobs/index.ts';
import type { JobState } from './job-state.ts';
import type { LogNote } from './log-note.ts';
import { minWords, utcWords } from './words.ts';

/** How far a job is, in a sentence. */
export function jobStateWords(state: JobState, job: Job): string {
  const { status, startedEpochMs, doneEpochMs, lastEpochMs } = state;
  if (status === 'not-begun') return `${job.name}: not begun.`;
  if (status === 'done') return `${job.name}: done${doneEpochMs === null ? '' : ` ${utcWords(doneEpochMs)}`}.`;
  const when =
    status === 'under-way'
      ? `under way${startedEpochMs === null ? '' : ` since ${utcWords(startedEpochMs)}`}`
      : `stopped${lastEpochMs === null ? '' : ` ${utcWords(lastEpochMs)}`}`;
  return `${job.name}: ${when}, ${fromWhere(state, job)}${workedWords(state)}.`;
}

/** The sentence as a note; null for a job of which the log says nothing. */
export function jobStateNote(state: JobState, jobs: readonly Job[]): LogNote | null {
  const job = jobs.find(({ id }) => id === state.jobId);
  if (job === undefined || state.lastEpochMs === null) return null;
  return { code: `log.job-${state.status}`, entryNumbers: [], text: jobStateWords(state, job) };
}

function fromWhere({ safePointStepId, finishedSteps }: JobState, { steps }: Job): string {
  const nameOf = (stepId: string): string => steps.find(({ id }) => id === stepId)?.name ?? stepId;
  const last = finishedSteps.at(-1);
  if (last === undefined) return 'no step finished';
  const finished = `${finishedSteps.length} of ${steps.length} steps finished`;
  return last.stepId === safePointStepId
    ? `${finished}, at the safe point after "${nameOf(last.stepId)}"`
    : `${finished}, the last "${nameOf(last.stepId)}"`;
}

function workedWords({ workedMin, doneMin }: JobState): string {
  if (workedMin === 0) return doneMin === 0 ? '' : `; ${minWords(doneMin)} of the next step count as worked`;
  if (doneMin === 0) return `; ${minWords(workedMin)} worked since are lost when it is left there`;
  return `; ${minWords(workedMin)} worked since, ${minWords(doneMin)} of it by the usual times`;
}
