/** From what the schema library says about a shape to problems with path, value, expectation and remedy. */
import { z } from 'zod';
import { didYouMean, failed, shownText, type Problem, type Result } from '../result/index.ts';
import { shownValue } from './shown-value.ts';

/** Where a part of the file stands: the file's name and the path of the part inside it. */
export interface At {
  readonly where: string;
  readonly path: readonly (string | number)[];
  /** First word of the codes of problems; `passage` unless told. */
  readonly codeWord?: string;
}

const DEFAULT_CODE_WORD = 'passage';

/** `file.json, jobs[0].steps[1]`; the file alone at the top. */
export function placeOf({ where, path }: Pick<At, 'where' | 'path'>): string {
  const inside = path
    .map((key, index) => (typeof key === 'number' ? `[${key}]` : index === 0 ? key : `.${key}`))
    .join('');
  return inside === '' ? where : `${where}, ${inside}`;
}

/** Reads a part of the file by its schema; all that is wrong with its shape comes back as problems. */
export function readShape<S extends z.ZodType>(schema: S, raw: unknown, at: At): Result<z.output<S>> {
  const read = schema.safeParse(raw);
  if (read.success) return { ok: true, value: read.data };
  const { issues } = read.error;
  const reading = { schema, raw, at };
  const named = issues.slice(0, MOST_ISSUES_COUNT).flatMap((issue) => problemsOf(issue, reading));
  const leftCount = issues.length - MOST_ISSUES_COUNT;
  const [first, ...rest] = leftCount > 0 ? [...named, manyMore(leftCount, at)] : named;
  if (first === undefined) throw new Error('a shape failed without an issue');
  return failed(first, ...rest);
}

/** So many faults of one part are named one by one. */
const MOST_ISSUES_COUNT = 200;

const manyMore = (count: number, at: At): Problem => ({
  code: `${at.codeWord ?? DEFAULT_CODE_WORD}.many-more`,
  where: placeOf(at),
  what: `Beside those named, ${count} more of its values do not fit.`,
  expected: 'a file as this program writes it',
  remedy: 'Correct those named first; often one cause is behind many.',
});

interface Reading {
  readonly schema: z.ZodType;
  readonly raw: unknown;
  readonly at: At;
}

function problemsOf(issue: z.core.$ZodIssue, reading: Reading): readonly Problem[] {
  const path = issue.path.filter((key) => typeof key !== 'symbol');
  if (issue.code === 'invalid_union') {
    const meant = alternativeMeant(issue);
    if (meant !== null) return meant.flatMap((one) => problemsOf(one, reading));
  }
  if (issue.code === 'unrecognized_keys') return unknownKeys(issue.keys, path, reading);
  const value = valueAt(reading.raw, path);
  const { codeWord = DEFAULT_CODE_WORD } = reading.at;
  const where = placeOf({ where: reading.at.where, path: [...reading.at.path, ...path] });
  const expected = expectationOf(issue);
  if (value === undefined)
    return [{ code: `${codeWord}.missing`, where, what: 'It is missing.', expected, remedy: 'Add it.' }];
  return [
    {
      code: issue.code === 'invalid_type' ? `${codeWord}.type` : `${codeWord}.value`,
      where,
      what: Array.isArray(value) ? `It has ${entryCount(value.length)}.` : `${shownValue(value)} does not fit.`,
      expected,
      remedy: remedyOf(issue, value),
    },
  ];
}

/** What is wrong with the one alternative the value was meant as, told by its kind; null: with none of them, or several. */
function alternativeMeant({ path, errors }: z.core.$ZodIssueInvalidUnion): readonly z.core.$ZodIssue[] | null {
  const [meant, ...others] = errors.filter((issues) => !issues.some(isOfOtherKind));
  if (meant === undefined || others.length > 0) return null;
  return meant.map((issue) => ({ ...issue, path: [...path, ...issue.path] }));
}

const isOfOtherKind = ({ code, path }: z.core.$ZodIssue): boolean =>
  path.length === 0 && (code === 'invalid_type' || code === 'invalid_value');

const entryCount = (count: number): string => (count === 1 ? '1 entry' : `${count} entries`);

function unknownKeys(keys: readonly string[], path: readonly (string | number)[], { schema, at }: Reading): Problem[] {
  const known = keysAt(jsonSchemaOf(schema), path);
  const here = { ...at, path: [...at.path, ...path] };
  const named = keys
    .slice(0, MOST_ISSUES_COUNT)
    .map((key) => unknownKeyProblem(key, known, { ...here, path: [...here.path, key] }));
  const leftCount = keys.length - named.length;
  return leftCount === 0 ? named : [...named, manyMore(leftCount, here)];
}

