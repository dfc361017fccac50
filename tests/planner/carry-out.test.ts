import { describe, expect, test } from 'vitest';
import { gateFindings } from '../../lib/person/index.ts';
import { gateStateAt } from '../../lib/planner/place.ts';
import { searchPlan } from '../../lib/planner/search.ts';
import { placedInOrder } from '../../lib/planner/state.ts';
import { timelineOf } from '../../lib/planner/timeline.ts';
import type { WorkEntry } from '../../lib/schedule/index.ts';
import { simulateSchedule } from '../../lib/schedule/index.ts';
import { littleJob, littleStep, onlyNoGo, withBoatSpeed } from './little-world.ts';
import { problemFor } from './model/model-world.ts';
import { LITTLE_SOLVE } from './plan-little.ts';

// What the search found, as a plan on board. A night lies between the jobs: wind above the limit from 18 to 32, so that the
// second job is worked the next day and sleep is wanted between.

const windy = { windKn: (hourH: number) => (hourH >= 15 && hourH < 32 ? 25 : 8), seaHeightM: () => 0.5 };
const job = (id: string, rest: Parameters<typeof littleJob>[2] = {}) =>
  littleJob(id, [{ ...littleStep(id, 60, { deckWindKn: onlyNoGo(12) }), effort: 'heavy' as const }], rest);
const problem = problemFor(
  [job('first', { priorityWeight: 9 }), job('second', { after: ['first'] }), job('third', { after: ['second'] })],
  {
    scenarios: [
      windy,
      { ...windy, windKn: (hourH) => (hourH > 33 ? 25 : windy.windKn(hourH)) },
      windy,
      windy,
      windy,
      windy,
    ],
    horizonH: 44,
    change: (passage) => withBoatSpeed(passage, 0),
  },
);
const found = searchPlan(problem, LITTLE_SOLVE.search);
const { state, solution, model } = found;
const placed = placedInOrder(state);
const work = solution.entries.filter((entry): entry is WorkEntry => entry.kind === 'work');

describe('a found plan carried out', () => {
  test('is one the search’s own rules let through, worth what was said', () => {
    const simulated = simulateSchedule(model.schedule, solution.entries);
    expect(simulated.ok && simulated.worth).toEqual(solution.worth);
  });

  test('has an entry for each of the search’s, at the same slots of the passage', () => {
    expect(placed.length).toBe(3);
    expect(placed.map(({ startSlot, endSlot, unit }) => [unit, startSlot, endSlot])).toEqual(
      work.map((entry) => [entry.task, entry.beginSlot + problem.fromSlot, entry.endSlot + problem.fromSlot]),
    );
    expect(placed.map(({ settleSlots }) => settleSlots)).toEqual(
      work.map(({ startSlot, beginSlot }) => beginSlot - startSlot),
    );
  });

  test('keeps the scenarios of the search, and every job is finished with nothing left', () => {
    expect([...state.mask]).toEqual([...solution.mask].map((word) => word >>> 0));
    expect([...state.leftMin]).toEqual([0, 0, 0]);
    for (const entry of placed) expect(state.finishedSlot[entry.unit]).toBe(entry.endSlot);
    expect([...state.conditional]).toEqual([0, 0, 0]);
  });

  test('a conditional job narrows nothing and is marked', () => {
    const third = problem.units.findIndex((unit) => unit.job.id === 'third');
    const of = { unit: third, conditionalIds: new Set(['third']) };
    const conditional = searchPlan(
      problemFor([littleJob('third', [littleStep('third', 60, { seaHeightM: onlyNoGo(2) })])], {
        scenarios: [{ windKn: () => 8, seaHeightM: () => Number.NaN }],
      }),
      LITTLE_SOLVE.search,
    );
    expect([...conditional.conditionalIds]).toEqual([...of.conditionalIds]);
    expect([...conditional.state.conditional]).toEqual([1]);
    expect(conditional.solution.worth).toMatchObject({ priorityWeight: 0, conditionalWeight: 5 });
  });

  test('what the plan counts on is slept', () => {
    const { sleeps } = timeline();
    const lengthOf = (list: readonly { fromSlot: number; toSlot: number }[]): number =>
      list.reduce((sum, { fromSlot, toSlot }) => sum + toSlot - fromSlot, 0);
    for (const planned of state.plannedSleeps) {
      const parts = sleeps.map(({ fromSlot, toSlot }) => ({
        fromSlot: Math.max(fromSlot, planned.fromSlot),
        toSlot: Math.max(Math.min(toSlot, planned.toSlot), Math.max(fromSlot, planned.fromSlot)),
      }));
      expect(lengthOf(parts)).toBe(planned.toSlot - planned.fromSlot);
    }
  });

  test('the person passes every gate when the work begins and when it ends', () => {
    const { atStarts, atEnds } = timeline();
    for (const [k, entry] of placed.entries()) {
      const gate = problem.units[entry.unit]?.gate;
      for (const person of [atStarts[k], atEnds[k]]) {
        if (person === undefined || gate === undefined) throw new Error('each entry has a start and an end');
        expect(gateFindings(gateStateAt(problem, person), gate)).toEqual([]);
      }
    }
  });
});

