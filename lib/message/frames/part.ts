import { failed, ok, type Problem, type Result } from '../../result/index.ts';
import { BASE_32, base32, firstForeign, PART_END, PART_SEPARATOR, PART_START } from './characters.ts';
import { crc32 } from './crc32.ts';

/** Kinds of messages, and the letter of each. */
export const KIND_LETTERS = { plan: 'P', digest: 'D', report: 'R' } as const;
export type MessageKind = keyof typeof KIND_LETTERS;

/** What makes a message that one and no other. */
export interface MessageId {
  readonly kind: MessageKind;
  /** 1 to 4 capital letters and digits. */
  readonly sender: string;
  /** 1 to 999 999: rises with every message of the sender and kind. */
  readonly counterNumber: number;
}

/** One part of a message as it is sent. */
export interface Part extends MessageId {
  /** From 1. */
  readonly partNumber: number;
  readonly partCount: number;
  readonly piece: string;
}

export const MOST_COUNTER_NUMBER = 999_999;
export const MOST_PART_COUNT = 999;
export const CHECK_LENGTH_COUNT = 7;
const HEAD = /^([PDR])\.([A-Z0-9]{1,4})\.([1-9]\d{0,5})\.([1-9]\d{0,2})-([1-9]\d{0,2})$/;

/** `P.LW.7`: kind, sender, counter. */
export const idText = (id: MessageId): string => `${KIND_LETTERS[id.kind]}.${id.sender}.${id.counterNumber}`;

/**
 * A part as text: `SL;P.LW.7.1-2;piece;CHECKED#`.
 *
 * The check is the CRC-32 of all that stands before its separator, as seven characters of base 32. A polynomial code of
 * degree 32 whose polynomial has a constant term finds every burst of errors no longer than 32 bits (W. W. Peterson and
 * D. T. Brown, Cyclic Codes for Error Detection, Proc. IRE 49, 1961, theorem 5); a changed character is a burst of at
 * most 8 bits, two neighbours changed places are one of at most 16. In the check itself one changed character, or two
 * that changed places, make another check than the one that fits. The check has a fixed length, no body holds `;` or `#`:
 * where one of these marks moves or changes, the part has no longer the form of one.
 */
export function formatPart(part: Part): string {
  const checked = `${PART_START}${headOf(part)}${PART_SEPARATOR}${part.piece}`;
  return `${checked}${PART_SEPARATOR}${checkOf(checked)}${PART_END}`;
}

const headOf = (part: Omit<Part, 'piece'>): string => `${idText(part)}.${part.partNumber}-${part.partCount}`;

/** Characters of a part beside its piece. */
export const overheadCount = (part: Omit<Part, 'piece'>): number =>
  PART_START.length + headOf(part).length + 2 * PART_SEPARATOR.length + CHECK_LENGTH_COUNT + PART_END.length;

const encoder = new TextEncoder();

function checkOf(text: string): string {
  const value = crc32(encoder.encode(text));
  return base32(Uint8Array.of(value >>> 24, value >>> 16, value >>> 8, value));
}

/** Text that begins like a part, and is none. */
export interface DamagedPart {
  /** The part it says it is; not to be relied upon, the head may be what is damaged. Null: the head cannot be read. */
  readonly claims: Omit<Part, 'piece'> | null;
  readonly problem: Problem;
}

/**
 * Reads a part: from its mark to its end, blanks and line ends taken out.
 *
 * @returns the part, or `message.part-damaged`, `message.part-broken-off`, `message.part-case`, `message.part-number`
 */
export function parsePart(text: string, where: string): Result<Part> {
  const body = text.slice(0, -(CHECK_LENGTH_COUNT + 2));
  const separator = text.at(-(CHECK_LENGTH_COUNT + 2));
  const check = text.slice(-(CHECK_LENGTH_COUNT + 1), -1);
  if (!text.endsWith(PART_END)) return failed(brokenOff(text, where));
  if (separator !== PART_SEPARATOR || checkOf(body) !== check) return failed(damaged(text, where));
  const part = partOf(body);
  // Text with the right check that is no part of ours: the form of another version.
  if (part === null) return failed(strange(text, where));
  return part.partNumber <= part.partCount ? ok(part) : failed(strange(text, where));
}

