/** Damage that keeps a message consistent enough to be read far: counts that agree, scales, bitmaps, lengths, many messages. */
import type { Chance, Damage } from './chance.ts';
import { headerPlaces, type NumberPlace, readNumber, type SectionSpan, sectionsOf } from './header-places.ts';
import { joined, replaced, writeNumber } from './octets.ts';
import { setImageSize } from './payload-damages.ts';

/** Columns and rows: none, one, the most that are accepted and one above, and as many as the octets can say. */
const SIZES: readonly (readonly [columns: number, rows: number])[] = [
  [0, 0],
  [1, 1],
  [1, 5000],
  [4000, 4000],
  [4001, 4000],
  [16_000_000, 1],
  [1, 16_000_000],
  [65_535, 240],
  [46_341, 46_341],
  [65_535, 65_535],
  [2 ** 31 - 1, 1],
  [1, 2 ** 31],
  [2 ** 32 - 1, 2 ** 32 - 1],
];

const octetsFrom = (section: SectionSpan, octet: number, lengthOctets: number): NumberPlace => ({
  startIndex: section.startIndex + octet - 1,
  lengthOctets,
});

/** Writes into a section as the standard numbers its octets; what lies beyond the section is left. */
function put(bytes: Uint8Array, place: NumberPlace & { readonly section: SectionSpan }, value: number): void {
  const { section, startIndex, lengthOctets } = place;
  if (startIndex + lengthOctets > section.startIndex + section.lengthOctets) return;
  writeNumber(bytes, place, Math.min(256 ** lengthOctets - 1, value));
}

const sectionOf = (bytes: Uint8Array, number: number): SectionSpan | undefined =>
  sectionsOf(bytes).find(({ sectionNumber }) => sectionNumber === number);

/** Points of the grid, columns, rows, values and the size of an image all say the same. */
function setPoints(bytes: Uint8Array, { pick }: Chance): Uint8Array {
  const [columns, rows] = pick(SIZES);
  const isEdition2 = bytes[7] === 2;
  const [grid, packed] = [sectionOf(bytes, isEdition2 ? 3 : 2), sectionOf(bytes, isEdition2 ? 5 : 4)];
  if (grid === undefined || packed === undefined) return bytes;
  const [octet, lengthOctets] = isEdition2 ? [31, 4] : [7, 2];
  put(bytes, { section: grid, ...octetsFrom(grid, octet, lengthOctets) }, columns);
  put(bytes, { section: grid, ...octetsFrom(grid, octet + lengthOctets, lengthOctets) }, rows);
  if (!isEdition2) return bytes;
  put(bytes, { section: grid, ...octetsFrom(grid, 7, 4) }, columns * rows);
  put(bytes, { section: packed, ...octetsFrom(packed, 6, 4) }, columns * rows);
  return setImageSize(bytes, { columns, rows });
}

/** The field says to be a gust at 10 m, so that a forecast takes it; octets of template 4.0, which others begin with. */
export function sayGust(bytes: Uint8Array): Uint8Array {
  for (const section of sectionsOf(bytes).filter(({ sectionNumber }) => bytes[7] === 2 && sectionNumber === 4)) {
    writeNumber(bytes, { startIndex: 6, lengthOctets: 1 }, 0);
    const octets: readonly (readonly [octet: number, lengthOctets: number, value: number])[] = [
      [10, 1, 2],
      [11, 1, 22],
      [23, 1, 103],
      [24, 1, 0],
      [25, 4, 10],
      [29, 1, 255],
    ];
    for (const [octet, lengthOctets, value] of octets)
      put(bytes, { section, ...octetsFrom(section, octet, lengthOctets) }, value);
  }
  return bytes;
}

/** Infinities, no numbers, the largest and the least of single precision; codes of the same as four octets. */
const REFERENCES = [0x7f80_0000, 0xff80_0000, 0x7fc0_0000, 0x7f7f_ffff, 0xff7f_ffff, 1, 0x8000_0000, 0x7f00_0000];
/** Factors as sign and magnitude: 0, ±1, ±128, ±256, ±257, ±32767. */
const FACTORS = [0, 1, 0x8001, 128, 0x8080, 256, 0x8100, 257, 0x8101, 0x7fff, 0xffff];
const WIDTHS_BITS = [0, 1, 7, 25, 31, 32, 33, 64, 128, 255];

