import type { Problem } from '../../result/index.ts';
import { PART_END, PART_START } from './characters.ts';
import { brokenOff, CHECK_LENGTH_COUNT, claimsOfText, type DamagedPart, type Part, parsePart } from './part.ts';

/** What of a text are parts of messages. */
export interface FoundParts {
  readonly parts: readonly Part[];
  readonly damaged: readonly DamagedPart[];
}

/** Longest text searched [characters]; ours. */
const MOST_CHARACTERS_COUNT = 200_000;

/**
 * Finds parts in any text: a pasted mail, several messages one after the other.
 *
 * Blanks, line ends, invisible characters and the quote marks of mail are passed over wherever they stand: no part holds
 * any. Everything outside parts is left alone.
 *
 * @returns parts in the order they stand; text that begins or ends like a part and is none, each with its problem:
 *   those of `parsePart`, `message.too-long`, `message.nothing-found`
 */
export function findParts(text: string, where: string): FoundParts {
  if (text.length > MOST_CHARACTERS_COUNT) return { parts: [], damaged: [{ claims: null, problem: tooLong(where) }] };
  const dense = text.replaceAll(/^[>\s]+/gm, '').replaceAll(/[\s\p{Cf}]/gu, '');
  const parts: Part[] = [];
  const damaged: DamagedPart[] = [];
  const take = (piece: string, named: string): void => {
    const read = parsePart(piece, named);
    if (read.ok) parts.push(read.value);
    else damaged.push({ claims: claimsOfText(piece), problem: read.problems[0] });
  };
  let from = dense.indexOf(PART_START);
  while (from >= 0) {
    const end = dense.indexOf(PART_END, from);
    const next = nextStart(dense, { fromIndex: from + PART_START.length, endIndex: end });
    const named = `${where}, part ${parts.length + damaged.length + 1}`;
    if (next >= 0 && (end < 0 || next < end)) damaged.push(brokenPart(dense.slice(from, next), named));
    else take(end < 0 ? dense.slice(from) : dense.slice(from, end + 1), named);
    from = next;
  }
  if (parts.length + damaged.length === 0)
    return { parts, damaged: [{ claims: null, problem: nothing(dense, where) }] };
  return { parts, damaged };
}

/** The next mark of a beginning; letters of a piece right before the check of the part at hand only look like one. */
function nextStart(dense: string, { fromIndex, endIndex }: { fromIndex: number; endIndex: number }): number {
  const next = dense.indexOf(PART_START, fromIndex);
  const isBeforeCheck = next >= 0 && next + PART_START.length + CHECK_LENGTH_COUNT === endIndex;
  return isBeforeCheck ? dense.indexOf(PART_START, endIndex) : next;
}

/** Text up to the beginning of the next part: its own end is not there. */
const brokenPart = (text: string, where: string): DamagedPart => ({
  claims: claimsOfText(text),
  problem: brokenOff(text, where),
});

const tooLong = (where: string): Problem => ({
  code: 'message.too-long',
  where,
  what: 'The text is too long to be searched for messages.',
  expected: `at most ${MOST_CHARACTERS_COUNT} characters`,
  remedy: 'Give only the messages.',
});

function nothing(dense: string, where: string): Problem {
  const isCase = dense.toUpperCase().includes(PART_START);
  const isHeadless = /[A-Z2-7]{7}#/.test(dense);
  return {
    code: isCase ? 'message.part-case' : 'message.nothing-found',
    where,
    what: isCase
      ? 'Its letters were changed from capitals to small ones on the way.'
      : isHeadless
        ? `There is the end of a part (${PART_END}), but no beginning (${PART_START}): it was damaged or cut off.`
        : `There is no message in this text: nothing begins with ${PART_START}`,
    expected: `parts that begin with ${PART_START} and end with ${PART_END}`,
    remedy: isCase
      ? 'Plans and reports: read it as capitals (--capitals). A digest: ask for it by another way.'
      : 'Give the whole text as it came; if that is it, ask for it again.',
  };
}