const timeline = () =>
  timelineOf({
    start: problem.start,
    facts: problem.person,
    slotMin: problem.grid.slotMin,
    placed,
    units: problem.units,
    plannedSleeps: state.plannedSleeps,
    lookoutSlots: 1,
    toSlot: problem.untilSlot,
  });

describe('the watchkeeper’s way through a plan', () => {
  test('stands at the work when it begins and when it ends, and at the end of the plan', () => {
    const { atStarts, atEnds, atEnd } = timeline();
    expect(atStarts.map(({ slot }) => slot)).toEqual(placed.map(({ startSlot }) => startSlot));
    expect(atEnds.map(({ slot }) => slot)).toEqual(placed.map(({ endSlot }) => endSlot));
    expect(atEnd.slot).toBe(problem.untilSlot);
  });

  test('never sleeps at work or while the boat is settled, nor two sleeps at once', () => {
    const { sleeps } = timeline();
    expect(sleeps.length).toBeGreaterThan(1);
    for (const [k, { fromSlot, toSlot }] of sleeps.entries()) {
      for (const entry of placed)
        expect(toSlot <= entry.startSlot - entry.settleSlots || fromSlot >= entry.endSlot).toBe(true);
      expect(toSlot).toBeGreaterThan(fromSlot);
      expect(fromSlot).toBeGreaterThanOrEqual(sleeps[k - 1]?.toSlot ?? 0);
    }
  });

  test('a sleep the plan counts on is slept to the slot, by day and rested, and looked round after', () => {
    const planned = { fromSlot: 20, toSlot: 29 };
    const { sleeps, atStarts } = timelineOf({
      start: problem.start,
      facts: problem.person,
      slotMin: 10,
      placed: [{ startSlot: 34, endSlot: 40, settleSlots: 1, unit: 0 }],
      units: problem.units,
      plannedSleeps: [planned],
      lookoutSlots: 1,
      toSlot: 40,
    });
    expect(sleeps.map(({ fromSlot, toSlot }) => ({ fromSlot, toSlot }))).toEqual([planned]);
    expect(atStarts[0]).toMatchObject({ slot: 34, awakeSinceSlot: 29, lastSleepMin: 90 });
  });

  test('a plan without work or sleep is a day spent by the policy of free hours', () => {
    const { sleeps, atStarts } = timelineOf({
      start: problem.start,
      facts: problem.person,
      slotMin: 10,
      placed: [],
      units: [],
      plannedSleeps: [],
      lookoutSlots: 1,
      toSlot: 24 * 6,
    });
    expect(atStarts).toEqual([]);
    const sleptH = sleeps.reduce((sum, { fromSlot, toSlot }) => sum + (toSlot - fromSlot) / 6, 0);
    // Six hours wanted in 24, up to four more allowed to catch up.
    expect(sleptH).toBeGreaterThan(4);
    expect(sleptH).toBeLessThanOrEqual(10);
  });
});