/** Reference value, scale factors and width. */
function setScale(bytes: Uint8Array, { below, pick }: Chance): Uint8Array {
  const isEdition2 = bytes[7] === 2;
  const packed = sectionOf(bytes, isEdition2 ? 5 : 4);
  const product = sectionOf(bytes, 1);
  if (packed === undefined || product === undefined) return bytes;
  const at = isEdition2
    ? { reference: 12, binary: 16, decimal: 18, decimalIn: packed, width: 20 }
    : { reference: 7, binary: 5, decimal: 27, decimalIn: product, width: 11 };
  const choices = [
    (): void => put(bytes, { section: packed, ...octetsFrom(packed, at.reference, 4) }, pick(REFERENCES)),
    (): void => put(bytes, { section: packed, ...octetsFrom(packed, at.binary, 2) }, pick(FACTORS)),
    (): void => put(bytes, { section: at.decimalIn, ...octetsFrom(at.decimalIn, at.decimal, 2) }, pick(FACTORS)),
    (): void => put(bytes, { section: packed, ...octetsFrom(packed, at.width, 1) }, pick(WIDTHS_BITS)),
  ];
  for (let left = 1 + below(3); left > 0; left--) pick(choices)();
  return bytes;
}

/** A bitmap longer or shorter than the grid, its section's length with it. */
function resizeBitmap(bytes: Uint8Array, { below }: Chance): Uint8Array {
  const isEdition2 = bytes[7] === 2;
  const section = sectionOf(bytes, isEdition2 ? 6 : 3);
  if (section === undefined) return bytes;
  const lengthOctets = Math.max(isEdition2 ? 5 : 4, section.lengthOctets + below(9) - 4);
  const octets = Uint8Array.from({ length: lengthOctets }, (_, i) =>
    i < section.lengthOctets ? (bytes[section.startIndex + i] ?? 0) : below(256),
  );
  writeNumber(octets, { startIndex: 0, lengthOctets: isEdition2 ? 4 : 3 }, lengthOctets);
  if (below(3) === 0) octets.fill(below(2) * 255, 6);
  return replaced(bytes, { from: section.startIndex, to: section.startIndex + section.lengthOctets }, octets);
}

/** The length of one section: none, one more or less, half the range, all of it. */
function setSectionLength(bytes: Uint8Array, { pick }: Chance): Uint8Array {
  const sections = sectionsOf(bytes);
  if (sections.length === 0) return bytes;
  const section = pick(sections);
  const lengthOctets = bytes[7] === 2 ? 4 : 3;
  const largest = 256 ** lengthOctets - 1;
  const coded = section.lengthOctets;
  const value = pick([0, 1, 4, 5, coded - 1, coded + 1, coded + 4, (largest + 1) / 2, largest - 1, largest]);
  writeNumber(bytes, { startIndex: section.startIndex, lengthOctets }, Math.max(0, value));
  return bytes;
}

/** One message many times, or many times its first octets only. */
function repeatMessage(bytes: Uint8Array, { below, pick }: Chance): Uint8Array {
  const piece = bytes.subarray(0, pick([8, 16, 21, bytes.length, bytes.length]));
  if (piece.length === 0) return bytes;
  const mostCount = Math.min(400, Math.floor(MOST_REPEATED_OCTETS / piece.length));
  return joined(...Array.from({ length: 1 + below(Math.max(1, mostCount)) }, () => piece));
}

const MOST_REPEATED_OCTETS = 60_000;

/** One header number, twice over in different places: counts that agree by chance. */
function copyNumber(bytes: Uint8Array, { pick }: Chance): Uint8Array {
  const places = headerPlaces(bytes);
  const from = pick(places);
  const alike = places.filter(({ lengthOctets }) => lengthOctets === from.lengthOctets);
  writeNumber(bytes, pick(alike), readNumber(bytes, from));
  return bytes;
}

export const FIELD_DAMAGES: readonly (readonly [name: string, damage: Damage, weight: number])[] = [
  ['points set throughout', setPoints, 2],
  ['scale set', setScale, 3],
  ['bitmap longer or shorter', resizeBitmap, 2],
  ['section length set', setSectionLength, 2],
  ['message repeated', repeatMessage, 1],
  ['number copied', copyNumber, 1],
];
