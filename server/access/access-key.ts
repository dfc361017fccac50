import { createHash, randomInt, timingSafeEqual } from 'node:crypto';

/** Small letters and figures that cannot be taken for one another when they are read off paper. */
const LETTERS = 'abcdefghjkmnpqrstuvwxyz23456789';
const GROUPS_COUNT = 4;
const GROUP_LETTERS_COUNT = 5;

/** Letters and figures a key must have, without spaces and hyphens: NIST SP 800-63B-4 §3.1.1.2 wants 15 of a password. */
export const LEAST_LETTERS_COUNT = 16;
/** Different ones among them. */
export const LEAST_DIFFERENT_COUNT = 8;

/** A key as it is compared: hashed, so that comparing says nothing of how much of it was right. */
export type KeyDigest = Buffer;

/** A new key: four groups of five letters and figures out of 31, drawn from the system's own source; 99 bits. */
export function drawAccessKey(): string {
  const letter = (): string => LETTERS[randomInt(LETTERS.length)] ?? '';
  const group = (): string => Array.from({ length: GROUP_LETTERS_COUNT }, letter).join('');
  return Array.from({ length: GROUPS_COUNT }, group).join('-');
}

/** What counts of a key: a telephone begins with a capital, and paper has gaps that nobody types. */
const plainKey = (text: string): string =>
  text
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll(/[\s\p{Pd}]+/gu, '');

export const keyDigest = (text: string): KeyDigest => createHash('sha256').update(plainKey(text)).digest();

/** Whether both are of one key; takes as long whatever the answer. */
export const isSameKey = (one: KeyDigest, other: KeyDigest): boolean => timingSafeEqual(one, other);

/** Whether nobody guesses it in the time the limits of attempts leave. */
export function isStrongKey(text: string): boolean {
  const letters = Array.from(plainKey(text));
  return letters.length >= LEAST_LETTERS_COUNT && new Set(letters).size >= LEAST_DIFFERENT_COUNT;
}
