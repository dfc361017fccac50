/** Free text in a message: capitals, digits, blanks and a few marks. */

/** Longest note [characters]; ours. */
export const MOST_NOTE_COUNT = 240;

/** Marks that cannot stand as they are, and what is written for them. A blank is a full stop: blanks are lost on the way. */
const MARKS: ReadonlyMap<string, string> = new Map([
  [' ', '.'],
  ['.', '!D'],
  [',', '!C'],
  ['/', '!S'],
  [':', '!K'],
  ['!', '!X'],
  ['?', '!Q'],
  ['%', '!P'],
  ["'", '!A'],
  [';', '!N'],
  ['=', '!E'],
]);
const OF_TEXT: ReadonlyMap<string, string> = new Map([...MARKS].map(([mark, text]) => [text, mark]));

/**
 * What of a text can be sent: capitals without accents, one blank where there were several, `?` for what has no place.
 * What comes out stays as it is when it is put in again.
 */
export function sendableNote(text: string): string {
  const plain = text
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toUpperCase()
    .normalize('NFKD')
    .replaceAll(/[’‘]/g, "'")
    .replaceAll(/[‐-―]/g, '-')
    .replaceAll(/\s+/g, ' ');
  const known = Array.from(plain)
    .map((character) => (isSendable(character) ? character : '?'))
    .join('');
  return known.slice(0, MOST_NOTE_COUNT).trim();
}

const isSendable = (character: string): boolean => MARKS.has(character) || /^[A-Z0-9+()-]$/.test(character);

/** A note as it is written; `sendableNote` comes first. */
export const formatNote = (note: string): string =>
  Array.from(note)
    .map((character) => MARKS.get(character) ?? character)
    .join('');

/** The note of a text by `formatNote`; null: it is none. */
export function parseNote(text: string): string | null {
  let note = '';
  for (let at = 0; at < text.length; at++) {
    const character = text[at] ?? '';
    const escaped = character === '!' ? text.slice(at, at + 2) : character;
    const plain = OF_TEXT.get(escaped) ?? (escaped.length === 1 && /^[A-Z0-9+()-]$/.test(character) ? character : null);
    if (plain === null) return null;
    note += plain;
    at += escaped.length - 1;
  }
  return note === sendableNote(note) && note !== '' ? note : null;
}
