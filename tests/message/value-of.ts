import { formatProblem, type Result } from '../../lib/result/index.ts';

/** The value of an answer that must be one. */
export function valueOf<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.problems.map(formatProblem).join('\n'));
  return result.value;
}
