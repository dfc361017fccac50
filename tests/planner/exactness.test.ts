import { describe, expect, test } from 'vitest';
import type { Handling } from '../../lib/boat/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { prepare } from '../../lib/planner/prepare.ts';
import { scoreOf } from '../../lib/planner/score.ts';
import { solve } from '../../lib/planner/solve.ts';
import { longOrShort } from '../long-run.ts';
import type { TinyWorld } from './every-plan.ts';
import { bestOfAllPlans, tinyWorld } from './every-plan.ts';
import {
  BASE_EPOCH_MS,
  littleJob,
  littlePassage,
  littleStep,
  littleWeather,
  onlyNoGo,
  withBoatSpeed,
} from './little-world.ts';
import { LITTLE_SOLVE } from './plan-little.ts';

// The search against all plans of a tiny world. A well-slept person by day, so that fatigue never binds and nothing is
// slowed; a boat that stays where she is.

const FIRST_H = 12;
const WORLD_COUNT = longOrShort(3000, 40);

const standing = (noGoKn: number): Handling => ({
  id: `stands-${noGoKn}`,
  name: `Stands ${noGoKn} kn`,
  sailStates: ['full-main'],
  heading: { kind: 'course' },
  speedRatio: 1,
  speedLeastKn: 0,
  speedMostKn: 20,
  driftRatio: 0,
  settleMin: 0,
  limits: { trueWindKn: onlyNoGo(noGoKn), seaHeightM: onlyNoGo(9) },
  provenance: 'invented',
});

function passageOf(world: TinyWorld): Passage {
  const jobs = world.jobs.map((job) =>
    littleJob(job.id, [littleStep(job.id, job.minutes, { deckWindKn: onlyNoGo(job.deckNoGoKn) })], {
      priorityWeight: job.priorityWeight,
      after: job.after,
      handlings: job.handlingNoGoKn.map((noGoKn) => `stands-${noGoKn}`),
    }),
  );
  const noGoKns = [...new Set(world.jobs.flatMap((job) => job.handlingNoGoKn))];
  const settings = { deckHeightM: 10, steadyingWindRule: false, wantedProbability: world.wantedWeight / 1_000_000 };
  const passage = withBoatSpeed(littlePassage(jobs, settings), 0);
  return { ...passage, boat: { ...passage.boat, handlings: noGoKns.map(standing) } };
}

interface Found {
  readonly priorityWeight: number;
  readonly jointStepCount: number;
  readonly proven: boolean;
}

function planned(world: TinyWorld): Found {
  const slotCount = world.windKn[0]?.length ?? 0;
  const scenarios = world.windKn.map((windKn) => ({
    windKn: (hourH: number) => windKn[Math.round((hourH - FIRST_H) * 6)] ?? Number.NaN,
    seaHeightM: () => 0.5,
  }));
  const weather = littleWeather(scenarios, FIRST_H + (slotCount - 1) / 6, { weights: Int32Array.from(world.weights) });
  const preparation = prepare(passageOf(world), weather, BASE_EPOCH_MS + FIRST_H * 3_600_000);
  const reporting = { ...weather, memberIndex: Int32Array.from(world.weights, (_, w) => w) };
  const solution = solve(preparation, reporting, LITTLE_SOLVE);
  const { priorityWeight, jointStepCount } = scoreOf(solution.problem, solution.state);
  return { priorityWeight, jointStepCount, proven: solution.searched?.solution.proven === true };
}

describe('search in tiny worlds', () => {
  test(`finds what trying every plan finds, in all of ${WORLD_COUNT} worlds`, () => {
    const misses: unknown[] = [];
    const unproven: number[] = [];
    const reached = { all: 0, none: 0 };
    for (let seed = 1; seed <= WORLD_COUNT; seed++) {
      const world = tinyWorld(seed);
      const { plansSeen, ...best } = bestOfAllPlans(world);
      const found = planned(world);
      const most = world.jobs.reduce((sum, job) => sum + job.priorityWeight, 0);
      if (best.priorityWeight === most) reached.all += 1;
      if (best.priorityWeight === 0) reached.none += 1;
      if (found.priorityWeight !== best.priorityWeight || found.jointStepCount !== best.jointStepCount)
        misses.push({ seed, plansSeen, best, found });
      if (!found.proven) unproven.push(seed);
    }
    expect(misses).toEqual([]);
    expect(unproven).toEqual([]);
    // The worlds are worth asking: in some everything can be done, in some nothing, in most a choice must be made.
    expect(reached.all).toBeGreaterThan(WORLD_COUNT / 10);
    expect(WORLD_COUNT - reached.all - reached.none).toBeGreaterThan(WORLD_COUNT / 4);
  }, 600_000);
});
