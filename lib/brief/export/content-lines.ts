/** Content lines of iCalendar, RFC 5545 section 3.1. */
import { plainText } from './plain-text.ts';

/** Longest line, its line break left out [octets of UTF-8]; RFC 5545, 3.1. */
const LONGEST_OCTETS = 75;

/** A value of type TEXT: backslash, semicolon, comma and line end escaped; RFC 5545, 3.3.11. */
export const textValue = (text: string): string =>
  plainText(text).replaceAll('\\', '\\\\').replaceAll(';', '\\;').replaceAll(',', '\\,').replaceAll('\n', '\\n');

/** A DATE-TIME in UTC, form 2 of RFC 5545, 3.3.5: `20260528T020000Z`. */
export const utcValue = (epochMs: number): string =>
  `${new Date(epochMs).toISOString().slice(0, 19).replaceAll(/[-:]/g, '')}Z`;

/** The lines as one text: each folded where it is too long and ended by CRLF; RFC 5545, 3.1. */
export const contentText = (lines: readonly string[]): string =>
  lines.map((line) => `${folded(line).join('\r\n')}\r\n`).join('');

/** A line in pieces of 75 octets at most, each but the first begun by a space; no character is cut. */
function folded(line: string): string[] {
  const pieces: string[] = [];
  let piece = '';
  let pieceOctets = 0;
  for (const character of line) {
    const octets = utf8Octets(character);
    if (pieceOctets + octets > LONGEST_OCTETS) {
      pieces.push(piece);
      [piece, pieceOctets] = [' ', 1];
    }
    piece += character;
    pieceOctets += octets;
  }
  return [...pieces, piece];
}

/** Octets of one character in UTF-8 (RFC 3629, 3). */
function utf8Octets(character: string): number {
  const code = character.codePointAt(0) ?? 0;
  if (code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code < 0x10000 ? 3 : 4;
}
