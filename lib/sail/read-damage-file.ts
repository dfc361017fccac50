/** A damage file, read and checked. */
import { okUnless, type Problem, type Result } from '../result/index.ts';
import { parseJsonText, placeOf, readShape } from '../shape/index.ts';
import type { At } from './height-problems.ts';
import { damageCaseFile, type DamageCaseFile } from './sail-file.ts';
import { reefProblem, sailProblems } from './sail-problems.ts';

const CODE_WORD = 'damage';

/** Longest damage file read [characters]. */
const MOST_CHARACTERS = 1_000_000;

/** The file as text, or what is wrong with it as JSON (`damage.not-json` …), or everything wrong with what it says. */
export function parseDamageFile(text: string, where: string): Result<DamageCaseFile> {
  const json = parseJsonText(text, {
    where,
    codeWord: CODE_WORD,
    most: { characterCount: MOST_CHARACTERS, remedy: 'One sail is enough for a file.' },
  });
  return json.ok ? readDamageFile(json.value, where) : json;
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
