/** Which kinds of packing, grid, product and file a sample shows, by the template numbers in its octets. */
import type { Sample } from './chance.ts';
import { readNumber, type SectionSpan, sectionsOf } from './header-places.ts';

/** Kinds in words such as `5.40`, `3.0`, `4.8`, `6 bitmap`, `1 packing second order`. */
export function kindsOf({ bytes }: Sample): readonly string[] {
  const kinds = new Set<string>();
  const starts = startsOf(bytes);
  for (const startIndex of starts) {
    const message = bytes.subarray(startIndex);
    const sections = sectionsOf(message);
    for (const kind of message[7] === 2 ? ofEdition2(message, sections) : ofEdition1(message, sections))
      kinds.add(kind);
  }
  if (starts.length > 1) kinds.add('several messages');
  if (new Set(starts.map((start) => bytes[start + 7])).size > 1) kinds.add('both editions');
  if ((starts[0] ?? 0) > 0) kinds.add('bulletin header');
  return [...kinds];
}

function startsOf(bytes: Uint8Array): number[] {
  const octets = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const starts: number[] = [];
  let index = octets.indexOf('GRIB');
  while (index >= 0) {
    const edition = bytes[index + 7];
    if (edition === 1 || edition === 2) starts.push(index);
    index = octets.indexOf('GRIB', index + 4);
  }
  return starts;
}

const octetsAt = (message: Uint8Array, { startIndex }: SectionSpan, octet: number, lengthOctets = 1): number =>
  readNumber(message, { startIndex: startIndex + octet - 1, lengthOctets });

const BITMAPS: Readonly<Record<number, string>> = { 0: '6 bitmap', 254: '6 bitmap as before', 255: '6 no bitmap' };

function ofEdition2(message: Uint8Array, sections: readonly SectionSpan[]): string[] {
  const kinds = sections.flatMap((section): string[] => {
    const at = (octet: number, lengthOctets = 1): number => octetsAt(message, section, octet, lengthOctets);
    switch (section.sectionNumber) {
      case 2:
        return ['2 local use'];
      case 3:
        return [`3.${at(13, 2)}`, ...(at(11) > 0 ? ['3 thinned'] : [])];
      case 4:
        return [`4.${at(8, 2)}`];
      case 5:
        return packingOf(at);
      case 6:
        return [BITMAPS[at(6)] ?? '6 bitmap of the centre'];
      default:
        return [];
    }
  });
  const fieldCount = sections.filter(({ sectionNumber }) => sectionNumber === 7).length;
  return fieldCount > 1 ? [...kinds, 'several fields'] : kinds;
}

/** Template, with what makes another way through the reader of it. */
function packingOf(at: (octet: number, lengthOctets?: number) => number): string[] {
  const templateNumber = at(10, 2);
  const name = `5.${templateNumber}`;
  if (templateNumber === 3) return [`${name} order ${at(48)}`, ...missingOf(name, at(23))];
  if (templateNumber === 2) return [name, ...missingOf(name, at(23))];
  if (templateNumber === 4) return [`${name} precision ${at(12)}`];
  if (templateNumber === 41) return [`${name} of ${at(20)} bits`];
  return templateNumber === 0 && at(20) === 0 ? [`${name} of 0 bits`] : [name];
}

const missingOf = (name: string, management: number): string[] =>
  management === 0 ? [] : [`${name} missing values ${management}`];

const BDS_FLAGS = { spectral: 0x80, complex: 0x40, additional: 0x10 } as const;

function ofEdition1(message: Uint8Array, sections: readonly SectionSpan[]): string[] {
  const hasGrid = sections.some(({ sectionNumber }) => sectionNumber === 2);
  const kinds = sections.flatMap((section): string[] => {
    const at = (octet: number, lengthOctets = 1): number => octetsAt(message, section, octet, lengthOctets);
    if (section.sectionNumber === 1) return section.lengthOctets > 28 ? ['1 local use'] : [];
    if (section.sectionNumber === 2) return [`1 grid ${at(6)}${at(7, 2) === 0xffff ? ' thinned' : ''}`];
    if (section.sectionNumber === 3) return [at(5, 2) === 0 ? '1 bitmap' : '1 bitmap of the centre'];
    return [edition1Packing(at(4))];
  });
  return hasGrid ? kinds : [...kinds, '1 no grid'];
}

function edition1Packing(flags: number): string {
  const has = (mask: number): boolean => (flags & mask) !== 0;
  const packing = has(BDS_FLAGS.spectral) ? 'spectral' : has(BDS_FLAGS.complex) ? 'second order' : 'simple';
  return `1 packing ${packing}${has(BDS_FLAGS.additional) ? ', more flags' : ''}`;
}

/** `before` in front of each of the words. */
const each = (before: string, words: string, parting = ' '): string[] =>
  words.split(parting).map((word) => `${before}${word}`);

/** What is read or refused by name, each of which some sample has to show. */
export const EXPECTED_KINDS: readonly string[] = [
  ...each('3.', '0 1 10 20 30 40 2 31 50 90 100 101 120 140'),
  '3 thinned',
  ...each('4.', '0 1 2 5 6 7 8 9 10 11 12 15 60 61 103 104 117 118'),
  ...each('4.', '40 41 42 43 44 45 46 47 48 49 51 91 1000 1100'),
  ...each('5.', '0, 0 of 0 bits, 1, 2, 3 order 0, 3 order 1, 3 order 2, 3 missing values 1', ', '),
  ...each('5.', '4 precision 1, 4 precision 2, 40, 42, 51, 53, 61, 200, 50001, 50002', ', '),
  ...each('5.41 of ', '8 bits, 16 bits, 24 bits, 32 bits', ', '),
  ...each('6 ', 'bitmap, bitmap as before, no bitmap, bitmap of the centre', ', '),
  '2 local use',
  ...each('1 grid ', '0, 1, 3, 4, 5, 10, 50, 0 thinned, 4 thinned', ', '),
  ...each('1 ', 'no grid, bitmap, bitmap of the centre, local use', ', '),
  ...each('1 packing ', 'simple; simple, more flags; second order, more flags; spectral', '; '),
  ...each('', 'several messages, several fields, both editions, bulletin header', ', '),
];
