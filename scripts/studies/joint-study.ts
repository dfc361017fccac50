/** Planning jointly against planning job by job, on the same passages and the same fresh draws. */
import type { Passage } from '../../lib/passage/index.ts';
import { drawPassage, START_H, type PassageKind } from './passage.ts';
import { bestPartThatHolds } from './part-that-holds.ts';
import {
  bestWindows,
  firstFair,
  jointPlan,
  jointOf,
  prepared,
  type Preparation,
  reportedOn,
  type ReportingWeather,
  type SolveSettings,
  type StudyJobOutcome,
  type StudyPlan,
} from './planner.ts';
import { mean, type MeanDifference, pairedDifference } from './statistics.ts';
import { drawForecast, drawScenarios } from './weather.ts';

/** The planner; two ways to read a list of windows; and what of those plans holds together as wanted. */
export const WAYS = [
  'joint',
  'first fair',
  'best window',
  'first fair, what holds',
  'best window, what holds',
] as const;
export type Way = (typeof WAYS)[number];
const OTHER_WAYS = ['first fair', 'best window', 'first fair, what holds', 'best window, what holds'] as const;

/** What one plan of one passage is worth on draws it was not made on. */
export interface PlanWorth {
  readonly jobsPlannedCount: number;
  /** Chance that every job of the passage is done inside its limits; 0 where the plan leaves one out. */
  readonly everyJobProbability: number;
  /** Chance that all jobs the plan holds are; 1 where it holds none, and then left out of means. */
  readonly heldJointProbability: number;
  readonly expectedJobsCount: number;
  readonly expectedPriorityWeight: number;
  /** Priority weight of what the plan holds where its joint probability is as wanted (or two points short), else 0. */
  readonly keptPriorityWeight: number;
}

export interface JointRow {
  readonly seed: number;
  readonly jobCount: number;
  readonly worth: Readonly<Record<Way, PlanWorth>>;
}

/** Four to six jobs in 30, 36 or 42 hours. */
const kindFor = (seed: number): PassageKind => ({
  jobCount: { least: 4, most: 6 },
  horizonH: 30 + 6 * (seed % 3),
  slotMin: 30,
  wantedProbability: 0.8,
});

export interface JointSettings {
  readonly memberCount: number;
  /** Draws a plan is chosen on at last, and as many others it is judged on. */
  readonly reportingCount: number;
  readonly solve: SolveSettings;
  /** Kind of passage; default: see `kindFor`. */
  readonly kind?: PassageKind;
}

/** Room behind the horizon for reference periods. */
const ROOM_H = 10;

export function jointRow(seed: number, settings: JointSettings): JointRow {
  const kind = settings.kind ?? kindFor(seed);
  const passage = drawPassage(seed, kind);
  const { memberCount, reportingCount } = settings;
  const forecast = drawForecast(seed * 8191, { lengthH: START_H + kind.horizonH + ROOM_H, memberCount });
  const preparation = prepared(passage, drawScenarios(forecast, seed * 8191 + 1, memberCount));
  const reporting = drawScenarios(forecast, seed * 8191 + 2, reportingCount);
  const judging = drawScenarios(forecast, seed * 8191 + 3, reportingCount);
  const worth = worthOfWays(preparation, { reporting, judging }, settings.solve);
  return { seed, jobCount: passage.jobs.length, worth };
}

/** Fresh draws twice: a planner may look at the first, nobody at the second. */
export interface StudyWeather {
  readonly reporting: ReportingWeather;
  readonly judging: ReportingWeather;
}

export function worthOfWays(preparation: Preparation, weather: StudyWeather, solve: SolveSettings): JointRow['worth'] {
  const { reporting, judging } = weather;
  const { passage } = preparation;
  const judged = (plan: StudyPlan): readonly StudyJobOutcome[] => reportedOn(preparation, plan, judging).jobs;
  const whole = (jobs: readonly StudyJobOutcome[]): PlanWorth => worthOf(passage, jobs, judging);
  const part = (plan: StudyPlan, jobs: readonly StudyJobOutcome[]): PlanWorth => {
    const kept = bestPartThatHolds(passage, { jobs: plan.jobs, weights: reporting.weights });
    return whole(jobs.filter(({ jobId }) => kept.has(jobId)));
  };
  const first = firstFair(preparation, reporting);
  const best = bestWindows(preparation, reporting);
  const [firstJudged, bestJudged] = [judged(first), judged(best)];
  return {
    joint: whole(judged(jointPlan(preparation, reporting, solve))),
    'first fair': whole(firstJudged),
    'best window': whole(bestJudged),
    'first fair, what holds': part(first, firstJudged),
    'best window, what holds': part(best, bestJudged),
  };
}

