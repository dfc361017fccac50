/** Whether refusals are fit for a tired sailor: a place, plain words, no word of a machine, no megabytes, nothing unseen. */
import type { Problem } from '../../lib/result/index.ts';

const CODE = /^[a-z]+(?:-[a-z]+)*\.[a-z0-9]+(?:-[a-z0-9]+)*$/;
const MOST_CHARACTERS = 8000;
const MOST_PROBLEMS_COUNT = 2500;
/** Obeyed by terminals, or seen by nobody. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/u;
/** Words of the language and its libraries that stand for nothing on board. */
const MACHINE_WORDS = [
  'undefined',
  'NaN',
  'Infinity',
  '[object ',
  'Cannot read',
  'is not a function',
  'Invalid input',
  'Unrecognized key',
  'Unexpected token',
  'Unexpected end',
  'in JSON at',
  'RangeError',
  'TypeError',
  'SyntaxError',
  'node_modules',
  '.ts:',
  'ZodError',
  'received',
  'expected string',
  'safeint',
  'nonoptional',
];

/** What is wrong with the problems of a refusal, or null. Words that stand in the input itself may be quoted. */
export function problemsFault(problems: readonly Problem[], input: string): string | null {
  if (problems.length > MOST_PROBLEMS_COUNT) return `${problems.length} problems`;
  for (const problem of problems) {
    const fault = problemFault(problem, input);
    if (fault !== null) return `${fault}: ${JSON.stringify(problem).slice(0, 600)}`;
  }
  return null;
}

function problemFault(problem: Problem, input: string): string | null {
  const { code, where, what, expected, remedy } = problem;
  if (!CODE.test(code)) return 'no code';
  for (const [name, text] of Object.entries({ where, what, expected, remedy })) {
    if (text.trim() === '') return `nothing in "${name}"`;
    if (text.length > MOST_CHARACTERS) return `${text.length} characters in "${name}"`;
    if (UNSEEN.test(text)) return `something unseen in "${name}"`;
    const word = MACHINE_WORDS.find((one) => text.includes(one) && !input.includes(one));
    if (word !== undefined) return `the word "${word}" in "${name}"`;
  }
  return null;
}
