/** What an amount of a sentence is, by the words around it. */
import type { Rounding, Sense } from './amounts.ts';

/** One or several figures before a unit, and the text they stand in. */
export interface Amount {
  readonly figures: string;
  readonly unit: string;
  readonly before: string;
  readonly after: string;
}

export interface Meaning {
  readonly sense: Sense;
  readonly rounding: Rounding;
}

/** null: no wind, sea or temperature, or no words of ours. */
export function amountMeaning(amount: Amount): Meaning | null {
  if (isQuoted(amount.before) || isOther(amount)) return null;
  const difference = differenceRounding(amount);
  if (difference !== null) return { sense: 'difference', rounding: difference };
  // What is expected is rounded as its limit is: what is inside it must not read as outside.
  if (isLimit(amount) || isExpected(amount)) return limitMeaning(amount);
  return { sense: 'amount', rounding: 'nearest' };
}

/** A wind or sea is to stay below its limit, a temperature above: rounded to the strict side. */
export const limitMeaning = ({ unit }: Pick<Amount, 'unit'>): Meaning => ({
  sense: 'amount',
  rounding: unit === '°C' ? 'up' : 'down',
});

function isQuoted(before: string): boolean {
  const countOf = (mark: string): number => before.split(mark).length - 1;
  return countOf('"') % 2 === 1 || countOf('“') > countOf('”');
}

/** Words by which metres are of the sea. */
const SEA = /\b(?:seas?|waves?|swells?)\b(?![ -](?:anchor|room|cock))/i;
/** Words right before a speed by which it is none of the wind. */
const OTHER_SPEED =
  /\b(?:boat|current|made good|makes|log|heading \d+(?:\.\d+)?° true at|through the water)\b[^,;.]*$/i;

const isOther = (amount: Amount): boolean =>
  (amount.unit === 'm' && !SEA.test(sentenceAround(amount))) ||
  (amount.unit === 'kn' && OTHER_SPEED.test(amount.before));

/** The sentence an amount stands in, without the amount. */
function sentenceAround({ before, after }: Amount): string {
  const begin = before.search(/[^.!?]*(?:[.!?](?!\s)[^.!?]*)*$/);
  const end = after.search(/[.!?](?:\s|$)/);
  return `${before.slice(Math.max(0, begin))}${end < 0 ? after : after.slice(0, end)}`;
}

const LIMIT_BEFORE =
  /(?:\b(?:above|below|under|at most|at least|up to|st(?:art|op) at|stands(?: only)?|more than|less than|against|from|limit)|, gusts) $/i;

const isLimit = ({ before, after }: Amount): boolean =>
  LIMIT_BEFORE.test(before) || /^ (?:allowed|at most|at least|needed|no-go)\b/.test(after);

const isExpected = ({ before, after }: Amount): boolean => /^ expected\b/.test(after) || /\bexpected $/.test(before);

/** Room to a limit, which is rounded down. */
const isRoom = ({ before, after }: Amount): boolean =>
  /^ (?:to spare|of room)\b/.test(after) || /(?<!\bstands )\bonly $/.test(before);

/** What is missing, rounded up. Wind over the deck is no excess. */
const isExcess = ({ before, after }: Amount): boolean =>
  /^ (?:over|under|short|above|below|more)\b(?! the deck\b)/.test(after) || /\bshort by $/.test(before);

const isOtherDifference = ({ figures, before, after }: Amount): boolean =>
  (/^[+−]/.test(figures) && after.startsWith(' on average')) ||
  /^ (?:typically|warmer|colder)\b/.test(after) ||
  /(?:\bfor every|\+) $/.test(before);

/** null: it is no difference. */
function differenceRounding(amount: Amount): Rounding | null {
  if (isRoom(amount)) return 'down';
  if (isExcess(amount)) return 'up';
  return isOtherDifference(amount) ? 'nearest' : null;
}
