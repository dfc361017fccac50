/** The sections of one message of edition 1, followed by their lengths. */
import type { Problem } from '../../result/index.ts';
import { END_MARK, hasMark } from '../marks.ts';
import { damaged, endMissing, type MessagePlace, truncated } from '../problems.ts';
import { octet1, octet3, type Section, type SectionPlace, viewSection } from '../section.ts';

/** Sections of a message; `end` is a flaw that does not stop the reading. */
export interface Edition1Sections {
  readonly product: Section;
  readonly grid: Section | null;
  readonly bitmap: Section | null;
  readonly data: Section;
  readonly nextIndex: number;
  readonly flaw: Problem | null;
}

/** Octets of Section 0. */
const INDICATOR_OCTETS = 8;
/** Fewest octets of sections 1 to 4. */
const LEAST_OCTETS: readonly number[] = [8, 28, 6, 6, 11];

/** Walks the message at `place`, whose Section 0 is complete. */
export function walkEdition1(bytes: Uint8Array, place: MessagePlace): Edition1Sections | Problem {
  const startIndex = place.messageOffsetOctet;
  const product = sectionAt(bytes, place, { sectionNumber: 1, startIndex: startIndex + INDICATOR_OCTETS });
  if ('remedy' in product) return product;
  const flags = octet1(product, 8);
  let index = endOf(product);
  const grid = (flags & 0x80) === 0 ? null : sectionAt(bytes, place, { sectionNumber: 2, startIndex: index });
  if (grid !== null && 'remedy' in grid) return grid;
  index = grid === null ? index : endOf(grid);
  const bitmap = (flags & 0x40) === 0 ? null : sectionAt(bytes, place, { sectionNumber: 3, startIndex: index });
  if (bitmap !== null && 'remedy' in bitmap) return bitmap;
  index = bitmap === null ? index : endOf(bitmap);
  const data = dataSectionAt(bytes, place, index);
  return 'remedy' in data ? data : close(bytes, place, { product, grid, bitmap, data });
}

const endOf = (place: SectionPlace): number => place.startIndex + place.lengthOctets;

function sectionAt(
  bytes: Uint8Array,
  place: MessagePlace,
  at: { sectionNumber: number; startIndex: number },
): Section | Problem {
  const least = LEAST_OCTETS[at.sectionNumber] ?? 0;
  if (at.startIndex + least > bytes.length) return truncated(place, bytes.length);
  const lengthOctets = octet3(viewSection(bytes, at.sectionNumber, { startIndex: at.startIndex, lengthOctets: 3 }), 1);
  if (lengthOctets < least) return tooSmall(bytes, place, { ...at, lengthOctets });
  if (at.startIndex + lengthOctets > bytes.length) return truncated(place, bytes.length);
  return viewSection(bytes, at.sectionNumber, { startIndex: at.startIndex, lengthOctets });
}

const tooSmall = (
  bytes: Uint8Array,
  place: MessagePlace,
  at: { sectionNumber: number; startIndex: number; lengthOctets: number },
): Problem =>
  damaged(place, {
    code: 'grib.section-broken',
    section: viewSection(bytes, at.sectionNumber, { startIndex: at.startIndex, lengthOctets: 3 }),
    octet: 1,
    what: `The section declares ${at.lengthOctets} octets.`,
    expected: `at least ${LEAST_OCTETS[at.sectionNumber] ?? 0}`,
  });

/**
 * Section 4. Three octets cannot count above 16 777 215; centres that write larger messages set the first bit of the
 * total length, count it in units of 120 octets, and put the padding into the length of Section 4 (then below 120).
 */
function dataSectionAt(bytes: Uint8Array, place: MessagePlace, startIndex: number): Section | Problem {
  const indicator = viewSection(bytes, 0, { startIndex: place.messageOffsetOctet, lengthOctets: INDICATOR_OCTETS });
  const declared = octet3(indicator, 5);
  if (declared < 0x80_0000) return sectionAt(bytes, place, { sectionNumber: 4, startIndex });
  if (startIndex + 11 > bytes.length) return truncated(place, bytes.length);
  const stored = octet3(viewSection(bytes, 4, { startIndex, lengthOctets: 3 }), 1);
  if (stored >= 120) return sectionAt(bytes, place, { sectionNumber: 4, startIndex });
  const totalOctets = (declared - 0x80_0000) * 120 - stored + END_MARK.length;
  const lengthOctets = totalOctets - END_MARK.length - (startIndex - place.messageOffsetOctet);
  if (lengthOctets < 11) return tooSmall(bytes, place, { sectionNumber: 4, startIndex, lengthOctets });
  if (startIndex + lengthOctets > bytes.length) return truncated(place, bytes.length);
  return viewSection(bytes, 4, { startIndex, lengthOctets });
}

function close(
  bytes: Uint8Array,
  place: MessagePlace,
  sections: Pick<Edition1Sections, 'product' | 'grid' | 'bitmap' | 'data'>,
): Edition1Sections {
  const index = endOf(sections.data);
  const isEnded = hasMark(bytes, index, END_MARK);
  const nextIndex = isEnded ? index + END_MARK.length : index;
  return { ...sections, nextIndex, flaw: isEnded ? null : endMissing(place) };
}
