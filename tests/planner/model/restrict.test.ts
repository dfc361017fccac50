import { describe, expect, test } from 'vitest';
import { restricted } from '../../../lib/planner/model/restrict.ts';
import { solveSchedule } from '../../../lib/schedule/index.ts';
import { littleJob, littleStep } from '../little-world.ts';
import { modelOf, problemFor } from './model-world.ts';

const problem = problemFor([
  littleJob('a', [{ ...littleStep('a', 60), place: 'aloft' as const }]),
  littleJob('b', [littleStep('b', 60)], { handlings: ['hold-course', 'heave-to'] }),
]);
const model = modelOf(problem);
const begins = (of: typeof model): number[][] =>
  of.schedule.tasks.map((task) =>
    task.choices.flatMap((choice) =>
      [...choice.table.durationSlots].flatMap((slots, k) => (slots > 0 ? [k % of.schedule.slotCount] : [])),
    ),
  );

describe('a problem with starts taken away', () => {
  const before = begins(model);
  const late = restricted(model, ({ meaning }, begin) => meaning.unit.job.id !== 'a' || begin >= 30);

  test('loses just those, in every lag and every choice', () => {
    const index = problem.units.findIndex(({ job }) => job.id === 'a');
    expect(begins(late)[index]).toEqual(before[index]?.filter((begin) => begin >= 30));
    expect(begins(late)[1 - index]).toEqual(before[1 - index]);
    expect(before[index]?.some((begin) => begin < 30)).toBe(true);
  });

  test('leaves the problem it was made from as it was', () => {
    expect(begins(model)).toEqual(before);
  });

  test('means the same on board, and asks the rule on past sleep of the same work', () => {
    const origins = model.schedule.tasks.flatMap((task) => task.choices);
    for (const [k, choice] of late.schedule.tasks.flatMap((task) => task.choices).entries()) {
      const origin = origins[k];
      if (origin === undefined) throw new Error('choices stand in the same order');
      expect(late.meanings.get(choice)).toBe(model.meanings.get(origin));
      for (const begin of [0, 60, 140]) {
        const asked = model.schedule.rest?.refusesHistory?.(origin, { beginSlot: begin, endSlot: begin }, []);
        expect(late.schedule.rest?.refusesHistory?.(choice, { beginSlot: begin, endSlot: begin }, [])).toBe(asked);
      }
    }
  });

  test('with every start taken away the plan is empty', () => {
    const none = restricted(model, () => false);
    const solution = solveSchedule(none.schedule, { beamWidths: [Infinity], extensionBudget: 50_000 });
    expect(solution.worth.priorityWeight).toBe(0);
    expect(solution.entries.filter(({ kind }) => kind === 'work')).toEqual([]);
  });
});
