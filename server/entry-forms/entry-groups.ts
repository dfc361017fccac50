import type { Problem } from '../../lib/result/index.ts';
import type { GroupView } from '../presenters/job-edit-page.ts';
import type { EntryField } from './entry-field.ts';

interface GroupsOf {
  readonly texts: ReadonlyMap<string, string>;
  readonly problems: readonly Problem[];
  /** Path of the entry in the passage: `sails[0].sail`. */
  readonly place: string;
}

/** The inputs of an entry, each with its text and what is wrong with it. */
export function groupsOf(fields: readonly EntryField[], { texts, problems, place }: GroupsOf): readonly GroupView[] {
  return fields.map((one) => {
    const own = problems.filter((problem) => isOf(one, problem, place));
    const id = `f-${one.name.replaceAll('.', '-')}`;
    const kind = one.kind === 'choice' || one.kind === 'figure' ? one.kind : 'line';
    return {
      id: `${id}-group`,
      label: one.label,
      hint: one.hint,
      isTable: false,
      library: null,
      keptNow: null,
      problems: own,
      fields: [
        {
          name: one.name,
          label: one.label,
          kind,
          unit: one.unit,
          options: one.options,
          id,
          value: texts.get(one.name) ?? '',
          isWrong: own.length > 0,
        },
      ],
    };
  });
}

/** Problems that belong to none of the inputs. */
export const problemsBeside = (
  fields: readonly EntryField[],
  { problems, place }: Omit<GroupsOf, 'texts'>,
): readonly Problem[] => problems.filter((problem) => !fields.some((one) => isOf(one, problem, place)));

/** Whether a problem is at the value of a field, or inside it. */
function isOf({ path }: EntryField, { where }: Problem, place: string): boolean {
  const inside = path.map((key) => (typeof key === 'number' ? `[${key}]` : `.${key}`)).join('');
  const at = where.indexOf(`${place}${inside}`);
  if (at < 0) return false;
  const next = where.charAt(at + place.length + inside.length);
  return next === '' || next === '.' || next === '[';
}
