import { DEFAULT_HANDLINGS, type Handling, type SpeedRow } from '../../lib/boat/index.ts';
import type { PassageFile } from '../../lib/passage/index.ts';
import { failed, type Problem, type Result } from '../../lib/result/index.ts';
import { entryOf } from '../entry-forms/index.ts';
import { BOAT_FIELDS, handlingFields } from './boat-fields.ts';
import { goneEntry, isRecord, type Texts, withPart } from './part.ts';

type OwnHandling = NonNullable<PassageFile['boat']['handlings']>[number];

const ownHandlings = ({ boat }: PassageFile): readonly OwnHandling[] => boat.handlings ?? [];

/** Where a handling's own figures stand in the file, or would be put. */
export function handlingIndex(file: PassageFile, id: string): number {
  const index = ownHandlings(file).findIndex((own) => own.id === id);
  return index < 0 ? ownHandlings(file).length : index;
}

export const ownHandling = (file: PassageFile, id: string): OwnHandling | undefined =>
  ownHandlings(file).find((own) => own.id === id);

/** The boat with her name and the height of her instrument as their form says. */
export const withBoatFigures = (file: PassageFile, texts: Texts): Result<PassageFile> =>
  withPart(file, 'boat', entryOf(BOAT_FIELDS, file.boat, texts));

const fieldsOf = (isNew: boolean) => handlingFields({ sailStates: [] }, isNew);

/** The passage with a handling as its form says: only own figures are written, and none where the form has none. */
export function withHandling(file: PassageFile, id: string, texts: Texts): Result<PassageFile> {
  const before = ownHandling(file, id);
  const base = DEFAULT_HANDLINGS.find((usual) => usual.id === id);
  const entry = entryOf(fieldsOf(false), before ?? { id }, texts);
  const isEmpty = base !== undefined && Object.keys(entry).every((key) => key === 'id');
  return withOwn(file, handlingIndex(file, id), isEmpty ? [] : [withWholeLevels(entry, base)]);
}

/** The passage with a handling of the user's own. */
export function withNewHandling(file: PassageFile, texts: Texts): Result<PassageFile> {
  const index = ownHandlings(file).length;
  const entry = entryOf(fieldsOf(true), {}, texts);
  const isTaken = DEFAULT_HANDLINGS.some(({ id }) => id === entry['id']);
  if (isTaken) return failed(takenId(String(entry['id']), `passage, boat.handlings[${index}].id`));
  return withOwn(file, index, [entry]);
}

/** Without own figures: a usual handling is as the default has it, another one is gone. */
export function withoutHandling(file: PassageFile, id: string): Result<PassageFile> {
  if (ownHandling(file, id) === undefined) return failed(goneEntry(`boat.handlings.${id}`, 'handling'));
  return withOwn(file, handlingIndex(file, id), []);
}

function withOwn(file: PassageFile, index: number, entries: readonly object[]): Result<PassageFile> {
  const before: readonly object[] = ownHandlings(file);
  const handlings = [...before.slice(0, index), ...entries, ...before.slice(index + 1)];
  const { handlings: _, ...others } = file.boat;
  return withPart(file, 'boat', handlings.length === 0 ? others : { ...others, handlings });
}

/** A limit is three levels: those not entered are the usual ones. */
function withWholeLevels(entry: Readonly<Record<string, unknown>>, base: Handling | undefined): object {
  const { limits } = entry;
  if (!isRecord(limits) || base === undefined) return entry;
  const whole = (['trueWindKn', 'seaHeightM'] as const).flatMap((key): [string, object][] => {
    const own = limits[key];
    return isRecord(own) ? [[key, { ...base.limits[key], ...own }]] : [];
  });
  return { ...entry, limits: Object.fromEntries(whole) };
}

const takenId = (id: string, where: string): Problem => ({
  code: 'passage.twice',
  where,
  what: `"${id}" is one of the usual handlings.`,
  expected: 'a name of its own',
  remedy: 'Change the usual one in the list, or name this one otherwise.',
});

/** Problems of the checked boat, which counts the usual handlings too, at the inputs of the form of this one. */
export function atHandling(problems: readonly Problem[], file: PassageFile, id: string): readonly Problem[] {
  const usual = DEFAULT_HANDLINGS.map((one) => one.id);
  const own = ownHandlings(file).map((one) => one.id);
  const all = [...usual, ...own.filter((one) => !usual.includes(one)), ...(own.includes(id) ? [] : [id])];
  const inAll = `boat.handlings[${[...new Set(all)].indexOf(id)}]`;
  const inFile = `boat.handlings[${handlingIndex(file, id)}]`;
  return problems.map((problem) => {
    const isOfBoat = problem.code.startsWith('boat.') && problem.where.includes(inAll);
    const where = isOfBoat ? problem.where.replace(inAll, inFile) : problem.where;
    if (/\.(trueWindKn|seaHeightM)$/.test(where)) return { ...problem, where: `${where}.ideal` };
    return { ...problem, where: where.endsWith(inFile) ? `${where}.twaDeg` : where };
  });
}

/** The passage with a speed table of a sail state; without rows it has none, and speeds are estimated. */
export function withSpeedTable(file: PassageFile, stateId: string, rows: readonly SpeedRow[]): Result<PassageFile> {
  const before = file.boat.speedTables;
  const { [stateId]: _, ...others } = before;
  const speedTables = rows.length === 0 ? others : { ...before, [stateId]: rows };
  return withPart(file, 'boat', { ...file.boat, speedTables });
}
