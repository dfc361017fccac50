import { stitchRate } from '../stock/index.ts';
import type { Job } from './job.ts';
import type { JobFile } from './job-file.ts';
import { saysSeam } from './job-seam.ts';
import { OWN_FIGURE } from './provenance.ts';

/**
 * Provenance of a job made from a library job: what the file gives itself is the user's own, unless it says whose; the
 * minutes of another seam are those of its cloth.
 */
export function withOwn(base: Job, file: JobFile, made: Pick<Job, 'steps' | 'seam'>): Job['provenance'] {
  const { steps, seam } = made;
  const ofSeam =
    seam === null || !saysSeam(file)
      ? {}
      : { [`${seam.stepId}.work`]: `stitch rate, ${stitchRate(seam.cloth).provenance}` };
  const ofEveryStep = [...Object.keys(file.limits ?? {}), ...(file.session === undefined ? [] : ['session'])];
  const own = steps.flatMap(({ id }) => [
    ...ofEveryStep.map((key) => `${id}.${key}`),
    ...keysOfStep(file, id).map((key) => `${id}.${key}`),
  ]);
  return {
    ...base.provenance,
    ...ofSeam,
    ...Object.fromEntries(own.map((key) => [key, OWN_FIGURE])),
    ...file.provenance,
  };
}

/** Keys of a step that a file gives itself; limits by their own names. */
function keysOfStep({ steps, minutes, amounts, waits }: JobFile, id: string): readonly string[] {
  const { limits, ...step } = steps?.find((one) => one.id === id) ?? {};
  const isWorkOwn = minutes?.[id] !== undefined || amounts?.[id] !== undefined || 'rate' in step;
  return [
    ...Object.keys(step).filter((key) => key !== 'id'),
    ...Object.keys(limits ?? {}),
    ...(isWorkOwn ? ['work'] : []),
    ...(waits?.[id] === undefined ? [] : ['waitAfter']),
  ];
}
