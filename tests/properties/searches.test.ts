import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Passage } from '../../lib/passage/index.ts';
import type { PlanningWeather, Preparation } from '../../lib/planner/prepare.ts';
import { prepare, problemOf } from '../../lib/planner/prepare.ts';
import { searchPlan } from '../../lib/planner/search.ts';
import { placedInOrder } from '../../lib/planner/state.ts';
import type { Conditions } from '../../lib/voyage/index.ts';
import { littleWeather } from '../planner/little-world.ts';
import { planLittle } from '../planner/plan-little.ts';
import type { World } from './drawn-worlds.ts';
import { drawnWorld, HORIZON_H, jobsOf, passageOf, QUICK_SEARCH, SEED, weatherIn, weatherOf } from './drawn-worlds.ts';
import { longOrShort } from '../long-run.ts';

// What the best plan must do when the world is made easier, harder, or only written down otherwise. Fixed seed. The boat
// stays where she is, so that an entry that ends earlier does not move her into other weather.

const RUNS = { seed: SEED, numRuns: longOrShort(10, 5) };
const world = drawnWorld.map((of) => ({ ...of, boatKn: 0 }));

const prepared = (passage: Passage, weather: PlanningWeather): Preparation =>
  prepare(passage, weather, passage.fixedNowEpochMs ?? passage.start.epochMs);

interface Worth {
  readonly proven: boolean;
  readonly priorityWeight: number;
  readonly jointStepCount: number;
}

function worthOf(preparation: Preparation): Worth {
  const problem = problemOf(preparation, 1);
  const { solution } = searchPlan(problem, QUICK_SEARCH.search);
  return {
    proven: solution.provenProbability,
    priorityWeight: solution.worth.priorityWeight,
    jointStepCount: Math.floor(solution.worth.jointWeight / problem.toleranceWeight + 1e-9),
  };
}

/** Below 0: a is worth less than b on the first two levels. */
const compared = (a: Worth, b: Worth): number =>
  a.priorityWeight - b.priorityWeight || a.jointStepCount - b.jointStepCount;

/** Comparisons made, and how many of them differed: a property nobody ever tested proves nothing. */
function counting(check: (of: World, tally: { compared: number; differed: number }) => void): {
  compared: number;
  differed: number;
} {
  const tally = { compared: 0, differed: 0 };
  fc.assert(
    fc.property(world, (of) => check(of, tally)),
    RUNS,
  );
  return tally;
}

describe('the best plan', { timeout: 120_000 }, () => {
  test('is never worth less when the limits are looser', () => {
    const tally = counting((of, seen) => {
      const scaled = (scale: number) => ({
        ...of,
        jobs: of.jobs.map((job) => ({ ...job, noGoKn: job.noGoKn * scale })),
      });
      const [tight, loose] = [1, 1.5].map((scale) => worthOf(prepared(passageOf(scaled(scale)), weatherIn(of))));
      if (tight === undefined || loose === undefined || !loose.proven) return;
      seen.compared += 1;
      if (compared(loose, tight) !== 0) seen.differed += 1;
      expect(compared(loose, tight)).toBeGreaterThanOrEqual(0);
    });
    expect(tally.compared).toBeGreaterThan(RUNS.numRuns / 2);
    expect(tally.differed).toBeGreaterThan(0);
  });

  test('is never worth more for work by daylight when some slots of light are dark', () => {
    const tally = counting((of, seen) => {
      const jobs = jobsOf(of.jobs).map((job) => ({
        ...job,
        steps: job.steps.map((step) => ({ ...step, limits: { ...step.limits, daylight: 'required' as const } })),
      }));
      const day = prepared(passageOf(of, jobs), weatherIn(of));
      // Dusk two hours and a half early.
      const [light, dark] = [day, darkenedBetween(day, 14.5, 20)].map(worthOf);
      if (light === undefined || dark === undefined || !light.proven) return;
      seen.compared += 1;
      if (compared(dark, light) !== 0) seen.differed += 1;
      expect(compared(dark, light)).toBeLessThanOrEqual(0);
    });
    expect(tally.compared).toBeGreaterThan(RUNS.numRuns / 2);
    expect(tally.differed).toBeGreaterThan(0);
  });
});

/** Night from an hour to an hour; everything else as it was. */
function darkenedBetween(preparation: Preparation, fromH: number, toH: number): Preparation {
  const NIGHT = 3;
  const darkened = new Map<Conditions, Conditions>();
  const dark = (conditions: Conditions): Conditions => {
    const kept = darkened.get(conditions) ?? {
      ...conditions,
      light: conditions.light.map((here, i) => (i >= (fromH - 12) * 6 && i < (toH - 12) * 6 ? NIGHT : here)),
    };
    darkened.set(conditions, kept);
    return kept;
  };
  const { lag } = preparation;
  return { ...preparation, lag: { ...lag, conditionsAt: (lagNm) => dark(lag.conditionsAt(lagNm)) } };
}

describe('one scenario told as two equal ones of half its weight', { timeout: 120_000 }, () => {
  test('changes nothing: entries, jobs and what holds together are the same', () => {
    fc.assert(
      fc.property(world, fc.nat(5), (drawn, which) => {
        const of = drawn;
        const whole = evenWeather(of);
        const split = which % of.winds.length;
        const winds = of.winds.flatMap((wind, w) => (w === split ? [wind, wind] : [wind]));
        const weights = [...whole.weights].flatMap((weight, w) => (w === split ? [weight / 2, weight / 2] : [weight]));
        const halves = littleWeather(
          winds.map((wind) => weatherOf(wind)),
          HORIZON_H,
          { weights: Int32Array.from(weights) },
        );
        const [a, b] = [whole, halves].map((weather) => planLittle(passageOf(of), weather, { solve: QUICK_SEARCH }));
        expect(b && placedInOrder(b.solution.state).map(starts)).toEqual(
          a && placedInOrder(a.solution.state).map(starts),
        );
        expect(b?.plan.jobs.map(figures)).toEqual(a?.plan.jobs.map(figures));
        expect(b?.plan.totals.allDoneProbability).toEqual(a?.plan.totals.allDoneProbability);
        expect(b?.plan.solver.optimal).toBe(a?.plan.solver.optimal);
      }),
      { seed: SEED, numRuns: 3 },
    );
  });
});

type Entry = ReturnType<typeof placedInOrder>[number];
const starts = ({ unit, handling, startSlot, endSlot }: Entry) => ({ unit, handling, startSlot, endSlot });
const figures = (job: ReturnType<typeof planLittle>['plan']['jobs'][number]) => ({
  jobId: job.jobId,
  status: job.status,
  startUtc: job.startUtc,
  probability: job.probability,
  nearestMiss: job.nearestMiss?.reason,
});

/** Every weight even. */
function evenWeather(of: World): PlanningWeather {
  const count = of.winds.length;
  const share = 2 * Math.floor(500_000 / count);
  const weights = Int32Array.from({ length: count }, (_, w) => (w === 0 ? 1_000_000 - share * (count - 1) : share));
  return littleWeather(
    of.winds.map((wind) => weatherOf(wind)),
    HORIZON_H,
    { weights },
  );
}
