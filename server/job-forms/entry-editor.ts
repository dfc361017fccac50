/** Changing one place of a JSON value and leaving all others as they are. */

export type Path = readonly (string | number)[];

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const asList = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

export function valueAt(value: unknown, path: Path): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return value;
  if (typeof key === 'number') return valueAt(asList(value)[key], rest);
  return isObject(value) && Object.hasOwn(value, key) ? valueAt(value[key], rest) : undefined;
}

/** The value with another at the path; undefined takes the key out, and objects that are empty then. */
export function withValueAt(value: unknown, path: Path, to: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return to;
  if (typeof key === 'number') return asList(value).with(key, withValueAt(asList(value)[key], rest, to));
  const before = isObject(value) ? value : {};
  const after = withValueAt(before[key], rest, to);
  const isEmptied = to === undefined && isObject(after) && Object.keys(after).length === 0;
  if (after !== undefined && !isEmptied) return { ...before, [key]: after };
  const { [key]: _, ...others } = before;
  return others;
}

/** `steps[1].limits.deckWindKn`, as problems name a place. */
export const pathText = (path: Path): string =>
  path.map((key, index) => (typeof key === 'number' ? `[${key}]` : index === 0 ? key : `.${key}`)).join('');
