/**
 * The linear model solved by HiGHS (npm `highs`), against enumeration where all plans can be tried, and the engine against it
 * where they cannot. `scripts/compare-highs.ts` does the same on problems of full size.
 */
import { describe, expect, it } from 'vitest';
import { DEFAULT_SCHEDULE_SETTINGS, type ScheduleProblem } from '../../../lib/schedule/index.ts';
import { compareCase, verdictOf } from '../../../scripts/compare-highs/compare-case.ts';
import { fixedPlaceModel } from '../../../scripts/compare-highs/fixed-place-model.ts';
import { solveWithHighs } from '../../../scripts/compare-highs/solve-with-highs.ts';
import type { InstanceSpec } from '../../../scripts/schedule-instances/instance-spec.ts';
import { makeInstance } from '../../../scripts/schedule-instances/make-instance.ts';
import { makeSmallInstance } from '../../../scripts/schedule-instances/small-instance.ts';
import { IS_LONG_RUN } from '../../long-run.ts';
import { enumerateSchedule } from './enumerate.ts';

const SPEC: InstanceSpec = {
  seed: 1,
  family: 'random',
  hourCount: 8,
  slotMin: 30,
  taskCount: 3,
  memberCount: 10,
  lagCount: 1,
  isTiring: false,
  limitRatio: 0.85,
};
const LIMIT_S = 60;
/** For a machine that is busy with other things. */
const PATIENCE_MS = 120_000;

/** Tired enough at the start that sleep must be fitted in. */
const tired = (problem: ScheduleProblem, startS: number): ScheduleProblem =>
  problem.rest === null ? problem : { ...problem, rest: { ...problem.rest, startS } };

/** Drop, inspect and stitch alone: sessions, and one that may only finish. */
function firstThree(problem: ScheduleProblem): ScheduleProblem {
  return { ...problem, tasks: problem.tasks.slice(0, 3), jobs: problem.jobs.slice(0, 3) };
}

describe('the linear model and enumeration', () => {
  it.each(IS_LONG_RUN ? [1, 7, 13] : [1, 13])(
    'seed %i, no fatigue: the same worth',
    async (seed) => {
      const problem = makeInstance({ ...SPEC, seed });
      expect((await solveWithHighs(problem, LIMIT_S)).worth).toEqual(enumerateSchedule(problem).worth);
    },
    PATIENCE_MS,
  );
  it.each([[10, 9.8] as const, [16, 9.8] as const, ...(IS_LONG_RUN ? [[14, 10] as const] : [])])(
    'seed %i, fatigue from S %f: the same worth',
    async (seed, startS) => {
      const problem = tired(makeInstance({ ...SPEC, seed, isTiring: true, hourCount: 6 }), startS);
      expect((await solveWithHighs(problem, LIMIT_S)).worth).toEqual(enumerateSchedule(problem).worth);
    },
    PATIENCE_MS,
  );
  it.each([4, 6])(
    'seed %i, sessions of stitching: the same worth',
    async (seed) => {
      const problem = firstThree(makeInstance({ ...SPEC, seed, family: 'repair', hourCount: 7, limitRatio: 0.95 }));
      expect((await solveWithHighs(problem, LIMIT_S)).worth).toEqual(enumerateSchedule(problem).worth);
    },
    PATIENCE_MS,
  );
});

describe('the engine and the linear model', () => {
  it.each<InstanceSpec>([
    { ...SPEC, hourCount: 18, taskCount: 5, memberCount: 20, limitRatio: 0.8 },
    { ...SPEC, hourCount: 18, taskCount: 5, memberCount: 20, limitRatio: 0.9, seed: 4 },
    { ...SPEC, hourCount: 18, taskCount: 4, isTiring: true, seed: 3 },
    { ...SPEC, hourCount: 18, taskCount: 4, isTiring: true, seed: 4 },
  ])(
    '$hourCount h, $taskCount tasks, fatigue $isTiring, seed $seed: the same worth, proven by both',
    async (spec) => {
      const limits = { limitS: LIMIT_S, settings: DEFAULT_SCHEDULE_SETTINGS, clock: () => performance.now() };
      const { verdict, highs, ours } = await compareCase('', makeInstance(spec), limits);
      expect({ verdict, theirs: highs.isOptimal, ours: ours.isProven }).toEqual({
        verdict: 'equal',
        theirs: true,
        ours: true,
      });
    },
    PATIENCE_MS,
  );
});

describe('the comparison itself', () => {
  const answer = { status: '', elapsedMs: 1, binaryCount: 1, rowCount: 1 };
  const worth = { priorityWeight: 3, jointWeight: 20, conditionalWeight: 0, costPoints: 50 };

  it('our worth below the plan of HiGHS on the last level: worse', () => {
    const dearer = { ...worth, costPoints: 51 };
    expect(verdictOf(dearer, { ...answer, isOptimal: false, worth })).toBe('ours worse');
    expect(verdictOf(dearer, { ...answer, isOptimal: true, worth })).toBe('ours differs from the optimum');
  });
  it('our worth above a proven optimum: differs', () => {
    const better = { ...worth, jointWeight: 21, costPoints: 90 };
    expect(verdictOf(better, { ...answer, isOptimal: true, worth })).toBe('ours differs from the optimum');
    expect(verdictOf(better, { ...answer, isOptimal: false, worth })).toBe('ours better');
  });
  it('a problem with lags: refused by name', () => {
    const lagged = makeInstance({ ...SPEC, lagCount: 3, family: 'repair' });
    expect(() => fixedPlaceModel(lagged)).toThrow('lags; configs');
  });
  it('a small problem with conditional jobs: refused by name', () => {
    const found = Array.from({ length: 50 }, (_, i) => makeSmallInstance(i + 1)).find(
      ({ features }) => features.hasConditional,
    );
    if (found === undefined) throw new Error('no such instance');
    expect(() => fixedPlaceModel(found.problem)).toThrow('conditional jobs');
  });
});
