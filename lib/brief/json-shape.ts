/** JSON handed over by the user, read by a schema; everything wrong with it comes back with path, value and remedy. */
import { z } from 'zod';
import type { Problem, Result } from '../result/index.ts';
import { didYouMean, failed, ok } from '../result/index.ts';

/** What is read: its name for `where`, and the first word of its problem codes. */
export interface ReadAs {
  readonly file: string;
  readonly kind: string;
}

/** The value a text holds, or `KIND.not-json`. */
export function readJson(text: string, as: ReadAs): Result<unknown> {
  try {
    return ok(JSON.parse(text));
  } catch (error) {
    const what = error instanceof Error ? `${error.message}.` : 'It cannot be read.';
    const remedy = 'Look at the place named; often a comma or a quotation mark is missing.';
    return failed({ code: `${as.kind}.not-json`, where: as.file, what, expected: 'JSON', remedy });
  }
}

/** The value in the wanted shape, or `KIND.key-unknown`, `KIND.missing`, `KIND.value` for each thing wrong. */
export function readShape<S extends z.ZodType>(schema: S, value: unknown, as: ReadAs): Result<z.output<S>> {
  const read = schema.safeParse(value);
  if (read.success) return ok(read.data);
  const [first, ...rest] = read.error.issues.flatMap((issue) => problemsOf(issue, { schema, value, as }));
  if (first === undefined) throw new Error('a shape failed without an issue');
  return failed(first, ...rest);
}

/** `own.json, entries[2].startUtc`. */
export function pathText(as: ReadAs, path: readonly PropertyKey[]): string {
  const inside = path
    .map((key, index) => (typeof key === 'number' ? `[${key}]` : `${index === 0 ? '' : '.'}${String(key)}`))
    .join('');
  return inside === '' ? as.file : `${as.file}, ${inside}`;
}

interface Reading {
  readonly schema: z.ZodType;
  readonly value: unknown;
  readonly as: ReadAs;
}

function problemsOf(issue: z.core.$ZodIssue, { schema, value, as }: Reading): Problem[] {
  const where = pathText(as, issue.path);
  if (issue.code === 'unrecognized_keys') {
    const known = keysAt(z.toJSONSchema(schema), issue.path);
    return issue.keys.map((key) => unknownKey(key, known, { ...as, where: pathText(as, [...issue.path, key]) }));
  }
  const found = valueAt(value, issue.path);
  const expected = 'expected' in issue ? `a value of type ${issue.expected}` : issue.message;
  return found === undefined
    ? [{ code: `${as.kind}.missing`, where, what: 'It is missing.', expected, remedy: 'Add it.' }]
    : [{ code: `${as.kind}.value`, where, what: `${shown(found)} does not fit.`, expected, remedy: 'Correct it.' }];
}

function unknownKey(key: string, known: readonly string[], as: ReadAs & { where: string }): Problem {
  const near = didYouMean(key, known);
  return {
    code: `${as.kind}.key-unknown`,
    where: as.where,
    what: `There is no key "${key}" here.`,
    expected: `one of ${known.join(', ')}`,
    remedy: near === null ? 'Take it out.' : `Did you mean "${near}"?`,
  };
}

const shown = (value: unknown): string => {
  const json = JSON.stringify(value);
  return json.length <= 80 ? json : `${json.slice(0, 77)}...`;
};

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return value;
  if (Array.isArray(value) && typeof key === 'number') return valueAt(value[key], rest);
  return isRecord(value) && typeof key === 'string' ? valueAt(value[key], rest) : undefined;
}

/** Keys an object may have at a path of a JSON Schema. */
function keysAt(schema: unknown, path: readonly PropertyKey[]): readonly string[] {
  if (!isRecord(schema)) return [];
  const [key, ...rest] = path;
  const properties = isRecord(schema['properties']) ? schema['properties'] : {};
  if (key === undefined) return Object.keys(properties);
  return keysAt(typeof key === 'number' ? schema['items'] : properties[String(key)], rest);
}
