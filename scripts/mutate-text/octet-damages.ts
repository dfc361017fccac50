/** Damages any text may come by: on the way, in a wrong program, in a wrong encoding. */
import { type Damage, ofText, type WeighedDamage } from './mutant.ts';

const MOST_FLIPS = 6;
const MOST_STRETCH = 40;

/** Octets that are no UTF-8: a stray continuation, an overlong slash, a surrogate, beyond the last code point, no octet of it. */
const NOT_UTF_8 = [[0x80], [0xc0, 0xaf], [0xed, 0xa0, 0x80], [0xf4, 0x90, 0x80, 0x80], [0xff], [0xfe], [0xe2, 0x82]];

/** Signs that are looked at twice by readers: ends of lines, zero widths, directions, a terminal's escape, look-alikes. */
const STRANGE = [
  '\0',
  '\u0001',
  '\u001B[31m',
  '\u007F',
  '\u0085',
  '\u00A0',
  '\u00AD',
  '\u200B',
  '\u200D',
  '\u2028',
  '\u202E',
  '\u2066',
  '\uFEFF',
  '\uFFFD',
  '\uFFFF',
  '\u0410',
  '\uFF10',
  'é',
  'e\u0301',
  '\u{1F600}',
  '\u{E0041}',
  '"',
  "'",
  '\\',
  '<',
  '&',
  '\t',
  '\v',
];

const joined = (...parts: readonly Uint8Array[]): Buffer => Buffer.concat(parts);

const flipBits: Damage = (octets, { below }) => {
  if (octets.length === 0) return octets;
  const flipped = Buffer.from(octets);
  for (let left = 1 + below(MOST_FLIPS); left > 0; left--) {
    const at = below(flipped.length);
    flipped[at] = (flipped[at] ?? 0) ^ (1 << below(8));
  }
  return flipped;
};

const putIn =
  (pieceOf: (chance: Parameters<Damage>[1]) => Uint8Array): Damage =>
  (octets, chance) => {
    const at = chance.below(octets.length + 1);
    return joined(octets.subarray(0, at), pieceOf(chance), octets.subarray(at));
  };

/** Damages of every format. */
export const OCTET_DAMAGES: readonly WeighedDamage[] = [
  { name: 'bits flipped', weight: 4, damage: flipBits },
  { name: 'cut short', weight: 4, damage: (octets, { below }) => octets.subarray(0, below(octets.length + 1)) },
  { name: 'beginning lost', weight: 1, damage: (octets, { below }) => octets.subarray(below(octets.length + 1)) },
  {
    name: 'octets taken out',
    weight: 2,
    damage: (octets, { below }) => {
      const from = below(octets.length + 1);
      return joined(octets.subarray(0, from), octets.subarray(from + 1 + below(MOST_STRETCH)));
    },
  },
  {
    name: 'a stretch twice',
    weight: 2,
    damage: (octets, { below }) => {
      const [from, length] = [below(octets.length + 1), 1 + below(MOST_STRETCH)];
      return joined(octets.subarray(0, from + length), octets.subarray(from));
    },
  },
  { name: 'octets that are no UTF-8', weight: 2, damage: putIn(({ pick }) => Uint8Array.from(pick(NOT_UTF_8))) },
  { name: 'a strange sign', weight: 5, damage: putIn(({ pick }) => Buffer.from(pick(STRANGE), 'utf8')) },
  { name: 'zeros at the end', weight: 1, damage: (octets, { below }) => joined(octets, Buffer.alloc(1 + below(600))) },
  { name: 'a byte order mark', weight: 1, damage: (octets) => joined(Buffer.from('\uFEFF', 'utf8'), octets) },
  { name: 'UTF-16', weight: 1, damage: (octets) => Buffer.from(`\uFEFF${octets.toString('utf8')}`, 'utf16le') },
  { name: 'CRLF', weight: 1, damage: ofText((text) => text.replaceAll('\n', '\r\n')) },
  { name: 'CR', weight: 1, damage: ofText((text) => text.replaceAll('\n', '\r')) },
  { name: 'nothing at all', weight: 1, damage: (octets, { oneIn }) => (oneIn(4) ? Buffer.alloc(0) : octets) },
  {
    name: 'the end of another',
    weight: 1,
    damage: (octets, { below, anySample }) => {
      const other = Buffer.from(anySample().text, 'utf8');
      return joined(octets.subarray(0, below(octets.length + 1)), other.subarray(below(other.length + 1)));
    },
  },
];
