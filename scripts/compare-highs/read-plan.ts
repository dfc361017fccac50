/** The plan that the variables of the linear model describe. */
import type { ScheduleEntry, ScheduleProblem } from '../../lib/schedule/index.ts';
import type { FixedPlaceModel } from './fixed-place-model.ts';

export type Values = ReadonlyMap<string, number>;

export function planOf(
  problem: ScheduleProblem,
  { works, sleeps }: Pick<FixedPlaceModel, 'works' | 'sleeps'>,
  values: Values,
): readonly ScheduleEntry[] {
  const isChosen = ({ name }: { readonly name: string }): boolean => (values.get(name) ?? 0) > 0.5;
  const unitsLeft = problem.tasks.map(({ unitCount }) => unitCount);
  const worked = works
    .filter(isChosen)
    .toSorted((a, b) => a.beginSlot - b.beginSlot)
    .map(({ task, choice, unitCount, beginSlot, endSlot }): ScheduleEntry => {
      unitsLeft[task] = (unitsLeft[task] ?? 0) - unitCount;
      return {
        kind: 'work',
        task,
        choice,
        startSlot: beginSlot,
        beginSlot,
        endSlot,
        lag: 0,
        finishes: unitsLeft[task] === 0,
      };
    });
  const slept = sleeps.filter(isChosen).map(({ beginSlot, wokeSlot, endSlot }): ScheduleEntry => ({
    kind: 'sleep',
    startSlot: beginSlot,
    wokeSlot,
    endSlot,
  }));
  return [...worked, ...slept].toSorted((a, b) => a.startSlot - b.startSlot);
}
