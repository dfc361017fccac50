/** Text in columns of a terminal or a printed sheet. */

/** Drawn over the character before it, or not at all. */
const NO_WIDTH = /^[\p{Mark}\p{Default_Ignorable_Code_Point}]$/u;
/** Drawn two columns wide: East Asian scripts and full-width forms (Unicode Standard Annex 11), and pictures. */
const DOUBLE_WIDTH =
  /^[\u{1100}-\u{115F}\u{2E80}-\u{A4CF}\u{AC00}-\u{D7A3}\u{F900}-\u{FAFF}\u{FE30}-\u{FE6F}\u{FF00}-\u{FF60}\u{FFE0}-\u{FFE6}\p{Emoji_Presentation}\u{20000}-\u{3FFFD}]$/u;

/** Columns a text takes. */
export function columnCount(text: string): number {
  let count = 0;
  for (const character of text) count += widthCount(character);
  return count;
}

function widthCount(character: string): number {
  if (NO_WIDTH.test(character)) return 0;
  return DOUBLE_WIDTH.test(character) ? 2 : 1;
}

/** Lines of at most `mostCount` columns, broken at spaces, or inside a word that is longer than a line. */
export function wrapped(text: string, mostCount: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/ +/).flatMap((part) => wordParts(part, mostCount))) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (columnCount(longer) > mostCount) {
      lines.push(line);
      line = word;
    } else {
      line = longer;
    }
  }
  return [...lines, line];
}

/** A word that fits, or its pieces. */
function wordParts(word: string, mostCount: number): string[] {
  const parts: string[] = [];
  let part = '';
  for (const character of word) {
    if (columnCount(part + character) > mostCount) {
      parts.push(part);
      part = '';
    }
    part += character;
  }
  return [...parts, part];
}
