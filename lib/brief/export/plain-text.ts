/** Controls but the line end: no text format of ours allows all of them, and none needs one. */
const CONTROL = /(?!\n)\p{Control}/gu;
/** Half a character, and two code points that are none: XML 1.0 (2.2) forbids them, UTF-8 has no octets for the first. */
const NO_CHARACTER = /[\p{Surrogate}\u{FFFE}\u{FFFF}]/gu;
const LINE_END = /\r\n|[\r\n\u{2028}\u{2029}]/gu;

/** Text of others made fit for a file: line ends as `\n`, tabs as spaces, what is no character dropped. */
export const plainText = (text: string): string =>
  text.replaceAll(LINE_END, '\n').replaceAll('\t', ' ').replaceAll(CONTROL, '').replaceAll(NO_CHARACTER, '');

/** The same on one line, without spaces around it. */
export const oneLine = (text: string): string => plainText(text).replaceAll('\n', ' ').trim();
