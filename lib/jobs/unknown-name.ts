import { didYouMean, type Problem } from '../result/index.ts';

/** A name that refers to nothing, with the nearest one there is. */
export function unknownName(
  of: { code: string; kind: string; name: string; known: readonly string[] },
  where: string,
): Problem {
  const near = didYouMean(of.name, of.known);
  return {
    code: of.code,
    where,
    what: `There is no ${of.kind} "${of.name}".`,
    expected: `one of ${of.known.join(', ')}`,
    remedy: near === null ? 'Choose one of these.' : `Did you mean "${near}"?`,
  };
}

/** Something that must be there and is not. */
export const missing = (code: string, where: string, expected: string): Problem => ({
  code,
  where,
  what: 'It is missing.',
  expected,
  remedy: 'Add it.',
});
