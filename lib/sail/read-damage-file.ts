/** A damage file, read and checked. */
import { failed, okUnless, type Problem, type Result } from '../result/index.ts';
import { placeOf, readShape } from '../shape/index.ts';
import type { At } from './height-problems.ts';
import { damageCaseFile, type DamageCaseFile } from './sail-file.ts';
import { reefProblem, sailProblems } from './sail-problems.ts';

const CODE_WORD = 'damage';

/** The file as text, or `damage.not-json`, or everything wrong with it. */
export function parseDamageFile(text: string, where: string): Result<DamageCaseFile> {
  let raw: unknown;
  try {
    raw = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    return failed({
      code: 'damage.not-json',
      where,
      what: `The file is not JSON: ${error instanceof Error ? error.message : 'it cannot be read'}.`,
      expected: 'JSON text (RFC 8259)',
      remedy: 'Look for a missing or trailing comma, bracket or quotation mark.',
    });
  }
  return readDamageFile(raw, where);
}

/** The file as a value: shape first, then what its parts say of one another. Tears are placed by `assessDamage`. */
export function readDamageFile(raw: unknown, where: string): Result<DamageCaseFile> {
  const read = readShape(damageCaseFile, raw, { where, path: [], codeWord: CODE_WORD });
  if (!read.ok) return read;
  const at = (...path: readonly (string | number)[]): string => placeOf({ where, path });
  const problems = [...sailProblems(read.value.sail, at), ...damageProblems(read.value, at)];
  return okUnless(problems, () => read.value);
}

function damageProblems({ sail, damage = [] }: DamageCaseFile, at: At): readonly Problem[] {
  const reefCount = sail.reefs?.count ?? 0;
  const ids = damage.map(({ id }) => id);
  return damage.flatMap(({ id, belowReef }, index) => [
    ...(belowReef !== undefined && belowReef > reefCount
      ? [reefProblem(at('damage', index, 'belowReef'), belowReef, reefCount)]
      : []),
    ...(id !== undefined && ids.indexOf(id) < index
      ? [
          {
            code: 'damage.id',
            where: at('damage', index, 'id'),
            what: `"${id}" is used twice.`,
            expected: 'an id of its own for each damage',
            remedy: 'Rename one.',
          },
        ]
      : []),
  ]);
}
