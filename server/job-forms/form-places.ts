import type { FieldGroup } from '../presenters/job-field.ts';
import { type Path, pathText } from './entry-editor.ts';

/** Finds the input of a place: the place itself, else one below it, else the nearest above. */
export function inputFinder(
  groups: readonly FieldGroup[],
  indexOf: (stepId: string) => number,
): (place: string) => string | null {
  const places = groups.flatMap((group) =>
    group.fields.flatMap(({ name }, index) =>
      pathsOf(group, indexOf).map((path) => {
        const part = group.partKeys[index] ?? null;
        return { name, place: pathText(part === null ? path : [...path, part]) };
      }),
    ),
  );
  const isBelow = (inner: string, outer: string): boolean =>
    inner.startsWith(`${outer}.`) || inner.startsWith(`${outer}[`);
  return (asked) => {
    const found =
      places.find(({ place }) => place === asked) ??
      places.find(({ place }) => isBelow(place, asked)) ??
      places.filter(({ place }) => isBelow(asked, place)).toSorted((a, b) => b.place.length - a.place.length)[0];
    return found?.name ?? null;
  };
}

/** Every place a group may be written to. */
function pathsOf({ stepId, keys, rule }: FieldGroup, indexOf: (stepId: string) => number): readonly Path[] {
  if (stepId === null) return [keys];
  const inStep: Path = ['steps', indexOf(stepId), ...keys];
  if (rule === 'minutes') return [['minutes', stepId], inStep];
  if (rule === 'amount') return [['amounts', stepId], inStep];
  return rule === 'wait' ? [['waits', stepId], inStep] : [inStep];
}
