/** Texts of others made fit to be shown: on a terminal, on a page, in a line of a log. */

/**
 * What a terminal obeys or nobody sees: control characters (Cc), marks that turn the direction of writing or have no width
 * (Cf), line and paragraph separators (Zl, Zp), lone surrogates (Cs). Unicode Standard, chapter 4.5, General Category.
 */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu;

const escaped = (character: string): string =>
  `\\u{${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}}`;

/**
 * The text with unseen characters written as `\u{202E}`, and no longer than told: of a longer one the beginning and the
 * end.
 */
export function shownText(text: string, mostCharactersCount: number): string {
  const short = shortened(text, mostCharactersCount);
  return short.search(UNSEEN) < 0 ? short : shortened(short.replaceAll(UNSEEN, escaped), mostCharactersCount);
}

function shortened(text: string, mostCharactersCount: number): string {
  if (text.length <= mostCharactersCount) return text;
  const tailCount = Math.floor(mostCharactersCount / 4);
  return `${text.slice(0, mostCharactersCount - tailCount - 3)} … ${text.slice(text.length - tailCount)}`;
}
