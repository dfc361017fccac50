/** The characters messages are written in: one septet in GSM 03.38, one octet in ASCII and UTF-8, the same in both. */

/** Base 32 of RFC 4648, section 6: no 0, 1, 8, 9, so that nothing in a check is taken for a letter. */
export const BASE_32 = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/** Ends a part. */
export const PART_END = '#';
/** Begins a part. */
export const PART_START = 'SL;';
/** Parts the head, the text and the check of a part. */
export const PART_SEPARATOR = ';';
/** Parts the text of a message from its seal. */
export const SEAL_SEPARATOR = ':';

/** Marks a body may hold beside letters and digits. Left out: what mail, web forms and telephones change (= & % < > quotes). */
export const BODY_MARKS = '+-/.,:!()?';

const FOREIGN = /[^A-Za-z0-9+\-/.,:!()?]/u;

/** The first character that may not stand in a body; null: none. */
export const firstForeign = (text: string): string | null => FOREIGN.exec(text)?.[0] ?? null;

/** Octets as base 32, five bits a character, the last filled up with zeros; no padding. */
export function base32(octets: Uint8Array): string {
  let [text, held, heldBits] = ['', 0, 0];
  for (const octet of octets) {
    held = (held << 8) | octet;
    heldBits += 8;
    while (heldBits >= 5) {
      heldBits -= 5;
      text += BASE_32[(held >>> heldBits) & 31] ?? '';
      held &= (1 << heldBits) - 1;
    }
  }
  return heldBits === 0 ? text : text + (BASE_32[(held << (5 - heldBits)) & 31] ?? '');
}
