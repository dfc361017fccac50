import type { EntryField, EntryKind } from './entry-field.ts';

type Key = string | number;

/** The text each field shows for an entry, by its name. */
export const textsOf = (fields: readonly EntryField[], entry: unknown): ReadonlyMap<string, string> =>
  new Map(fields.map(({ name, kind, path }) => [name, shown(kind, valueAt(entry, path))]));

/**
 * An entry with what the texts say; a text that was not changed leaves its value as it is, an empty one takes it out, and
 * what is no number stays a text, so that the check names it.
 */
export function entryOf(
  fields: readonly EntryField[],
  entry: unknown,
  texts: ReadonlyMap<string, string>,
): Readonly<Record<string, unknown>> {
  const before = textsOf(fields, entry);
  let changed: Readonly<Record<string, unknown>> = isRecord(entry) ? entry : {};
  for (const { name, kind, path } of fields) {
    const text = texts.get(name)?.trim() ?? '';
    if (text === before.get(name)) continue;
    changed = withValue(changed, path, text === '' ? undefined : valueOf(kind, text));
  }
  return changed;
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function valueAt(entry: unknown, path: readonly Key[]): unknown {
  let value = entry;
  for (const key of path) {
    if (typeof value !== 'object' || value === null) return undefined;
    value = Object.entries(value).find(([name]) => name === String(key))?.[1];
  }
  return value;
}

/** The value set, or taken out where it is undefined; an object left empty goes with it. */
function withValue(
  entry: Readonly<Record<string, unknown>>,
  [key, ...rest]: readonly Key[],
  value: unknown,
): Readonly<Record<string, unknown>> {
  if (key === undefined) return entry;
  const name = String(key);
  const under = entry[name];
  const set = rest.length === 0 ? value : withValue(isRecord(under) ? under : {}, rest, value);
  const isEmpty = set === undefined || (rest.length > 0 && isRecord(set) && Object.keys(set).length === 0);
  const { [name]: _, ...others } = entry;
  return isEmpty ? others : { ...entry, [name]: set };
}

const figureOf = (text: string): number | string => {
  const plain = text.trim().replace(',', '.');
  return /^[-+]?\d+(\.\d+)?$/.test(plain) ? Number(plain) : text;
};

const parts = (text: string): readonly string[] =>
  text
    .split(/[,;]/)
    .map((part) => part.trim())
    .filter((part) => part !== '');

const ends = (text: string): readonly (string | number)[] => text.split(/\s*(?:-|–|\.\.| )\s*/).map(figureOf);

function valueOf(kind: EntryKind, text: string): unknown {
  if (kind === 'figure') return figureOf(text);
  if (kind === 'figures') return parts(text).map(figureOf);
  if (kind === 'spans') return parts(text).map(ends);
  return kind === 'pair' ? ends(text) : text;
}

function shown(kind: EntryKind, value: unknown): string {
  if (value === undefined || value === null) return '';
  if (!Array.isArray(value)) return typeof value === 'string' ? value : JSON.stringify(value);
  const items: readonly unknown[] = value;
  if (kind === 'pair') return items.join('-');
  return items.map((item) => (Array.isArray(item) ? item.join('-') : String(item))).join(', ');
}
