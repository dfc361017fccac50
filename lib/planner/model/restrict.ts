import type { Choice, ScheduleProblem } from '../../schedule/index.ts';
import type { ChoiceMeaning } from './unit-tasks.ts';
import type { Model } from './schedule-problem.ts';

/** Whether a choice may begin at an instant (slots from the beginning of the plan). */
export type MayBegin = (choice: { taskIndex: number; meaning: ChoiceMeaning }, beginSlot: number) => boolean;

/** The same problem with some starts taken away. */
export function restricted(model: Model, mayBegin: MayBegin): Model {
  const { schedule } = model;
  const meanings = new Map<Choice, ChoiceMeaning>();
  const tasks = schedule.tasks.map((task, index) => ({
    ...task,
    choices: task.choices.map((choice) => {
      const meaning = model.meanings.get(choice);
      if (meaning === undefined) throw new Error('a choice of the search has no meaning on board');
      const kept = withStarts(schedule, choice, (begin) => mayBegin({ taskIndex: index, meaning }, begin));
      meanings.set(kept, meaning);
      return kept;
    }),
  }));
  return { ...model, schedule: { ...schedule, tasks, rest: restFor(model, meanings) }, meanings };
}

function withStarts(schedule: ScheduleProblem, choice: Choice, may: (beginSlot: number) => boolean): Choice {
  const durationSlots = choice.table.durationSlots.slice();
  for (let t = 0; t < schedule.slotCount; t++) {
    if (may(t)) continue;
    for (let row = 0; row < schedule.rowCount; row++) durationSlots[row * schedule.slotCount + t] = 0;
  }
  return { ...choice, table: { ...choice.table, durationSlots } };
}

/** The rule on past sleep is kept by choice: ask it of the choice this one was made from. */
function restFor(model: Model, meanings: ReadonlyMap<Choice, ChoiceMeaning>): ScheduleProblem['rest'] {
  const { rest } = model.schedule;
  if (rest === null || rest.refusesHistory === null) return rest;
  const origins = new Map<ChoiceMeaning, Choice>([...model.meanings].map(([choice, meaning]) => [meaning, choice]));
  const ask = rest.refusesHistory;
  return {
    ...rest,
    refusesHistory: (choice, work, sleeps) => {
      const meaning = meanings.get(choice);
      const origin = meaning === undefined ? undefined : origins.get(meaning);
      return origin !== undefined && ask(origin, work, sleeps);
    },
  };
}
