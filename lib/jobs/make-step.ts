import { okUnless, type Result } from '../result/index.ts';
import { DEFAULT_SESSION } from './blocks.ts';
import type { SessionRule, Step, StepLimits } from './job.ts';
import type { LimitsFile, SessionFile, StepFile } from './job-file.ts';
import { STEP_DEFAULTS } from './library-job.ts';
import { missing } from './unknown-name.ts';

/**
 * A step of a passage file laid over the library step of its id, or over the defaults, where it must be complete.
 *
 * @returns the step, or `jobs.step-incomplete` for each thing that is missing
 */
export function makeStep(file: StepFile, base: Step | null, where: string): Result<Step> {
  const { limits, session, ...own } = file;
  const under: Omit<Step, 'name' | 'place' | 'work'> & Partial<Step> = base ?? { ...STEP_DEFAULTS, id: file.id };
  const { name, place, work, ...rest } = { ...under, ...own };
  const incomplete = (key: string, expected: string) => missing('jobs.step-incomplete', `${where}.${key}`, expected);
  const problems = [
    ...(name === undefined ? [incomplete('name', 'a name')] : []),
    ...(place === undefined ? [incomplete('place', 'the place on board')] : []),
    ...(work === undefined ? [incomplete('work', 'least, likely and most minutes')] : []),
    ...(base === null && limits === undefined
      ? [incomplete('limits', 'limits; {} where the step truly has none')]
      : []),
  ];
  return okUnless(problems, () => {
    if (name === undefined || place === undefined || work === undefined) throw new Error('a problem was lost');
    return {
      ...rest,
      name,
      place,
      work,
      limits: withLimits(under.limits, limits),
      session: session === undefined ? under.session : session && withSession(under.session, session),
    };
  });
}

/** Limits with those a file gives in their place. */
export const withLimits = (limits: StepLimits, own: LimitsFile | undefined): StepLimits => ({ ...limits, ...own });

/** A session rule with the figures a file gives in their place. */
export const withSession = (session: SessionRule | null, own: SessionFile): SessionRule => ({
  ...(session ?? DEFAULT_SESSION),
  ...own,
});
