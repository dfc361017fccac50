import { describe, expect, test } from 'vitest';
import type { Job } from '../../lib/jobs/index.ts';
import { place } from '../../lib/planner/place.ts';
import { prepare, problemOf } from '../../lib/planner/prepare.ts';
import type { PlanningProblem } from '../../lib/planner/problem.ts';
import type { Score } from '../../lib/planner/score.ts';
import { compareScores, scoreOf } from '../../lib/planner/score.ts';
import type { PlanState } from '../../lib/planner/state.ts';
import { startOfPlan } from '../../lib/planner/state.ts';
import type { LittleWeather } from './little-world.ts';
import {
  BASE_EPOCH_MS,
  littleJob,
  littlePassage,
  littleStep,
  littleWeather,
  onlyNoGo,
  withBoatSpeed,
} from './little-world.ts';

const score = (part: Partial<Score>): Score => ({
  priorityWeight: 5,
  jointStepCount: 40,
  conditionalPriorityWeight: 3,
  costPoints: 100,
  endSlot: 50,
  ...part,
});

describe('comparison of plans: one level after the other, never added up', () => {
  test.each([
    {
      name: 'priority of what is surely done before joint probability',
      better: { priorityWeight: 6, jointStepCount: 1 },
      worse: { jointStepCount: 50 },
    },
    {
      name: 'joint probability before conditional jobs',
      better: { jointStepCount: 41, conditionalPriorityWeight: 0 },
      worse: { conditionalPriorityWeight: 9 },
    },
    {
      name: 'conditional jobs before cost',
      better: { conditionalPriorityWeight: 4, costPoints: 9999 },
      worse: { costPoints: 0 },
    },
    { name: 'cost before the end', better: { costPoints: 99, endSlot: 500 }, worse: { endSlot: 1 } },
    { name: 'the earlier end last', better: { endSlot: 49 }, worse: {} },
  ])('$name', ({ better, worse }) => {
    expect(compareScores(score(better), score(worse))).toBeLessThan(0);
    expect(compareScores(score(worse), score(better))).toBeGreaterThan(0);
  });

  test('equal plans are equal', () => expect(compareScores(score({}), score({}))).toBe(0));
});

/** Ten scenarios of like weight; in the first `count` it is calm. */
const calmIn = (count: number): LittleWeather[] =>
  Array.from({ length: 10 }, (_, w) => ({ windKn: () => (w < count ? 8 : 30), seaHeightM: () => 1 }));

function problemFor(
  jobs: readonly Job[],
  scenarios: readonly LittleWeather[],
  wantedProbability = 0.5,
): PlanningProblem {
  const passage = withBoatSpeed(littlePassage(jobs, { wantedProbability }), 0);
  return problemOf(prepare(passage, littleWeather(scenarios, 60), BASE_EPOCH_MS + 12 * 3_600_000), 1);
}

function after(
  problem: PlanningProblem,
  ...starts: readonly (readonly [unit: number, startSlot: number])[]
): PlanState {
  return starts.reduce((state, [unit, startSlot]) => {
    const placement = place(problem, state, { unit, handling: 0, startSlot });
    if (!placement.ok) throw new Error(placement.refusal);
    return placement.state;
  }, startOfPlan(problem));
}

const limited = (id: string, priorityWeight: number) =>
  littleJob(id, [littleStep(id, 60, { deckWindKn: onlyNoGo(12) })], { priorityWeight });

describe('worth of a plan', () => {
  test('the priority of jobs done, when they hold together as often as wanted', () => {
    const problem = problemFor([limited('a', 5), limited('b', 3)], calmIn(8));
    expect(scoreOf(problem, after(problem, [0, 0]))).toMatchObject({ priorityWeight: 5, jointStepCount: 40 });
    expect(scoreOf(problem, after(problem, [0, 0], [1, 6]))).toMatchObject({ priorityWeight: 8, jointStepCount: 40 });
  });

  test('nothing when they do not', () => {
    const problem = problemFor([limited('a', 5)], calmIn(4));
    expect(scoreOf(problem, after(problem, [0, 0]))).toMatchObject({ priorityWeight: 0, jointStepCount: -1 });
  });

  test('joint probability counts in steps of two points, rounded down', () => {
    const weights = (share: number) => Int32Array.of(share, 1_000_000 - share);
    const steps = (share: number): number => {
      const scenarios = [calmIn(1)[0], calmIn(0)[0]].filter((scenario) => scenario !== undefined);
      const passage = withBoatSpeed(littlePassage([limited('a', 5)], { wantedProbability: 0.5 }), 0);
      const problem = problemOf(
        prepare(passage, littleWeather(scenarios, 60, { weights: weights(share) }), BASE_EPOCH_MS + 12 * 3_600_000),
        1,
      );
      return scoreOf(problem, after(problem, [0, 0])).jointStepCount;
    };
    expect([steps(800_000), steps(819_999), steps(820_000)]).toEqual([40, 40, 41]);
  });

  test('a conditional job counts on its own level and takes nothing from the joint probability', () => {
    const unknownSea = calmIn(8).map((scenario) => ({ ...scenario, seaHeightM: () => Number.NaN }));
    const sea = littleJob('sea', [littleStep('sea', 60, { seaHeightM: onlyNoGo(2), deckWindKn: onlyNoGo(12) })], {
      priorityWeight: 7,
    });
    const problem = problemFor([sea], unknownSea);
    expect(scoreOf(problem, after(problem, [0, 0]))).toMatchObject({
      priorityWeight: 0,
      jointStepCount: 50,
      conditionalPriorityWeight: 7,
    });
  });

  test('costs more aloft than on deck, more in the dark than by day, and more sleep missed', () => {
    const on = (where: 'below' | 'deck' | 'aloft', startSlot: number): number => {
      const problem = problemFor([littleJob('job', [{ ...littleStep('job', 60), place: where }])], calmIn(10));
      return scoreOf(problem, after(problem, [0, startSlot])).costPoints;
    };
    expect(on('deck', 0)).toBeGreaterThan(on('below', 0));
    expect(on('aloft', 0)).toBeGreaterThan(on('deck', 0));
    // 18:00 and 22:00 UTC: day and night at 30° W.
    expect(on('deck', 60) - on('below', 60)).toBeGreaterThan(on('deck', 36) - on('below', 36));
  });
});
