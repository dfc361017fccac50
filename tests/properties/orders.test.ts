import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { WAIT_DEFAULTS } from '../../lib/jobs/index.ts';
import type { JobOrder, Passage } from '../../lib/passage/index.ts';
import { prepare, problemOf } from '../../lib/planner/prepare.ts';
import { searchPlan } from '../../lib/planner/search.ts';
import type { Placed } from '../../lib/planner/state.ts';
import { placedInOrder } from '../../lib/planner/state.ts';
import {
  littleJob,
  littlePassage,
  littleStep,
  littleWeather,
  onlyNoGo,
  withBoatSpeed,
} from '../planner/little-world.ts';
import { atHour, withOrders } from '../planner/orders.ts';
import type { DrawnWind } from './drawn-worlds.ts';
import { drawnWind, QUICK_SEARCH, SEED, weatherOf } from './drawn-worlds.ts';

// Whatever the weather, the plan keeps to what the user has fixed. Light wind for most of the time, one boat that lies
// still, two jobs of an hour; hours count from the base time, the plan runs from 12 to 30.

const RUNS = { seed: SEED, numRuns: 8 };
const light = drawnWind.map((wind): DrawnWind => ({ ...wind, meanKn: wind.meanKn / 2 }));
const job = (id: string) =>
  littleJob(id, [littleStep(id, 60, { deckWindKn: onlyNoGo(12) })], { handlings: ['hold-course', 'heave-to'] });
const JOBS = [job('a'), job('b')];
const CALM: DrawnWind = { meanKn: 8, swingKn: 0, periodH: 20, phaseH: 0, rippleKn: 0 };

interface Worked extends Placed {
  readonly jobId: string;
  readonly handlingId: string;
  readonly stepIds: readonly string[];
  readonly fromH: number;
  readonly toH: number;
}

function workOf(passage: Passage, wind: DrawnWind): Worked[] {
  const problem = problemOf(prepare(passage, littleWeather([weatherOf(wind)], 30), atHour(12)), 1);
  return placedInOrder(searchPlan(problem, QUICK_SEARCH.search).state).map((placed) => {
    const unit = problem.units[placed.unit];
    return {
      ...placed,
      jobId: unit?.job.id ?? '',
      handlingId: unit?.handlings[placed.handling]?.id ?? '',
      stepIds: unit?.block.steps.map(({ id }) => id) ?? [],
      fromH: 12 + placed.startSlot / 6,
      toH: 12 + placed.endSlot / 6,
    };
  });
}

const still = withBoatSpeed(littlePassage(JOBS), 0);
const ordered = (
  orders: Readonly<Record<string, Partial<JobOrder>>>,
  forbidden?: Parameters<typeof withOrders>[2],
): Passage => withOrders(still, orders, forbidden);

/** Plans in drawn winds and at drawn hours; enough of them must hold work, or nothing is checked. */
function inWinds(passageAt: (hourH: number) => Passage): { work: Worked[]; hourH: number }[] {
  const drawn = fc.sample(fc.tuple(light, fc.integer({ min: 78, max: 150 })), RUNS);
  const plans = drawn.map(([wind, slot]) => ({ work: workOf(passageAt(slot / 6), wind), hourH: slot / 6 }));
  expect(plans.flatMap(({ work }) => work).length).toBeGreaterThan(RUNS.numRuns / 2);
  return plans;
}

const of = (work: readonly Worked[], id: string): Worked[] => work.filter(({ jobId }) => jobId === id);

describe('orders', { timeout: 60_000 }, () => {
  test('a locked start is kept to the slot, or the job is not done', () => {
    for (const { work, hourH } of inWinds((at) => ordered({ a: { lockedStartEpochMs: atHour(at) } })))
      for (const entry of of(work, 'a')) expect(entry.fromH).toBeCloseTo(hourH, 9);
  });

  test('in weather that holds it, the locked job is there', () => {
    const work = workOf(ordered({ a: { lockedStartEpochMs: atHour(15) } }), CALM);
    expect(work.map(({ jobId }) => jobId).toSorted()).toEqual(['a', 'b']);
    expect(of(work, 'a')[0]?.fromH).toBe(15);
  });

  test('a locked handling is used, though another is less trouble', () => {
    const plans = inWinds(() => ordered({ a: { lockedHandlingId: 'heave-to' } }));
    const used = new Set(plans.flatMap(({ work }) => of(work, 'a').map(({ handlingId }) => handlingId)));
    expect([...used]).toEqual(['heave-to']);
    expect(of(workOf(still, CALM), 'a')[0]?.handlingId).toBe('hold-course');
  });

  test('forbidden hours are free of work, one job’s own only of that job', () => {
    const plans = inWinds((at) =>
      ordered({}, [
        [at, at + 2],
        [12, 16, 'a'],
      ]),
    );
    for (const { work, hourH } of plans) {
      for (const { fromH, toH } of work) expect(fromH >= hourH + 2 - 1e-9 || toH <= hourH + 1e-9).toBe(true);
      for (const { fromH } of of(work, 'a')) expect(fromH).toBeGreaterThanOrEqual(16);
    }
    const before = plans.flatMap(({ work }) => of(work, 'b')).filter(({ fromH }) => fromH < 16);
    expect(before.length).toBeGreaterThan(0);
  });

  test('not before and finish by: no work outside', () => {
    const plans = inWinds((at) => ordered({ a: { notBeforeEpochMs: atHour(at) }, b: { finishByEpochMs: atHour(at) } }));
    for (const { work, hourH } of plans) {
      for (const { fromH } of of(work, 'a')) expect(fromH).toBeGreaterThanOrEqual(hourH - 1e-9);
      for (const { toH } of of(work, 'b')) expect(toH).toBeLessThanOrEqual(hourH + 1e-9);
    }
  });

  test('a tool held through a cure keeps the other job that needs it waiting', () => {
    const curing = {
      ...littleStep('glue', 60),
      waitAfter: { ...WAIT_DEFAULTS, kind: 'cure' as const, leastH: 2, likelyH: 2, mostH: 2 },
    };
    const jobs = [littleJob('a', [curing], { priorityWeight: 9 }), job('b')];
    const order = { tools: ['clamp'] };
    let both = 0;
    for (const { work } of inWinds(() => withOrders({ ...still, jobs }, { a: order, b: order }))) {
      for (const a of of(work, 'a')) {
        for (const b of of(work, 'b')) {
          both += 1;
          expect(b.toH <= a.fromH + 1e-9 || b.fromH >= a.toH + 2 - 1e-9).toBe(true);
        }
      }
    }
    expect(both).toBeGreaterThan(0);
  });

  test('what is done is not done again, and what came after it is free', () => {
    const steps = [{ ...littleStep('first', 60), safePointAfter: true }, littleStep('second', 30)];
    const jobs = [littleJob('a', steps), littleJob('b', [littleStep('b', 30)], { after: ['done'] }), job('done')];
    const plans = inWinds(() =>
      withOrders({ ...still, jobs }, { done: { isDone: true }, a: { doneStepIds: ['first'] } }),
    );
    for (const { work } of plans) {
      expect(of(work, 'done')).toEqual([]);
      expect(of(work, 'b').length).toBe(1);
      expect(of(work, 'a').map(({ stepIds }) => stepIds)).toEqual([['second']]);
    }
  });

  test('minutes already worked shorten what is left', () => {
    const [entry] = workOf(ordered({ a: { doneMin: 40 }, b: { isDone: true } }), CALM);
    expect(entry?.plannedMin).toBeCloseTo(20, 6);
  });
});
