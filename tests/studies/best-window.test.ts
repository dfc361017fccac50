import { describe, expect, test } from 'vitest';
import { bestWindowPlan } from '../../lib/planner/best-window.ts';
import { firstFairPlan } from '../../lib/planner/first-fair.ts';
import { prepare, problemOf } from '../../lib/planner/prepare.ts';
import { placedInOrder } from '../../lib/planner/state.ts';
import { weightOf } from '../../lib/windows/index.ts';
import {
  littleJob,
  littlePassage,
  littleStep,
  littleWeather,
  onlyNoGo,
  withBoatSpeed,
  type LittleWeather,
} from '../planner/little-world.ts';

// A lull of three and a half hours that comes up to an hour early or late, in ten weathers; half of them are enough.

const windAt = (hourH: number): number => (hourH >= 18 && hourH <= 21.5 ? 6 : 14);
const weathers: readonly LittleWeather[] = [-1, -0.8, -0.6, -0.4, -0.2, 0, 0.2, 0.4, 0.6, 0.8].map((shiftH) => ({
  windKn: (hourH) => windAt(hourH - shiftH),
  seaHeightM: () => 0.5,
}));

const tender = (id: string, after: readonly string[] = []) =>
  littleJob(id, [littleStep(id, 40, { deckWindKn: onlyNoGo(7) })], { after });

function problemFor(jobs: Parameters<typeof littlePassage>[0], wantedProbability = 0.5) {
  const passage = withBoatSpeed(littlePassage(jobs, { wantedProbability }), 0);
  return problemOf(prepare(passage, littleWeather(weathers, 40), passage.fixedNowEpochMs ?? 0), 1);
}

describe('bestWindowPlan', () => {
  test('one job: where all ten weathers hold, later than the first start half of them allow', () => {
    const problem = problemFor([tender('a')]);
    const [best] = placedInOrder(bestWindowPlan(problem, problem.jobs));
    const [first] = placedInOrder(firstFairPlan(problem, problem.jobs));
    const weight = (mask: Uint32Array | undefined) => weightOf(mask ?? new Uint32Array(1), problem.weights);
    expect(weight(best?.mask)).toBe(1_000_000);
    expect(weight(first?.mask)).toBeLessThan(700_000);
    expect(best?.startSlot).toBeGreaterThan(first?.startSlot ?? Infinity);
  });

  test('of several best starts the earliest', () => {
    const problem = problemFor([tender('a')]);
    const table = placedInOrder(bestWindowPlan(problem, problem.jobs))[0];
    // 18:48 is when the latest of the ten lulls begins; planning begins at 12:00, slots of ten minutes.
    expect(table?.startSlot).toBe(41);
  });

  test('two jobs that want the same hours: the second takes the best start left to it', () => {
    const problem = problemFor([tender('a'), tender('b')]);
    const placed = placedInOrder(bestWindowPlan(problem, problem.jobs));
    expect(placed).toHaveLength(2);
    expect(placed[1]?.startSlot).toBeGreaterThanOrEqual(placed[0]?.endSlot ?? Infinity);
  });

  test('a job that comes after another is never placed before it', () => {
    const problem = problemFor([tender('a'), tender('b', ['a'])]);
    const placed = placedInOrder(bestWindowPlan(problem, problem.jobs));
    expect(placed.map(({ unit }) => problem.units[unit]?.job.id)).toEqual(['a', 'b']);
  });

  test('a job without a start of the wanted probability is left out, and with it what comes after', () => {
    const never = littleJob('never', [littleStep('never', 40, { deckWindKn: onlyNoGo(2) })]);
    const problem = problemFor([never, tender('b', ['never']), tender('c')]);
    const placed = placedInOrder(bestWindowPlan(problem, problem.jobs));
    expect(placed.map(({ unit }) => problem.units[unit]?.job.id)).toEqual(['c']);
  });

  test('work in sessions is placed to its end', () => {
    const step = { ...littleStep('sew', 200, { deckWindKn: onlyNoGo(13) }), stop: 'anywhere' as const };
    const problem = problemFor([littleJob('sew', [step])]);
    const state = bestWindowPlan(problem, problem.jobs);
    expect(state.leftMin[0]).toBe(0);
    expect(placedInOrder(state).length).toBeGreaterThan(1);
  });
});
