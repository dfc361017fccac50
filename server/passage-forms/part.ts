import { fillSettings, parsePassage, type PassageFile, readPassageFile } from '../../lib/passage/index.ts';
import { failed, type Problem, type Result } from '../../lib/result/index.ts';

export type Texts = ReadonlyMap<string, string>;

type PartKey = 'start' | 'track' | 'boat' | 'watchkeeper' | 'settings';

/** The file with one of its parts as given, its shape checked; an empty part that may be left out is left out. */
export function withPart(file: PassageFile, key: PartKey, part: object): Result<PassageFile> {
  const { [key]: _, ...others } = file;
  const mayGo = key === 'watchkeeper' || key === 'settings';
  const next = mayGo && Object.keys(part).length === 0 ? others : { ...file, [key]: inOrder(part, file[key]) };
  return readPassageFile(JSON.stringify(next), 'passage');
}

/** Keys in the order they were written in, new ones behind. */
function inOrder(part: object, before: object | undefined): object {
  if (before === undefined || Array.isArray(part)) return part;
  const entries = Object.entries(part);
  const keys = Object.keys(before);
  const kept = keys.flatMap((key) => entries.filter(([name]) => name === key));
  return Object.fromEntries([...kept, ...entries.filter(([name]) => !keys.includes(name))]);
}

/** The answer, or problems found in a form before it with everything else that is wrong with that part. */
export function withProblems(
  found: readonly Problem[],
  key: PartKey,
  answer: Result<PassageFile>,
): Result<PassageFile> {
  const [first, ...rest] = found;
  if (first === undefined) return answer;
  const checked = answer.ok ? parsePassage(JSON.stringify(answer.value), 'passage') : answer;
  const others = checked.ok ? [] : checked.problems.filter(({ where }) => where.startsWith(`passage, ${key}`));
  return failed(first, ...rest, ...others);
}

/** Ship's time as the passage has it: its own, else that of the longitude of the start. */
export const shipTimeOffsetOf = (file: PassageFile): number =>
  fillSettings(file.settings ?? {}, file.start).shipTimeOffsetMin;

export const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** An entry of a list that is not there any more. */
export const goneEntry = (where: string, what: string): Problem => ({
  code: 'passage.entry-gone',
  where,
  what: `This ${what} is not in the passage any more.`,
  expected: `a ${what} that is there`,
  remedy: 'Look at the list.',
});
