import { failed, ok, type Problem, type Result } from '../result/index.ts';
import { jsonFault, MOST_DEPTH_COUNT } from './json-scan.ts';

/** How a text of JSON is read. */
export interface JsonAs {
  /** Name of the file, for problems. */
  readonly where: string;
  /** First word of the codes of problems. */
  readonly codeWord: string;
  /** What is read, in words; `file` unless told. */
  readonly kind?: string;
  /** Longest text read, and what to do about a longer one. */
  readonly most: { readonly characterCount: number; readonly remedy: string };
}

const BYTE_ORDER_MARK = /^\uFEFF/;

/**
 * JSON (RFC 8259) from a text. A byte order mark before it is passed over.
 *
 * Refused beside what is no JSON: more than 100 lists and objects inside one another, a key twice in one object (readers do
 * not agree on which counts, RFC 8259 section 4), a number beyond 1.8e308.
 *
 * @returns the value, or `WORD.too-large`, `WORD.not-json`, `WORD.too-deep`, `WORD.key-twice`, `WORD.number-too-large`,
 *   with line and column
 */
export function parseJsonText(text: string, as: JsonAs): Result<unknown> {
  if (text.length > as.most.characterCount) return failed(tooLarge(text.length, as));
  const source = text.replace(BYTE_ORDER_MARK, '');
  const fault = jsonFault(source);
  if (fault === null) {
    const value: unknown = JSON.parse(source);
    return ok(value);
  }
  const { expected, remedy } = ADVICE[fault.kind];
  const place = placeIn(source, fault.atIndex);
  return failed({
    code: `${as.codeWord}.${fault.kind}`,
    where: `${as.where}, ${place}`,
    what: fault.kind === 'not-json' ? `The ${as.kind ?? 'file'} is not JSON. ${fault.what}` : fault.what,
    expected,
    remedy,
  });
}

const ADVICE = {
  'not-json': {
    expected: 'JSON text (RFC 8259)',
    remedy: 'Look for a missing or trailing comma, bracket or quotation mark.',
  },
  'too-deep': { expected: `at most ${MOST_DEPTH_COUNT}`, remedy: 'Take the file as it was written.' },
  'key-twice': { expected: 'every key of an object once', remedy: 'Take out the one that is not meant.' },
  'number-too-large': { expected: 'a number below 1.8e308', remedy: 'Correct it.' },
} as const satisfies Readonly<Record<string, Pick<Problem, 'expected' | 'remedy'>>>;

function placeIn(text: string, atIndex: number): string {
  const before = text.slice(0, atIndex);
  const lineStartIndex = before.lastIndexOf('\n') + 1;
  const lineCount = before.split('\n').length;
  return `line ${lineCount}, column ${atIndex - lineStartIndex + 1}`;
}

const tooLarge = (characterCount: number, { where, codeWord, kind = 'file', most }: JsonAs): Problem => ({
  code: `${codeWord}.too-large`,
  where,
  what: `The ${kind} has ${characterCount} characters.`,
  expected: `at most ${most.characterCount}`,
  remedy: most.remedy,
});
