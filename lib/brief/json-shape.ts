/** JSON handed over by the user, read by a schema; everything wrong with it comes back with path, value and remedy. */
import type { z } from 'zod';
import { failed, type Problem, type Result } from '../result/index.ts';
import { parseJsonText, placeOf, readShape as readByShape } from '../shape/index.ts';

/** What is read: its name for `where`, and the first word of its problem codes. */
export interface ReadAs {
  readonly file: string;
  readonly kind: string;
}

/** Longest plan read [characters]: some hundred times one of sixty jobs. */
const MOST_CHARACTERS = 20_000_000;

/** The value a text holds, or `KIND.too-large`, `.not-json`, `.too-deep`, `.key-twice`, `.number-too-large`. */
export const readJson = (text: string, as: ReadAs): Result<unknown> =>
  parseJsonText(text, {
    where: as.file,
    codeWord: as.kind,
    most: { characterCount: MOST_CHARACTERS, remedy: 'Take a plan as slatch plan --json wrote it.' },
  });

/** The value in the wanted shape, or `KIND.key-unknown`, `KIND.missing`, `KIND.value` for each thing wrong. */
export function readShape<S extends z.ZodType>(schema: S, value: unknown, as: ReadAs): Result<z.output<S>> {
  const read = readByShape(schema, value, { where: as.file, path: [], codeWord: as.kind });
  if (read.ok) return read;
  const [first, ...rest] = read.problems;
  return failed(valueProblem(first, as), ...rest.map((problem) => valueProblem(problem, as)));
}

/** A value of another kind is one that does not fit, as any other here. */
const valueProblem = (problem: Problem, { kind }: ReadAs): Problem =>
  problem.code === `${kind}.type` ? { ...problem, code: `${kind}.value` } : problem;

/** `own.json, entries[2].startUtc`. */
export const pathText = (as: ReadAs, path: readonly (string | number)[]): string => placeOf({ where: as.file, path });
