/**
 * Names in capitals: ids of jobs, handlings and sail states are mostly small letters, and messages are all capitals.
 *
 * Small letters become capitals; digits and `-` stay; a capital is `!` and the letter, `_` is `!-`, anything else the
 * number of the character in hexadecimal between brackets. Any text comes back as it was.
 */
export function formatId(id: string): string {
  return Array.from(id)
    .map((character) => {
      if (/^[a-z]$/.test(character)) return character.toUpperCase();
      if (/^[0-9-]$/.test(character)) return character;
      if (/^[A-Z]$/.test(character)) return `!${character}`;
      return character === '_' ? '!-' : `(${(character.codePointAt(0) ?? 0).toString(16).toUpperCase()})`;
    })
    .join('');
}

const PIECES = /!([A-Z-])|\(([0-9A-F]{1,6})\)|([A-Z])|([0-9-])/gy;

/** The id of a text by `formatId`; null: it is none. */
export function parseId(text: string): string | null {
  let [id, read] = ['', 0];
  for (const match of text.matchAll(PIECES)) {
    const [whole, escaped, code, letter, same] = match;
    read += whole.length;
    if (escaped !== undefined) id += escaped === '-' ? '_' : escaped;
    else if (code !== undefined) {
      const point = Number.parseInt(code, 16);
      if (point > 0x10ffff) return null;
      id += String.fromCodePoint(point);
    } else id += letter?.toLowerCase() ?? same ?? '';
  }
  return read === text.length ? id : null;
}