/** Made once for each schema: it takes milliseconds, and a spoiled file may ask for it hundreds of times. */
const jsonSchemas = new WeakMap<z.ZodType, unknown>();

function jsonSchemaOf(schema: z.ZodType): unknown {
  const kept = jsonSchemas.get(schema);
  if (kept !== undefined) return kept;
  const made: unknown = z.toJSONSchema(schema, { unrepresentable: 'any' });
  jsonSchemas.set(schema, made);
  return made;
}

/** Longer keys are shown shortened. */
const MOST_KEY_CHARACTERS = 80;

/** A key that the file may not have there. */
export function unknownKeyProblem(key: string, known: readonly string[], at: At): Problem {
  const near = didYouMean(key, known);
  return {
    code: `${at.codeWord ?? DEFAULT_CODE_WORD}.key-unknown`,
    where: placeOf(at),
    what: `There is no key "${shownText(key, MOST_KEY_CHARACTERS)}" here.`,
    expected: `one of ${known.join(', ')}`,
    remedy: near === null ? 'Take it out.' : `Did you mean "${near}"?`,
  };
}

const typeWords: Readonly<Record<string, string>> = {
  array: 'a list',
  boolean: 'true or false',
  int: 'a whole number',
  number: 'a number',
  object: 'an object',
  record: 'an object',
  string: 'a text',
};

function expectationOf(issue: z.core.$ZodIssue): string {
  if (issue.code === 'invalid_type') return typeWords[issue.expected] ?? issue.expected;
  if (issue.code === 'too_small')
    return `${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}${countWord(issue.origin)}`;
  if (issue.code === 'too_big')
    return `${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}${countWord(issue.origin)}`;
  if (issue.code === 'invalid_value') return `one of ${issue.values.join(', ')}`;
  // A union told apart by one of its keys: the values that key may have, which the library's types leave out.
  if (issue.code === 'invalid_union' && 'options' in issue && Array.isArray(issue.options))
    return `one of ${issue.options.join(', ')}`;
  if (issue.code === 'invalid_union' && issue.message === NO_MESSAGE_OF_ITS_OWN && issue.errors.length > 0)
    return issue.errors.flatMap(([first]) => (first === undefined ? [] : [expectationOf(first)])).join(', or ');
  return issue.code === 'invalid_format' ? formatWords(issue) : issue.message;
}

/** What the library says where a shape has not said it better. */
const NO_MESSAGE_OF_ITS_OWN = 'Invalid input';

function countWord(origin: string): string {
  if (origin === 'string') return ' characters';
  return origin === 'array' ? ' entries' : '';
}

/** What the library says of a pattern where a shape has not said it better. */
const NO_PATTERN_WORDS = /^Invalid /;

function formatWords({ format, pattern, message }: z.core.$ZodIssueInvalidStringFormat): string {
  if (!NO_PATTERN_WORDS.test(message)) return message;
  return format === 'regex' && pattern?.includes('[01]') === true
    ? 'a time of day such as 22:00'
    : 'letters, digits, - and _, at most 60';
}

function remedyOf(issue: z.core.$ZodIssue, value: unknown): string {
  const near =
    issue.code === 'invalid_value' && typeof value === 'string' ? didYouMean(value, issue.values.map(String)) : null;
  return near === null ? 'Correct it.' : `Did you mean "${near}"?`;
}

function valueAt(raw: unknown, path: readonly (string | number)[]): unknown {
  let value = raw;
  for (const key of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, key)) return undefined;
    value = Object.getOwnPropertyDescriptor(value, key)?.value;
  }
  return value;
}

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Keys an object may have at a path, read from the JSON Schema of the shape. */
function keysAt(schema: unknown, path: readonly (string | number)[]): readonly string[] {
  if (!isRecord(schema)) return [];
  const options = schema['anyOf'];
  if (Array.isArray(options)) return options.flatMap((option) => keysAt(option, path));
  const [key, ...rest] = path;
  const properties = isRecord(schema['properties']) ? schema['properties'] : null;
  if (key === undefined) return properties === null ? [] : Object.keys(properties);
  if (typeof key === 'number') return keysAt(schema['items'], rest);
  return keysAt(properties?.[key] ?? schema['additionalProperties'], rest);
}
