/**
 * GSM 7 bit default alphabet and its extension table: 3GPP TS 23.038, 6.2.1 and 6.2.1.1. The place of a character is its
 * septet; place 27 is the escape to the extension table and no character.
 */
export const ESCAPE_CODE = 0x1b;

export const DEFAULT_ALPHABET: readonly string[] = Array.from(
  [
    '@£$¥èéùìòÇ\nØø\rÅå',
    'Δ_ΦΓΛΩΠΨΣΘΞ\u001bÆæßÉ',
    ' !"#¤%&\'()*+,-./',
    '0123456789:;<=>?',
    '¡ABCDEFGHIJKLMNO',
    'PQRSTUVWXYZÄÖÑÜ§',
    '¿abcdefghijklmno',
    'pqrstuvwxyzäöñüà',
  ].join(''),
);

/** Second septets of the characters that take two: the first is the escape. */
export const EXTENSION_TABLE: ReadonlyMap<string, number> = new Map([
  ['\f', 0x0a],
  ['^', 0x14],
  ['{', 0x28],
  ['}', 0x29],
  ['\\', 0x2f],
  ['[', 0x3c],
  ['~', 0x3d],
  [']', 0x3e],
  ['|', 0x40],
  ['€', 0x65],
]);
