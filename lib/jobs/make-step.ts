import { okUnless, type Problem, type Result } from '../result/index.ts';
import { rateMinutes } from '../stock/index.ts';
import { DEFAULT_SESSION } from './blocks.ts';
import type { SessionRule, Step, StepLimits, WorkMinutes, WorkRate } from './job.ts';
import type { LimitsFile, SessionFile, StepFile } from './job-file.ts';
import { STEP_DEFAULTS, WAIT_DEFAULTS } from './defaults.ts';
import { missing } from './unknown-name.ts';

/**
 * A step of a passage file laid over the library step of its id, or over the defaults, where it must be complete.
 *
 * @returns the step, or `jobs.step-incomplete` for each thing that is missing, `jobs.work-twice`
 */
export function makeStep(file: StepFile, base: Step | null, where: string): Result<Step> {
  const { limits, session, waitAfter, rate: rateFile, work: workFile, ...own } = file;
  const under: Omit<Step, 'name' | 'place' | 'work'> & Partial<Step> = base ?? { ...STEP_DEFAULTS, id: file.id };
  const { name, place, ...rest } = { ...under, ...own };
  const rate = rateOf(file, under);
  const work = workFile ?? (rateFile === undefined ? under.work : rate === null ? undefined : minutesAtRate(rate));
  const incomplete = (key: string, expected: string) => missing('jobs.step-incomplete', `${where}.${key}`, expected);
  const problems = [
    ...(name === undefined ? [incomplete('name', 'a name')] : []),
    ...(place === undefined ? [incomplete('place', 'the place on board')] : []),
    ...(work === undefined ? [incomplete('work', 'least, likely and most minutes, or a rate')] : []),
    ...(workFile !== undefined && rateFile !== undefined ? [workTwice(where)] : []),
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
      rate,
      limits: withLimits(under.limits, limits),
      session: session === undefined ? under.session : session && withSession(under.session, session),
      waitAfter: waitAfter === undefined ? under.waitAfter : waitAfter && { ...WAIT_DEFAULTS, ...waitAfter },
    };
  });
}

/** Minutes given outright take the place of a rate. */
function rateOf(file: StepFile, under: Pick<Step, 'rate'>): WorkRate | null {
  if (file.work !== undefined) return null;
  return file.rate === undefined ? under.rate : { ...file.rate, setUpMin: file.rate.setUpMin ?? 0 };
}

/** Minutes of an amount of work: the least at the fastest rate. */
export const minutesAtRate = (rate: WorkRate): WorkMinutes =>
  rateMinutes({
    amount: rate.amount,
    slowPerH: rate.slowestPerH,
    likelyPerH: rate.likelyPerH,
    fastPerH: rate.fastestPerH,
    setUpMin: rate.setUpMin,
  });

/** Limits with those a file gives in their place. */
export const withLimits = (limits: StepLimits, own: LimitsFile | undefined): StepLimits => ({ ...limits, ...own });

/** A session rule with the figures a file gives in their place. */
export const withSession = (session: SessionRule | null, own: SessionFile): SessionRule => ({
  ...(session ?? DEFAULT_SESSION),
  ...own,
});

const workTwice = (where: string): Problem => ({
  code: 'jobs.work-twice',
  where,
  what: 'It has both minutes and a rate.',
  expected: 'either work or rate',
  remedy: 'Take one of them out.',
});