function partOf(body: string): Part | null {
  const [, head = '', piece, ...more] = body.split(PART_SEPARATOR);
  const claims = claimsOf(head);
  if (claims === null || piece === undefined || more.length > 0 || firstForeign(piece) !== null) return null;
  return { ...claims, piece };
}

/** What the head of a part says. */
function claimsOf(head: string): Omit<Part, 'piece'> | null {
  const match = HEAD.exec(head);
  if (match === null) return null;
  const [, letter, sender = '', counter, number, count] = match;
  const kind = letter === 'P' ? 'plan' : letter === 'D' ? 'digest' : 'report';
  return {
    kind,
    sender,
    counterNumber: Number(counter),
    partNumber: Number(number),
    partCount: Number(count),
  };
}

/** Longest head: `P.ABCD.999999.999-999`. */
const MOST_HEAD_COUNT = 21;

/** What the head of a text that begins like a part says; null: it cannot be read. */
export function claimsOfText(text: string): Omit<Part, 'piece'> | null {
  const head = text.slice(PART_START.length, PART_START.length + MOST_HEAD_COUNT + PART_SEPARATOR.length);
  const end = head.indexOf(PART_SEPARATOR);
  return end < 0 ? null : claimsOf(head.slice(0, end));
}

/** `part 2 of 3 of plan 7 from LW`. */
export const partName = (part: Omit<Part, 'piece'>): string =>
  `part ${part.partNumber} of ${part.partCount} of ${messageName(part)}`;

/** `plan 7 from LW`. */
export const messageName = (id: MessageId): string => `${id.kind} ${id.counterNumber} from ${id.sender}`;

const again = (text: string): string => {
  const claims = claimsOfText(text);
  return claims === null ? 'Ask for the message again.' : `Ask: send ${partName(claims)} again.`;
};

const EXPECTED = `a part from ${PART_START} to ${PART_END} as it was sent`;

/** The problem of a part without its end. */
export const brokenOff = (text: string, where: string): Problem => ({
  code: 'message.part-broken-off',
  where,
  what: 'The part ends before its end mark: it was cut off on the way.',
  expected: EXPECTED,
  remedy: again(text),
});

const strange = (text: string, where: string): Problem => ({
  code: 'message.part-strange',
  where,
  what: 'The check fits, but this is no part this program writes: another version may.',
  expected: EXPECTED,
  remedy: again(text),
});

function damaged(text: string, where: string): Problem {
  const foreign = firstForeign(text.replaceAll(/[;#]/g, ''));
  if (isCaseChanged(text))
    return {
      code: 'message.part-case',
      where,
      what: 'Its letters were changed between capitals and small ones on the way.',
      expected: EXPECTED,
      remedy: 'Plans and reports: read it as capitals (--capitals). A digest: ask for it by another way.',
    };
  return {
    code: 'message.part-damaged',
    where,
    what:
      foreign === null
        ? 'The check does not fit: at least one character was changed, lost or added on the way.'
        : `The check does not fit, and "${foreign}" does not belong into a part.`,
    expected: EXPECTED,
    remedy: again(text),
  };
}

/** Whether the part fits when it is read in capitals, or its check is written in small letters. */
function isCaseChanged(text: string): boolean {
  const check = text.slice(-(CHECK_LENGTH_COUNT + 1), -1);
  const capitals = text.toUpperCase();
  if (capitals === text) return isWrittenInCapitalsOnly(text);
  const fits = checkOf(capitals.slice(0, -(CHECK_LENGTH_COUNT + 2))) === check.toUpperCase();
  return fits || (Array.from(check).some((letter) => /[a-z]/.test(letter)) && isBase32(check.toUpperCase()));
}

/** A digest without one small letter was put into capitals: of its packed text some 4 in 10 characters are small. */
function isWrittenInCapitalsOnly(text: string): boolean {
  const claims = claimsOfText(text);
  return claims?.kind === 'digest' && (text.split(PART_SEPARATOR)[2] ?? '').length > 40;
}

const isBase32 = (text: string): boolean => Array.from(text).every((character) => BASE_32.includes(character));
