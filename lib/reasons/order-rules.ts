/** Rules of order, gear and stores. */
import type { MaterialShort } from '../stock/index.ts';
import { MS_PER_MIN } from '../time/index.ts';
import type { Finding } from './finding.ts';
import { atLeast, atMost } from './finding.ts';

/** A job that has to be over before another starts. */
export interface Before {
  readonly jobId: string;
  /** The job that comes first. */
  readonly beforeId: string;
  readonly startEpochMs: number;
  /** null: it is not finished at all. */
  readonly finishedEpochMs: number | null;
  /** Soak, cure, drying after it. */
  readonly waitMin: number;
}

/**
 * What comes first is finished before this starts, and has had its wait.
 *
 * @returns `precedence` where it is not finished (in jobs) or finishes later (in minutes), else `wait` where the wait is
 *   asked for, else `precedence` met
 */
export function precedenceFinding(before: Before): Finding {
  const names = [before.beforeId];
  const common = { jobId: before.jobId, names, atEpochMs: before.startEpochMs };
  if (before.finishedEpochMs === null)
    return atLeast({ ...common, rule: 'precedence', observed: 0, required: 1, unit: 'jobs finished' });
  const observed = (before.startEpochMs - before.finishedEpochMs) / MS_PER_MIN;
  if (observed < 0 || before.waitMin === 0)
    return atLeast({ ...common, rule: 'precedence', observed, required: 0, unit: 'min' });
  return atLeast({ ...common, rule: 'wait', observed, required: before.waitMin, unit: 'min' });
}

/** A block that is finished is not worked again. */
export const twiceFinding = (of: { jobId: string; leftMin: number; startEpochMs: number }): Finding =>
  atLeast({
    rule: 'twice',
    jobId: of.jobId,
    observed: of.leftMin > 0 ? 1 : 0,
    required: 1,
    unit: 'blocks left',
    atEpochMs: of.startEpochMs,
  });

/** The job can be worked with what is set. `allowedIds` empty: in any state. */
export const sailStateFinding = (of: {
  jobId: string;
  sailStateId: string;
  allowedIds: readonly string[];
  startEpochMs: number;
}): Finding =>
  yesOrNo('sail-state', of, of.allowedIds.length === 0 || of.allowedIds.includes(of.sailStateId), [
    of.sailStateId,
    ...of.allowedIds,
  ]);

/** The job may be worked under the handling. */
export const handlingFinding = (of: {
  jobId: string;
  handlingId: string;
  allowedIds: readonly string[];
  startEpochMs: number;
}): Finding => yesOrNo('handling', of, of.allowedIds.includes(of.handlingId), [of.handlingId, ...of.allowedIds]);

/** The handling exists with what is set; names: the sail state, then those it exists in. */
export const handlingStateFinding = (of: {
  jobId: string;
  sailStateId: string;
  handling: { readonly sailStates: readonly string[] };
  startEpochMs: number;
}): Finding =>
  yesOrNo('sail-state', of, of.handling.sailStates.includes(of.sailStateId), [
    of.sailStateId,
    ...of.handling.sailStates,
  ]);

/** A handling the skipper has fixed stays; names: the handling chosen, then the fixed one. */
export const lockHandlingFinding = (of: {
  jobId: string;
  handlingId: string;
  lockedId: string;
  startEpochMs: number;
}): Finding => yesOrNo('lock-handling', of, of.handlingId === of.lockedId, [of.handlingId, of.lockedId]);

function yesOrNo(
  rule: Finding['rule'],
  of: { jobId: string; startEpochMs: number },
  holds: boolean,
  names: readonly string[],
): Finding {
  const observed = holds ? 1 : 0;
  return atLeast({ rule, jobId: of.jobId, observed, required: 1, unit: 'yes/no', atEpochMs: of.startEpochMs, names });
}

/** What the locker lacks for a job, an item each. */
export const materialFindings = (jobId: string, shorts: readonly MaterialShort[]): Finding[] =>
  shorts.map(({ item, unit, availableAmount, neededAmount }) =>
    atLeast({ rule: 'materials', jobId, observed: availableAmount, required: neededAmount, unit, names: [item] }),
  );

/** The weather holds for the job with the wanted probability. */
export const probabilityFinding = (of: {
  jobId: string;
  probability: number;
  wantedProbability: number;
  atEpochMs: number;
}): Finding =>
  atLeast({
    rule: 'wanted-probability',
    jobId: of.jobId,
    observed: of.probability,
    required: of.wantedProbability,
    unit: 'share',
    atEpochMs: of.atEpochMs,
  });

/** What a change of one job leaves of the probability that all planned jobs hold together. */
export const jointFinding = (of: {
  jobId: string;
  jointProbability: number;
  insteadOfProbability: number;
  atEpochMs: number;
}): Finding =>
  atLeast({
    rule: 'joint',
    jobId: of.jobId,
    observed: of.jointProbability,
    required: of.insteadOfProbability,
    unit: 'share',
    atEpochMs: of.atEpochMs,
  });

/** Nothing stands against it, but it costs more exposure, distance or sleep, in points of the plan's cost. */
export const costFinding = (of: {
  jobId: string;
  costPoints: number;
  insteadOfPoints: number;
  atEpochMs: number;
}): Finding =>
  atMost({
    rule: 'cost',
    jobId: of.jobId,
    observed: of.costPoints,
    required: of.insteadOfPoints,
    unit: 'points',
    atEpochMs: of.atEpochMs,
  });
