import type { PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import {
  assessDamage,
  damageCaseFile,
  type DamageCaseFile,
  type DamageReport,
  readDamageFile,
} from '../../lib/sail/index.ts';
import { entryOf } from '../entry-forms/index.ts';
import { battenNumber, battenTexts, SAIL_FIELDS, TEAR_FIELDS } from './sail-fields.ts';

type Texts = ReadonlyMap<string, string>;
/** Its place in the list; `new`: it is added behind the last. */
export type Place = number | 'new';

/** Path of a sail in the passage. */
export const sailPlace = (index: number): string => `sails[${index}]`;

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The passage with a sail as its form says. */
export function withSail(file: PassageFile, place: Place, texts: Texts): Result<PassageFile> {
  const before = place === 'new' ? undefined : file.sails?.[place];
  if (place !== 'new' && before === undefined) return failed(gone(place));
  const sail = entryOf(SAIL_FIELDS, before?.sail, texts);
  const shown = before === undefined ? new Map<string, string>() : battenTexts(before.sail);
  return withCase(file, place, { ...before, sail: withBattenStates(sail, texts, shown) });
}

/** States of battens by their inputs; as they were where none of them says something else. */
function withBattenStates(
  sail: Readonly<Record<string, unknown>>,
  texts: Texts,
  shown: Texts,
): Readonly<Record<string, unknown>> {
  const entered = [...texts].flatMap(([name, state]) => {
    const batten = battenNumber(name);
    return batten === null ? [] : [{ name, batten, state }];
  });
  if (entered.every(({ name, state }) => state === (shown.get(name) ?? ''))) return sail;
  const { states: _, ...others } = isRecord(sail['battens']) ? sail['battens'] : {};
  const broken = entered.flatMap(({ batten, state }) => (state === '' ? [] : [{ batten, state }]));
  return { ...sail, battens: broken.length === 0 ? others : { ...others, states: broken } };
}

/** Where a tear is in the passage. */
export interface TearPlace {
  readonly sail: number;
  readonly tear: Place;
}

/** The passage with a tear of a sail as its form says. */
export function withTear(file: PassageFile, { sail, tear }: TearPlace, texts: Texts): Result<PassageFile> {
  const before = file.sails?.[sail];
  const said = tear === 'new' ? undefined : before?.damage?.[tear];
  if (before === undefined || (tear !== 'new' && said === undefined)) return failed(gone(sail));
  const damage: readonly unknown[] = before.damage ?? [];
  const entry = entryOf(TEAR_FIELDS, said, texts);
  return withCase(file, sail, { ...before, damage: tear === 'new' ? [...damage, entry] : damage.with(tear, entry) });
}

export const TEARS_THERE = 'damage.tears-there';

/**
 * The passage without a sail.
 *
 * @param isSure also with its tears; else they stand against it
 */
export function withoutSail(file: PassageFile, index: number, isSure: boolean): Result<PassageFile> {
  const { sails = [], ...others } = file;
  const before = sails[index];
  if (before === undefined) return failed(gone(index));
  const tearCount = before.damage?.length ?? 0;
  if (tearCount > 0 && !isSure) return failed(tearsThere(index, tearCount));
  const left = sails.toSpliced(index, 1);
  return ok(left.length === 0 ? others : { ...others, sails: left });
}

export function withoutTear(file: PassageFile, at: { sail: number; tear: number }): Result<PassageFile> {
  const before = file.sails?.[at.sail];
  if (before?.damage?.[at.tear] === undefined) return failed(gone(at.sail));
  const { damage, ...sail } = before;
  const left = damage.toSpliced(at.tear, 1);
  return withCase(file, at.sail, left.length === 0 ? sail : { ...sail, damage: left });
}

function withCase(file: PassageFile, place: Place, entry: unknown): Result<PassageFile> {
  const index = place === 'new' ? (file.sails?.length ?? 0) : place;
  const read = checkedCase(entry, index);
  if (!read.ok) return read;
  const sails: DamageCaseFile[] = [...(file.sails ?? [])];
  sails[index] = read.value;
  return ok({ ...file, sails });
}

/** An entry read as a sail with its tears, each of which lies on it. */
function checkedCase(entry: unknown, index: number): Result<DamageCaseFile> {
  const read = readDamageFile(entry, sailPlace(index));
  const placed = read.ok ? assessDamage(read.value, sailPlace(index)) : read;
  // As it was written: what the schema gives back has its keys in the order of the schema.
  if (placed.ok) return isCase(entry) ? ok(entry) : read;
  const [first, ...rest] = placed.problems.map((problem) => inPassage(problem, index));
  return first === undefined ? read : failed(first, ...rest);
}

const isCase = (entry: unknown): entry is DamageCaseFile => damageCaseFile.safeParse(entry).success;

/** With its place as a path of the passage, `passage, sails[0].sail.luffM`, and about inputs, not about the file. */
function inPassage(problem: Problem, index: number): Problem {
  const where = `passage, ${problem.where.replace(`${sailPlace(index)}, `, `${sailPlace(index)}.`)}`;
  if (!problem.what.startsWith('{')) return { ...problem, where };
  if (problem.expected.startsWith('a place')) return { ...nowhere, where: `${where}.counted.panel` };
  return { ...problem, where, what: 'These do not go together.' };
}

const nowhere = {
  code: 'damage.place-missing',
  what: 'Nothing says where the tear is.',
  expected: 'the number of its panel, or the two battens it lies between',
  remedy: 'Count from the nearer end.',
};

/** A sail of the passage with everything that can be said of it; null: there is none. */
export function reportOf(file: PassageFile, index: number): DamageReport | null {
  const found = file.sails?.[index];
  const report = found === undefined ? null : assessDamage(found, sailPlace(index));
  return report?.ok === true ? report.value : null;
}

export const gone = (index: number): Problem => ({
  code: 'damage.gone',
  where: sailPlace(index),
  what: 'This sail or tear is not in the passage any more.',
  expected: 'a sail of the passage',
  remedy: 'Look at the list of sails.',
});

const tearsThere = (index: number, tearCount: number): Problem => ({
  code: TEARS_THERE,
  where: sailPlace(index),
  what: `${tearCount === 1 ? 'A tear is' : `${tearCount} tears are`} marked on it, and would be taken out with it.`,
  expected: 'a sail without tears',
  remedy: 'Take all of it out, or leave it.',
});