/** A probability found on other draws may be so much lower by chance alone. */
const BY_CHANCE = 0.02;

function worthOf(passage: Passage, jobs: readonly StudyJobOutcome[], { weights }: ReportingWeather): PlanWorth {
  const heldJointProbability = jointOf(jobs, weights);
  const weight = jobs.reduce((sum, job) => sum + job.priorityWeight, 0);
  return {
    jobsPlannedCount: jobs.length,
    everyJobProbability: jobs.length === passage.jobs.length ? heldJointProbability : 0,
    heldJointProbability,
    expectedJobsCount: jobs.reduce((sum, job) => sum + job.probability, 0),
    expectedPriorityWeight: jobs.reduce((sum, job) => sum + job.probability * job.priorityWeight, 0),
    keptPriorityWeight: heldJointProbability >= passage.settings.wantedProbability - BY_CHANCE ? weight : 0,
  };
}

const MEASURES = [
  ['jobsPlannedCount', 'jobs planned'],
  ['everyJobProbability', 'chance that every job is done'],
  ['heldJointProbability', 'chance that all planned are'],
  ['expectedJobsCount', 'jobs done, expected'],
  ['expectedPriorityWeight', 'priority weight done, expected'],
  ['keptPriorityWeight', 'priority weight promised and kept'],
] as const;

export interface JointSummary {
  readonly passageCount: number;
  readonly measures: readonly {
    readonly measure: (typeof MEASURES)[number][0];
    readonly words: string;
    readonly jointMean: number;
    /** The other ways, and the planner less each. */
    readonly others: readonly { readonly way: Way; readonly mean: number; readonly jointLess: MeanDifference }[];
  }[];
}

export function summaryOf(rows: readonly JointRow[], seed: number): JointSummary {
  return {
    passageCount: rows.length,
    measures: MEASURES.map(([measure, words]) => {
      const counted = measure === 'heldJointProbability' ? rows.filter(holdsSome) : rows;
      const of = (way: Way): number[] => counted.map((row) => row.worth[way][measure]);
      const others = OTHER_WAYS.map((way) => {
        const pairs = counted.map((row) => [row.worth.joint[measure], row.worth[way][measure]] as const);
        return { way, mean: mean(of(way)), jointLess: pairedDifference(pairs, seed) };
      });
      return { measure, words, jointMean: mean(of('joint')), others };
    }),
  };
}

/** Every way holds some job. */
const holdsSome = ({ worth }: JointRow): boolean => WAYS.every((way) => worth[way].jobsPlannedCount > 0);

/** The summary as lines of text. */
export function summaryLines(summary: JointSummary): string[] {
  const figure = (value: number): string => value.toFixed(3).padStart(8);
  const difference = ({ mean: middle, low, high, betterCount, worseCount, count }: MeanDifference): string =>
    `${figure(middle)} [${low.toFixed(3)}, ${high.toFixed(3)}], better in ${betterCount}, worse in ${worseCount} of ${count}`;
  return [
    `${summary.passageCount} passages; differences: joint less the other, mean and 95 % interval`,
    ...summary.measures.flatMap(({ words, jointMean, others }) => [
      words,
      `  ${'joint'.padEnd(NAME_WIDTH)}${figure(jointMean)}`,
      ...others.map(
        ({ way, mean: middle, jointLess }) => `  ${way.padEnd(NAME_WIDTH)}${figure(middle)}  ${difference(jointLess)}`,
      ),
    ]),
  ];
}

const NAME_WIDTH = Math.max(...WAYS.map((way) => way.length));
