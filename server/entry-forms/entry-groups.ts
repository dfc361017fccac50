import type { Problem } from '../../lib/result/index.ts';
import type { GroupView } from '../presenters/job-edit-page.ts';
import type { EntryField, EntryKind } from './entry-field.ts';

interface GroupsOf {
  readonly texts: ReadonlyMap<string, string>;
  readonly problems: readonly Problem[];
  /** What is kept now where something else was entered, by the name of the input. */
  readonly keptNow: ReadonlyMap<string, string>;
  /** Path of the entry in the passage: `sails[0].sail`. */
  readonly place: string;
}

/** The inputs of an entry, each with its text and what is wrong with it. */
export function groupsOf(
  fields: readonly EntryField[],
  { texts, problems, place, keptNow }: GroupsOf,
): readonly GroupView[] {
  return fields.map((one) => {
    const own = problems.filter((problem) => isOf(one, problem, place));
    const id = `f-${one.name.replaceAll('.', '-')}`;
    const kind = isInput(one.kind) ? one.kind : 'line';
    return {
      id: `${id}-group`,
      label: one.label,
      hint: one.hint,
      isTable: false,
      library: null,
      keptNow: keptText(one, keptNow.get(one.name)),
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

const isInput = (kind: EntryKind): kind is 'choice' | 'figure' | 'instant' =>
  kind === 'choice' || kind === 'figure' || kind === 'instant';

/** A text as a reader would write it. */
function keptText({ options, unit }: EntryField, text: string | undefined): string | null {
  if (text === undefined) return null;
  const words = options.find(({ value }) => value === text)?.text ?? text;
  if (words === '') return 'nothing';
  return unit === '' ? words : `${words} ${unit}`;
}

/** Problems that belong to none of the inputs. */
export const problemsBeside = (
  fields: readonly EntryField[],
  { problems, place }: Omit<GroupsOf, 'texts' | 'keptNow'>,
): readonly Problem[] => problems.filter((problem) => !fields.some((one) => isOf(one, problem, place)));

/** Whether a problem is at the value of a field, or inside it. */
function isOf({ path }: EntryField, { where }: Problem, place: string): boolean {
  const inside = path.map((key) => (typeof key === 'number' ? `[${key}]` : `.${key}`)).join('');
  const at = where.indexOf(`${place}${inside}`);
  if (at < 0) return false;
  const next = where.charAt(at + place.length + inside.length);
  return next === '' || next === '.' || next === '[';
}
