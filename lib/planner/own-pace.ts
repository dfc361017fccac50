import type { Job } from '../jobs/index.ts';
import type { Passage } from '../passage/index.ts';
import { paceText, workKindOf, workPaceText, type Watchkeeper, type WorkKind } from '../person/index.ts';
import type { TableSettings } from '../windows/index.ts';

/** The kind of work of a step of a job; null: the job has no such step. */
export function stepWorkKind(job: Pick<Job, 'group' | 'seam' | 'steps'>, stepId: string): WorkKind | null {
  const step = job.steps.find(({ id }) => id === stepId);
  return step === undefined ? null : workKindOf(step, { group: job.group, isSeam: job.seam?.stepId === stepId });
}

/** The watchkeeper's own pace at each step of the passage: that of its kind of work, else the usual one. */
export function ownPaceRatios({
  jobs,
  watchkeeper,
}: Pick<Passage, 'jobs' | 'watchkeeper'>): TableSettings['ownPaceRatioOf'] {
  const { paceRatio, paceByWork } = watchkeeper;
  if (paceByWork === undefined) return () => paceRatio;
  const byStep = new Map<string, number>();
  for (const job of jobs) {
    for (const { id } of job.steps) {
      const kind = stepWorkKind(job, id);
      byStep.set(keyOf(job.id, id), (kind === null ? undefined : paceByWork[kind]?.ratio) ?? paceRatio);
    }
  }
  return (jobId, stepId) => byStep.get(keyOf(jobId, stepId)) ?? paceRatio;
}

const keyOf = (jobId: string, stepId: string): string => JSON.stringify([jobId, stepId]);

/** `your factor 1.4 (n = 5), sewing`, of every kind of work among the steps; `your pace 1.2` where none is known. */
export function ownPaceText(
  job: Pick<Job, 'group' | 'seam' | 'steps'>,
  stepIds: readonly string[],
  of: Watchkeeper,
): string {
  const kinds = new Set(stepIds.map((stepId) => stepWorkKind(job, stepId)));
  const texts = [...kinds].map((kind) => {
    const pace = kind === null ? undefined : of.paceByWork?.[kind];
    return kind === null || pace === undefined ? `your pace ${paceText(of.paceRatio)}` : workPaceText(kind, pace);
  });
  return [...new Set(texts)].join('; ');
}
