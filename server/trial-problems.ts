import type { Problem } from '../lib/result/index.ts';
import type { Outdated } from './presenters/trial-standing.ts';

const WHERE = 'the trial plan';

/** A trial is compared with a plan that stands. */
export const noPlanToTryIn: Problem = {
  code: 'trial.no-plan',
  where: WHERE,
  what: 'There is no plan yet in which a start could be tried.',
  expected: 'a plan that has been made',
  remedy: 'Wait until the plan is there, or make it, and try again.',
};

export const planInTheMaking: Problem = {
  code: 'trial.plan-in-the-making',
  where: WHERE,
  what: 'A new plan is being made just now, so there is nothing yet to compare a trial with.',
  expected: 'the plan of the passage as it is now',
  remedy: 'Wait until the new plan is there, look whether this start is still wanted, and try again.',
};

export const planOfEarlierState: Problem = {
  code: 'trial.plan-outdated',
  where: WHERE,
  what: 'The plan that stands is of an earlier state of the passage or its log.',
  expected: 'the plan of the passage as it is now',
  remedy: 'Make the plan first, then try again.',
};

export const nothingToTry: Problem = {
  code: 'trial.nothing-to-try',
  where: WHERE,
  what: 'The job is locked to this start already.',
  expected: 'a start other than the one it is locked to',
  remedy: 'Look at another start, or take the lock off.',
};

/** The page was of a trial that is gone, or of one that was replaced. */
export const otherTrial: Problem = {
  code: 'trial.gone',
  where: WHERE,
  what: 'The trial of this page is not there any more: it was left, taken, or another one was begun.',
  expected: 'the trial that is there now',
  remedy: 'Look at the trial that is there now, or begin this one again from the windows.',
};

export const notFinished: Problem = {
  code: 'trial.not-finished',
  where: WHERE,
  what: 'The trial plan is not there yet.',
  expected: 'a finished trial',
  remedy: 'Wait until it is there.',
};

export const jobNotPlanned = (jobName: string): Problem => ({
  code: 'trial.job-not-planned',
  where: WHERE,
  what: `With this start “${jobName}” would not be planned at all.`,
  expected: 'a trial in which the job is planned',
  remedy: 'Leave this trial and look at another start.',
});

export const outdatedProblem = (outdated: Outdated): Problem => ({
  code: 'trial.outdated',
  where: WHERE,
  what: `This trial is of an earlier state: ${outdatedWords[outdated]}. Nothing of it was taken.`,
  expected: 'a trial of the passage, log and plan as they are now',
  remedy: 'Try the start again in the plan that stands now.',
});

/** Why a trial is not of now any more, as a clause. */
export const outdatedWords: Readonly<Record<Outdated, string>> = {
  passage: 'the passage was changed since it was begun',
  log: 'the log has gone on since it was begun',
  plan: 'another plan stands since it was begun',
  'start-passed': 'the start it tries has passed',
};

/** Only a job’s first part that is left can be fixed to a start. */
export const noSuchStart: Problem = {
  code: 'trial.no-such-start',
  where: WHERE,
  what: 'There is no such start to try: the job or part is not in the passage any more, is done, or comes after a part that is not done.',
  expected: 'the first part that is left of a job',
  remedy: 'Choose a start on the page of the windows.',
};
