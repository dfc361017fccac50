/** JSON (RFC 8259) walked through sign by sign, to say in plain words where it breaks. */

/** The first thing wrong with a text. */
export interface JsonFault {
  readonly kind: 'not-json' | 'too-deep' | 'key-twice' | 'number-too-large';
  /** Where in the text [characters from 0]. */
  readonly atIndex: number;
  /** What stands there and what should, one sentence. */
  readonly what: string;
}

/** Objects and lists inside one another; no file of ours comes near. */
export const MOST_DEPTH_COUNT = 100;

/** What may stand next. */
type Next = 'value' | 'value-or-end' | 'key' | 'key-or-end' | 'colon' | 'comma-or-end' | 'nothing';

const EXPECTED: Readonly<Record<Next, string>> = {
  value: 'a value',
  'value-or-end': 'a value or "]"',
  key: 'a key in quotation marks',
  'key-or-end': 'a key in quotation marks or "}"',
  colon: 'a colon',
  'comma-or-end': 'a comma or the closing bracket',
  nothing: 'the end of the text',
};

interface Open {
  /** Keys so far; null: a list. */
  readonly keys: Set<string> | null;
}

interface Walk {
  readonly text: string;
  atIndex: number;
  next: Next;
  readonly open: Open[];
}

const BLANK = /[ \t\n\r]*/y;
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /true|false|null/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[\da-fA-F]{4})/y;

const QUOTE = 0x22;
const BACKSLASH = 0x5c;
const FIRST_PLAIN = 0x20;

/** The first fault of a text, or null: it is JSON, not too deep, every key of an object is there once, numbers are finite. */
export function jsonFault(text: string): JsonFault | null {
  const walk: Walk = { text, atIndex: 0, next: 'value', open: [] };
  for (;;) {
    walk.atIndex = endOf(BLANK, walk);
    if (walk.atIndex >= text.length) return walk.next === 'nothing' ? null : endsEarly(walk);
    const fault = step(walk);
    if (fault !== null) return fault;
  }
}

function endOf(pattern: RegExp, { text, atIndex }: Walk): number {
  pattern.lastIndex = atIndex;
  return pattern.test(text) ? pattern.lastIndex : atIndex;
}

function step(walk: Walk): JsonFault | null {
  const sign = walk.text.charAt(walk.atIndex);
  if (sign === '"') return walk.next === 'key' || walk.next === 'key-or-end' ? key(walk) : textValue(walk);
  if (sign === '{' || sign === '[') return opening(walk, sign);
  if (sign === '}' || sign === ']') return closing(walk, sign);
  if (sign === ',' && walk.next === 'comma-or-end') return moveOn(walk, walk.open.at(-1)?.keys ? 'key' : 'value');
  if (sign === ':' && walk.next === 'colon') return moveOn(walk, 'value');
  return isValueNext(walk) ? plainValue(walk) : unexpected(walk);
}

function moveOn(walk: Walk, next: Next): null {
  walk.atIndex += 1;
  walk.next = next;
  return null;
}

const isValueNext = ({ next }: Walk): boolean => next === 'value' || next === 'value-or-end';

/** What follows a whole value. */
const afterValue = ({ open }: Walk): Next => (open.length === 0 ? 'nothing' : 'comma-or-end');

function opening(walk: Walk, sign: string): JsonFault | null {
  if (!isValueNext(walk)) return unexpected(walk);
  if (walk.open.length === MOST_DEPTH_COUNT)
    return fault(walk, 'too-deep', `More than ${MOST_DEPTH_COUNT} lists and objects stand inside one another.`);
  walk.open.push({ keys: sign === '{' ? new Set() : null });
  return moveOn(walk, sign === '{' ? 'key-or-end' : 'value-or-end');
}

function closing(walk: Walk, sign: string): JsonFault | null {
  const ofObject = sign === '}';
  const inside = walk.open.at(-1);
  const isFit = inside !== undefined && (inside.keys !== null) === ofObject;
  const isDue = walk.next === 'comma-or-end' || walk.next === (ofObject ? 'key-or-end' : 'value-or-end');
  if (!isFit || !isDue) return unexpected(walk);
  walk.open.pop();
  return moveOn(walk, afterValue(walk));
}

function key(walk: Walk): JsonFault | null {
  const startIndex = walk.atIndex;
  const broken = skipText(walk);
  if (broken !== null) return broken;
  const name: unknown = JSON.parse(walk.text.slice(startIndex, walk.atIndex));
  const keys = walk.open.at(-1)?.keys;
  if (typeof name !== 'string' || !keys) throw new Error('a key stands outside an object');
  if (keys.has(name))
    return { kind: 'key-twice', atIndex: startIndex, what: `The key "${name}" stands there a second time.` };
  keys.add(name);
  walk.next = 'colon';
  return null;
}

function textValue(walk: Walk): JsonFault | null {
  if (!isValueNext(walk)) return unexpected(walk);
  const broken = skipText(walk);
  walk.next = afterValue(walk);
  return broken;
}

/** To behind the closing quotation mark. */
function skipText(walk: Walk): JsonFault | null {
  const { text } = walk;
  const startIndex = walk.atIndex;
  walk.atIndex += 1;
  for (;;) {
    const code = text.charCodeAt(walk.atIndex);
    if (Number.isNaN(code))
      return {
        kind: 'not-json',
        atIndex: startIndex,
        what: 'The text that begins there has no closing quotation mark.',
      };
    if (code < FIRST_PLAIN)
      return fault(walk, 'not-json', 'A text holds a line end or another control character as it is.');
    if (code === QUOTE) break;
    const end = code === BACKSLASH ? endOf(ESCAPE, walk) : walk.atIndex + 1;
    if (end === walk.atIndex)
      return fault(walk, 'not-json', 'A backslash stands before something that cannot follow it.');
    walk.atIndex = end;
  }
  walk.atIndex += 1;
  return null;
}

function plainValue(walk: Walk): JsonFault | null {
  const wordEnd = endOf(WORD, walk);
  const end = wordEnd > walk.atIndex ? wordEnd : endOf(NUMBER, walk);
  if (end === walk.atIndex) return unexpected(walk);
  if (end !== wordEnd && !Number.isFinite(Number(walk.text.slice(walk.atIndex, end))))
    return fault(walk, 'number-too-large', 'The number is larger than any that can be worked with.');
  walk.atIndex = end;
  walk.next = afterValue(walk);
  return null;
}

const fault = ({ atIndex }: Walk, kind: JsonFault['kind'], what: string): JsonFault => ({ kind, atIndex, what });

/** A whole character, where its code needs two. */
const characterAt = ({ text, atIndex }: Walk): string => String.fromCodePoint(text.codePointAt(atIndex) ?? 0);

const unexpected = (walk: Walk): JsonFault =>
  fault(walk, 'not-json', `There is ${named(characterAt(walk))} where ${EXPECTED[walk.next]} belongs.`);

const named = (character: string): string => (character === '"' ? 'a quotation mark' : `"${character}"`);

const endsEarly = (walk: Walk): JsonFault =>
  fault(
    walk,
    'not-json',
    walk.text.trim() === '' ? 'The text is empty.' : `The text ends where ${EXPECTED[walk.next]} belongs.`,
  );
