import type { PassageFile } from '../../lib/passage/index.ts';
import type { Problem, Result } from '../../lib/result/index.ts';
import { entryOf } from '../entry-forms/index.ts';
import { shipTimeOf, utcOfShipTime } from '../presenters/ship-time.ts';
import { isRecord, shipTimeOffsetOf, type Texts, withPart } from './part.ts';
import { PACE_KINDS, sleepFields, WATCHKEEPER_FIELDS } from './watchkeeper-fields.ts';

type Sleep = NonNullable<NonNullable<PassageFile['watchkeeper']>['sleeps']>[number];

/** The watchkeeper as the form shows it: sleeps by their rows, on the ship's clock. */
export function shownWatchkeeper(file: PassageFile): unknown {
  const offsetMin = shipTimeOffsetOf(file);
  const { sleeps = [], ...others } = file.watchkeeper ?? {};
  const rows = sleeps.map((sleep, row) => [row, shownSleep(sleep, offsetMin)] as const);
  return { ...others, sleeps: Object.fromEntries(rows) };
}

const shownSleep = ({ startUtc, endUtc }: Sleep, offsetMin: number): Sleep => ({
  startUtc: shipTimeOf(startUtc, offsetMin),
  endUtc: shipTimeOf(endUtc, offsetMin),
});

/** The passage with the watchkeeper as the form says; rows left empty are no sleeps. */
export function withWatchkeeper(file: PassageFile, texts: Texts): Result<PassageFile> {
  const before = file.watchkeeper?.sleeps ?? [];
  const fields = [...sleepFields(before.length, texts), ...WATCHKEEPER_FIELDS];
  const { sleeps: _, paceByWork, ...others } = entryOf(fields, shownWatchkeeper(file), texts);
  const sleeps = filledRows(texts).map((row) => sleepOf(row, { texts, before, offsetMin: shipTimeOffsetOf(file) }));
  const paces = pacesOf(paceByWork, file.watchkeeper?.paceByWork ?? {});
  return withPart(file, 'watchkeeper', {
    ...(sleeps.length === 0 ? {} : { sleeps }),
    ...others,
    ...(paces === null ? {} : { paceByWork: paces }),
  });
}

/** Rows of the form that say anything, in order. */
function filledRows(texts: Texts): readonly number[] {
  const rows = [...texts].flatMap(([name, text]) => {
    const [, row] = /^sleeps\.(\d{1,3})\.(?:startUtc|endUtc)$/.exec(name) ?? [];
    return row === undefined || text.trim() === '' ? [] : [Number(row)];
  });
  return [...new Set(rows)].toSorted((a, b) => a - b);
}

interface SleepForm {
  readonly texts: Texts;
  readonly before: readonly Sleep[];
  readonly offsetMin: number;
}

/** A row as it is written; a time that was not touched stays to the second. */
function sleepOf(row: number, { texts, before, offsetMin }: SleepForm): Partial<Sleep> {
  const written = (key: keyof Sleep): Partial<Sleep> => {
    const text = texts.get(`sleeps.${row}.${key}`)?.trim() ?? '';
    const was = before[row]?.[key];
    if (was !== undefined && shipTimeOf(was, offsetMin) === text) return { [key]: was };
    return text === '' ? {} : { [key]: utcOfShipTime(text, offsetMin) };
  };
  return { ...written('startUtc'), ...written('endUtc') };
}

type Paces = NonNullable<NonNullable<PassageFile['watchkeeper']>['paceByWork']>;

/** Own paces; one that is entered was learned from nothing. null: none. */
function pacesOf(entered: unknown, before: Paces): object | null {
  if (!isRecord(entered)) return null;
  const paces = PACE_KINDS.flatMap(([kind]): [string, object][] => {
    const pace = entered[kind];
    if (!isRecord(pace) || pace['ratio'] === undefined) return [];
    const was = before[kind];
    return [[kind, was?.ratio === pace['ratio'] ? was : { ratio: pace['ratio'], sessionCount: 0 }]];
  });
  return paces.length === 0 ? null : Object.fromEntries(paces);
}

/** Problems of sleeps at the rows of the form they were entered in. */
export function atRows(problems: readonly Problem[], texts: Texts): readonly Problem[] {
  const rows = filledRows(texts);
  return problems.map((problem) => {
    const [found, index, rest = ''] = /watchkeeper\.sleeps(?:\[(\d+)\](\.\w+)?)?$/.exec(problem.where) ?? [];
    if (found === undefined) return problem;
    const row = rows[Number(index ?? 0)] ?? 0;
    const at = `watchkeeper.sleeps[${row}]${rest === '' ? '.startUtc' : rest}`;
    return { ...problem, where: problem.where.replace(found, at), what: inRows(problem.what, rows) };
  });
}

/** `sleeps[0]` by the name of its input. */
const inRows = (what: string, rows: readonly number[]): string =>
  what.replaceAll(/sleeps\[(\d+)\]/g, (_, index: string) => `sleep ${(rows[Number(index)] ?? 0) + 1}`);
