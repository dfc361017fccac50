/** The engine against the enumeration of every plan, on small problems that use every rule. */
import { describe, expect, it } from 'vitest';
import { IS_LONG_RUN, longOrShort } from '../../long-run.ts';
import { simulateSchedule, solveSchedule } from '../../../lib/schedule/index.ts';
import { makeSmallInstance, type SmallFeatures } from '../../../scripts/schedule-instances/small-instance.ts';
import { compareWorth, enumerateSchedule } from './enumerate.ts';

const INSTANCE_COUNT = IS_LONG_RUN ? 3000 : 204;
const BATCH_COUNT = 12;
const HISTORY_COUNT = longOrShort(16, 6);

/** Their plans take half a second and more to count: left to the long run, others taken instead. */
const LONG_SEEDS = IS_LONG_RUN ? [] : [14, 20, 24, 41, 81, 86, 128, 200];
const seeds = Array.from({ length: INSTANCE_COUNT + LONG_SEEDS.length }, (_, i) => i + 1).filter(
  (seed) => !LONG_SEEDS.includes(seed),
);
const seedsOf = (batch: number): readonly number[] => seeds.filter((_, i) => i % BATCH_COUNT === batch);

/** What is wrong with the engine's answer to an instance, in words; null: nothing. */
function faultOf(seed: number): string | null {
  const { problem } = makeSmallInstance(seed);
  const { worth } = enumerateSchedule(problem);
  const solution = solveSchedule(problem);
  const told = `seed ${seed}: ${JSON.stringify(solution.worth)}, enumeration ${JSON.stringify(worth)}`;
  if (worth === null) return solution.entries.length === 0 ? null : `${told}: there is no plan`;
  if (compareWorth(solution.worth, worth, problem.stepWeight) !== 0) return told;
  if (!solution.proven || !solution.provenProbability) return `${told}: not proven`;
  const run = simulateSchedule(problem, solution.entries);
  if (!run.ok) return `${told}: entry ${run.at} breaks ${run.rule}`;
  return compareWorth(run.worth, solution.worth, 1) === 0 ? null : `${told}: carried out ${JSON.stringify(run.worth)}`;
}

describe('small problems against enumeration', () => {
  it.each(Array.from({ length: BATCH_COUNT }, (_, batch) => batch))(
    'batch %i: the same worth on every level, proven, and the plan keeps every rule',
    (batch) => {
      expect(seedsOf(batch).flatMap((seed) => faultOf(seed) ?? [])).toEqual([]);
    },
    600_000,
  );

  it('the instances are worth asking: each rule in at least a tenth of them', () => {
    const instances = seeds.map(makeSmallInstance);
    const features = instances.map((instance) => instance.features);
    const names: readonly (keyof SmallFeatures)[] = [
      'hasSessions',
      'hasLag',
      'isTiring',
      'hasConfigs',
      'hasConditional',
      'hasWaitAfter',
      'hasAwakeLimit',
      'hasInertia',
      'hasUnequalWeights',
      'hasCoarseSteps',
      'hasJobOfTwoTasks',
      'hasFinishCost',
      'hasEndCost',
      'hasRestBetween',
      'hasToolHeld',
    ];
    const rare = names.filter((name) => features.filter((one) => one[name]).length < INSTANCE_COUNT / 10);
    expect(rare).toEqual([]);
    // More than 32 scenarios: two and three words to a mask.
    expect(instances.filter(({ problem }) => problem.weights.length > 32).length).toBeGreaterThan(20);
    expect(instances.filter(({ problem }) => problem.weights.length > 64).length).toBeGreaterThan(2);
  });

  it('the answers differ: everything done, something left out, nothing possible, some scenarios lost', () => {
    const outcomes = Array.from({ length: 100 }, (_, i) => outcomeOf(i + 1));
    const count = (isSo: (outcome: ReturnType<typeof outcomeOf>) => boolean): number => outcomes.filter(isSo).length;
    expect(count(({ doneShare }) => doneShare === 1)).toBeGreaterThan(30);
    expect(count(({ doneShare }) => doneShare > 0 && doneShare < 1)).toBeGreaterThan(10);
    expect(count(({ doneShare }) => doneShare === 0)).toBeGreaterThan(0);
    expect(count(({ keptShare }) => keptShare < 1)).toBeGreaterThan(30);
    expect(count(({ sleepCount }) => sleepCount > 0)).toBeGreaterThan(5);
  });
});

function outcomeOf(seed: number): { doneShare: number; keptShare: number; sleepCount: number } {
  const { problem } = makeSmallInstance(seed);
  const { worth, entries } = solveSchedule(problem);
  const most = problem.jobs.filter((job) => !job.conditional).reduce((sum, job) => sum + job.priorityWeight, 0);
  const total = problem.weights.reduce((sum, weight) => sum + weight, 0);
  return {
    doneShare: worth.priorityWeight / most,
    keptShare: worth.jointWeight / total,
    sleepCount: entries.filter(({ kind }) => kind === 'sleep').length,
  };
}

describe('a rule on the sleeps so far', () => {
  it('worth is at most that of the best plan, and the bound never below it', () => {
    const faults = Array.from({ length: 400 }, (_, i) => i + 1)
      .filter((seed) => makeSmallInstance(seed).features.isTiring)
      .slice(0, HISTORY_COUNT)
      .flatMap((seed) => historyFaultOf(seed) ?? []);
    expect(faults).toEqual([]);
  });
});

/** Work from the fourth slot on asks for two slots of sleep in the six before it. */
function historyFaultOf(seed: number): string | null {
  const { problem: free } = makeSmallInstance(seed);
  if (free.rest === null) return null;
  const refusesHistory: typeof free.rest.refusesHistory = (_, { beginSlot }, sleeps) =>
    beginSlot >= 4 &&
    sleeps.reduce((sum, { fromSlot, toSlot }) => sum + Math.max(0, toSlot - Math.max(fromSlot, beginSlot - 6)), 0) < 2;
  const problem = { ...free, rest: { ...free.rest, refusesHistory } };
  const { worth } = enumerateSchedule(problem);
  const solution = solveSchedule(problem);
  if (worth === null) return null;
  const { stepWeight } = problem;
  const told = `seed ${seed}: ${JSON.stringify([solution.worth, worth, solution.bound])}`;
  if (compareWorth(solution.worth, worth, stepWeight) > 0) return `${told}: better than the best`;
  if (compareWorth(solution.bound, worth, stepWeight) < 0) return `${told}: bound too low`;
  if (solution.proven && compareWorth(solution.worth, worth, stepWeight) !== 0) return `${told}: a wrong proof`;
  return null;
}
