import { describe, expect, test } from 'vitest';
import { fallbackOf, waitingUntil } from '../../lib/planner/fallback.ts';
import { searchPlan } from '../../lib/planner/search.ts';
import type { PlanState } from '../../lib/planner/state.ts';
import { placedInOrder } from '../../lib/planner/state.ts';
import { littleJob, littleStep, onlyNoGo, withBoatSpeed } from './little-world.ts';
import { problemFor } from './model/model-world.ts';
import { LITTLE_SOLVE } from './plan-little.ts';

// Two lulls, 13 to 18 and 30 to 38; in one weather of ten the second does not come. Three jobs that need one: the first and
// the second fit into the first lull together.

const wind = (second: number) => (hourH: number) =>
  (hourH >= 13 && hourH <= 18) || (hourH >= 30 && hourH <= 38 && second < 9) ? 6 : 20;
const job = (id: string, noGoKn: number) => littleJob(id, [littleStep(id, 60, { deckWindKn: onlyNoGo(noGoKn) })]);
const problem = problemFor([job('a', 10), job('b', 10), job('hardy', 30)], {
  scenarios: Array.from({ length: 10 }, (_, w) => ({ windKn: wind(w), seaHeightM: () => 0.5 })),
  horizonH: 40,
  change: (passage) => withBoatSpeed(passage, 0),
});
const found = searchPlan(problem, LITTLE_SOLVE.search);
const SETTINGS = LITTLE_SOLVE.search;
const startsIn = (state: PlanState): Record<string, number> =>
  Object.fromEntries(
    placedInOrder(state).map(({ unit, startSlot }) => [problem.units[unit]?.job.id ?? '', 12 + startSlot / 6]),
  );
const slotAtH = (hourH: number): number => Math.round((hourH - 12) * 6);
const planned = startsIn(found.state);

describe('the plan when a window has passed unused', () => {
  const giveUp = (jobId: string, decideH: number) =>
    fallbackOf(
      found,
      { jobId, firstSlot: slotAtH(13), lastSlot: slotAtH(decideH), decideSlot: slotAtH(decideH) },
      SETTINGS,
    );

  test('as planned both jobs lie in the first lull', () => {
    expect(planned['a']).toBeLessThan(17);
    expect(planned['b']).toBeLessThan(17);
    expect(found.solution.worth.jointWeight).toBe(1_000_000);
  });

  test('what begins before the decision stays to the slot; the job moves behind its window', () => {
    const [earlier, later] = (planned['a'] ?? 0) < (planned['b'] ?? 0) ? ['a', 'b'] : ['b', 'a'];
    const decideH = 16.5;
    const then = giveUp(later ?? '', decideH);
    const starts = startsIn(then.state);
    expect(starts[earlier ?? '']).toBe(planned[earlier ?? '']);
    expect(starts[later ?? '']).toBeGreaterThanOrEqual(30);
    // It now hangs on the second lull: nine weathers of ten.
    expect(then.jointShare).toBeCloseTo(0.9, 6);
  });

  test('given up at once, nothing that was to begin later is held to its start', () => {
    const then = giveUp('a', 13);
    expect(startsIn(then.state)['a']).toBeGreaterThan(13);
    expect(then.state.finishedSlot.every((slot) => slot > 0)).toBe(true);
  });

  test('a job whose last window passes is left out, the others stay', () => {
    const then = giveUp('a', 39);
    const starts = startsIn(then.state);
    expect(starts['a']).toBeUndefined();
    expect(starts['b']).toBe(planned['b']);
  });
});

describe('waiting for the next forecast', () => {
  test('nothing begins before it, and what is left is worth what it then holds in', () => {
    const waited = waitingUntil(found, slotAtH(20), SETTINGS);
    for (const startH of Object.values(startsIn(waited.state))) expect(startH).toBeGreaterThanOrEqual(20);
    expect(Object.keys(startsIn(waited.state)).toSorted()).toEqual(['a', 'b', 'hardy']);
    expect(waited.jointShare).toBeCloseTo(0.9, 6);
  });

  test('costs nothing where nothing would have begun', () => {
    const waited = waitingUntil(found, 0, SETTINGS);
    expect(waited.jointShare).toBe(1);
    expect(Object.keys(startsIn(waited.state)).toSorted()).toEqual(Object.keys(planned).toSorted());
  });
});
