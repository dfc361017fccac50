import type { Job, Step } from './job.ts';
import type { JobFile } from './job-file.ts';
import { OWN_FIGURE } from './provenance.ts';

/** Provenance of a job made from a library job: what the file gives itself is the user's own, unless it says whose. */
export function withOwn(base: Job, file: JobFile, steps: readonly Step[]): Job['provenance'] {
  const ofEveryStep = [...Object.keys(file.limits ?? {}), ...(file.session === undefined ? [] : ['session'])];
  const own = steps.flatMap(({ id }) => [
    ...ofEveryStep.map((key) => `${id}.${key}`),
    ...keysOfStep(file, id).map((key) => `${id}.${key}`),
  ]);
  return { ...base.provenance, ...Object.fromEntries(own.map((key) => [key, OWN_FIGURE])), ...file.provenance };
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
