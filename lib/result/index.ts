/** Answers about input: a value, or every problem found in it. */

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

export const failed = (first: Problem, ...rest: readonly Problem[]): Failed => ({
  ok: false,
  problems: [first, ...rest],
});

/** `value` when there are no problems, else all of them. */
export function okUnless<T>(problems: readonly Problem[], value: () => T): Result<T> {
  const [first, ...rest] = problems;
  return first === undefined ? ok(value()) : failed(first, ...rest);
}

/** One line per problem: where, what, what was expected, what to do. */
export function formatProblem(problem: Problem): string {
  return `${problem.where}: ${problem.what} Expected ${problem.expected}. ${problem.remedy}`;
}

/** For switches that must cover every case. */
export function assertNever(value: never): never {
  throw new Error(`unexpected value ${JSON.stringify(value)}`);
}

/** The name nearest to `wanted` by edit distance, or null when none is near (more than a third of it differs). */
export function didYouMean(wanted: string, known: readonly string[]): string | null {
  let best: string | null = null;
  let bestDistanceCount = Math.max(2, Math.ceil(wanted.length / 3)) + 1;
  for (const name of known) {
    const distanceCount = editDistanceCount(wanted.toLowerCase(), name.toLowerCase());
    if (distanceCount < bestDistanceCount) [best, bestDistanceCount] = [name, distanceCount];
  }
  return best;
}

/** Levenshtein distance: insertions, deletions and substitutions. */
function editDistanceCount(from: string, to: string): number {
  let previous = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let i = 1; i <= from.length; i++) {
    const current = [i];
    for (let j = 1; j <= to.length; j++) {
      const substitution = (previous[j - 1] ?? 0) + (from[i - 1] === to[j - 1] ? 0 : 1);
      current.push(Math.min((previous[j] ?? 0) + 1, (current[j - 1] ?? 0) + 1, substitution));
    }
    previous = current;
  }
  return previous[to.length] ?? 0;
}
