import { DEFAULT_ALPHABET, ESCAPE_CODE, EXTENSION_TABLE } from './gsm-alphabet.table.ts';

/** What a short message of the mobile networks holds: 140 octets, less 6 for the header of a joined one (3GPP TS 23.040, 9.2.3.24.1). */
const SINGLE_SEPTETS_COUNT = 160;
const JOINED_SEPTETS_COUNT = 153;
const SINGLE_UNITS_COUNT = 70;
const JOINED_UNITS_COUNT = 67;

const CODES: ReadonlyMap<string, readonly number[]> = new Map([
  ...DEFAULT_ALPHABET.flatMap((character, code) =>
    code === ESCAPE_CODE ? [] : [[character, [code]] as [string, readonly number[]]],
  ),
  ...[...EXTENSION_TABLE].map(([character, code]) => [character, [ESCAPE_CODE, code]] as [string, readonly number[]]),
]);

/**
 * The septets of a character: one, or two of which the first is the escape (3GPP TS 23.038, 6.2.1).
 *
 * @param character one Unicode character
 * @returns null: neither table holds it
 */
export const septetsOf = (character: string): readonly number[] | null => CODES.get(character) ?? null;

/** How a text is sent by the mobile networks, and how much of it. */
export interface SmsLength {
  /** One character outside the tables puts the whole text into 16-bit units. */
  readonly encoding: 'gsm-7' | 'ucs-2';
  /** Septets, or 16-bit units. */
  readonly unitCount: number;
  /** Short messages it takes; an empty text takes one. */
  readonly segmentCount: number;
  /** Characters that put it into 16-bit units, each once. */
  readonly foreign: readonly string[];
}

/** Septets or units, segments, and what makes it long: no pair of escape and character, or of surrogates, is cut in two. */
export function smsLength(text: string): SmsLength {
  const characters = Array.from(text);
  const foreign = [...new Set(characters.filter((character) => !CODES.has(character)))];
  const isGsm = foreign.length === 0;
  const sizes = characters.map((character) => (isGsm ? (CODES.get(character)?.length ?? 1) : character.length));
  const unitCount = sizes.reduce((sum, size) => sum + size, 0);
  const [singleCount, joinedCount] = isGsm
    ? [SINGLE_SEPTETS_COUNT, JOINED_SEPTETS_COUNT]
    : [SINGLE_UNITS_COUNT, JOINED_UNITS_COUNT];
  const segmentCount = unitCount <= singleCount ? 1 : filledCount(sizes, joinedCount);
  return { encoding: isGsm ? 'gsm-7' : 'ucs-2', unitCount, segmentCount, foreign };
}

/** Segments that take the pieces in order, none of them cut. */
function filledCount(sizes: readonly number[], roomCount: number): number {
  let [segmentCount, filled] = [1, 0];
  for (const size of sizes) {
    if (filled + size > roomCount) [segmentCount, filled] = [segmentCount + 1, 0];
    filled += size;
  }
  return segmentCount;
}
