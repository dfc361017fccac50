/** The table of rows of cells: RFC 4180 with commas, CRLF after every row, quotes only where they are needed. */
export const csvText = (rows: readonly (readonly string[])[]): string =>
  rows.map((cells) => `${cells.map(quotedIfNeeded).join(',')}\r\n`).join('');

/** A semicolon and spaces at the ends too: some spreadsheets divide at the one, and drop the others. */
const quotedIfNeeded = (text: string): string =>
  /[",;\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;

/**
 * What a spreadsheet takes for the beginning of a formula, behind any spaces, quotes and apostrophes; wide forms included.
 * Tab, line end and null count too, but no text of ours holds a control character.
 */
const FORMULA = /^[\s'"]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]/;

/**
 * A text that no spreadsheet takes for a formula: with an apostrophe before it where it begins like one.
 *
 * CWE-1236, potential mitigations, and OWASP ASVS 5.0 requirement 1.2.10; the wide forms are those of OWASP's page on the
 * subject (from memory).
 */
export const withoutFormula = (text: string): string => (FORMULA.test(text) ? `'${text}` : text);

/** The text before `withoutFormula`. */
export const asItWas = (text: string): string => (text.startsWith("'") && FORMULA.test(text) ? text.slice(1) : text);
