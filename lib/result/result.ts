/** Answers about input: a value, or every problem found in it. */
import { shownText } from './shown-text.ts';

/**
 * One thing wrong with an input.
 *
 * `code` is stable and dotted (`passage.key-unknown`); the texts may change, the code may not.
 */
export interface Problem {
  readonly code: string;
  /** Where: file, path inside the document, message and octet. */
  readonly where: string;
  /** What is wrong, one sentence. */
  readonly what: string;
  /** What was expected instead. */
  readonly expected: string;
  /** What the user can do about it. */
  readonly remedy: string;
}

export interface Ok<T> {
  readonly ok: true;
  readonly value: T;
}

export interface Failed {
  readonly ok: false;
  readonly problems: readonly [Problem, ...Problem[]];
}

export type Result<T> = Ok<T> | Failed;

export const ok = <T>(value: T): Ok<T> => ({ ok: true, value });

/**
 * A refusal. What its problems quote of the input is made fit to be shown, however long or strange it was; of very many
 * problems the first are kept, and the last says how many more there are.
 */
export const failed = (first: Problem, ...rest: readonly Problem[]): Failed => refusal(first, rest);

/** `value` when there are no problems, else all of them. */
export function okUnless<T>(problems: readonly Problem[], value: () => T): Result<T> {
  const [first] = problems;
  return first === undefined ? ok(value()) : refusal(first, problems.slice(1));
}

function refusal(first: Problem, rest: readonly Problem[]): Failed {
  const list = new ProblemList(first.where);
  list.add(rest);
  return { ok: false, problems: [fitToShow(first), ...list.all()] };
}

/** More are of no use to anybody. */
const MOST_PROBLEMS_COUNT = 500;

/** Problems as they are found: the first of them, and how many more there were. */
export class ProblemList {
  readonly #kept: Problem[] = [];
  readonly #where: string;
  #leftCount = 0;

  /** @param where named where there are more than are kept */
  constructor(where: string) {
    this.#where = where;
  }

  add(problems: readonly Problem[]): void {
    const room = MOST_PROBLEMS_COUNT - this.#kept.length;
    this.#kept.push(...problems.slice(0, room).map(fitToShow));
    this.#leftCount += Math.max(0, problems.length - room);
  }

  all(): readonly Problem[] {
    return this.#leftCount === 0 ? this.#kept : [...this.#kept, manyMore(this.#where, this.#leftCount)];
  }
}

const manyMore = (where: string, count: number): Problem => ({
  code: 'result.many-more',
  where: shownText(where, MOST_CHARACTERS_COUNT),
  what: `There are ${count} more problems, which are not listed.`,
  expected: 'none',
  remedy: 'Correct those listed first; often one cause is behind many.',
});

/** Longest texts of a problem. Those that list what is possible may be long. */
const MOST_CHARACTERS_COUNT = 600;
const MOST_EXPECTED_COUNT = 6000;

const fitToShow = (problem: Problem): Problem => ({
  ...problem,
  where: shownText(problem.where, MOST_CHARACTERS_COUNT),
  what: shownText(problem.what, MOST_CHARACTERS_COUNT),
  expected: shownText(problem.expected, MOST_EXPECTED_COUNT),
  remedy: shownText(problem.remedy, MOST_CHARACTERS_COUNT),
});

/** One line per problem: where, what, what was expected, what to do. */
export function formatProblem(problem: Problem): string {
  return `${problem.where}: ${problem.what} Expected ${problem.expected}. ${problem.remedy}`;
}

/** For switches that must cover every case. */
export function assertNever(value: never): never {
  throw new Error(`unexpected value ${JSON.stringify(value)}`);
}
