/** The sections of one message of edition 2, followed by their lengths; "7777" occurs in data and is never searched for. */
import type { Problem } from '../../result/index.ts';
import { END_MARK, hasMark } from '../marks.ts';
import { damaged, endMissing, type MessagePlace, truncated, whereMessage } from '../problems.ts';
import { octet1, octet4, type SectionPlace, viewSection } from '../section.ts';

/** Sections of one field of a message. */
export interface Submessage {
  readonly identification: SectionPlace;
  readonly grid: SectionPlace;
  readonly product: SectionPlace;
  readonly representation: SectionPlace;
  readonly bitmapSection: SectionPlace;
  /** The last bitmap defined in this message up to here, for indicator 254; null when there is none. */
  readonly definedBitmap: SectionPlace | null;
  readonly data: SectionPlace;
}

/** What a walk found. `nextIndex` is where the search for the next message goes on. */
export interface Walk {
  readonly submessages: readonly Submessage[];
  readonly problems: readonly Problem[];
  readonly nextIndex: number;
}

/** Octets of Section 0. */
const INDICATOR_OCTETS = 16;

/** Section numbers that may follow each number; after 7 the sections repeat from 2, 3 or 4. */
const FOLLOWERS: readonly (readonly number[])[] = [[1], [2, 3], [3], [4], [5], [6], [7], [2, 3, 4]];

/** Walks the message at `place`, whose Section 0 is complete. Sections decide; the declared total length is compared with them. */
export function walkEdition2(bytes: Uint8Array, place: MessagePlace): Walk {
  const startIndex = place.messageOffsetOctet;
  const declaredEndIndex = startIndex + declaredLengthOctets(bytes, startIndex);
  const current = new Map<number, SectionPlace>();
  const submessages: Submessage[] = [];
  let definedBitmap: SectionPlace | null = null;
  let lastNumber = 0;
  let index = startIndex + INDICATOR_OCTETS;
  for (;;) {
    const end = endAt(bytes, place, { index, declaredEndIndex, lastNumber });
    if (end !== null) return { submessages, ...end };
    const header = viewSection(bytes, 0, { startIndex: index, lengthOctets: 5 });
    const section = { startIndex: index, lengthOctets: octet4(header, 1) };
    const sectionNumber = octet1(header, 5);
    const broken = brokenSection(bytes, place, { section, sectionNumber, lastNumber });
    if (broken !== null) return { submessages, problems: [broken], nextIndex: index };
    current.set(sectionNumber, section);
    if (sectionNumber === 6 && section.lengthOctets > 5 && bytes[index + 5] === 0) definedBitmap = section;
    if (sectionNumber === 7) submessages.push(collect(current, definedBitmap));
    lastNumber = sectionNumber;
    index += section.lengthOctets;
  }
}

/** Total length, octets 9-16 of Section 0. Lengths above 2^53 lose their last digits, which no file reaches. */
function declaredLengthOctets(bytes: Uint8Array, startIndex: number): number {
  const indicator = viewSection(bytes, 0, { startIndex, lengthOctets: INDICATOR_OCTETS });
  return octet4(indicator, 9) * 2 ** 32 + octet4(indicator, 13);
}

function collect(current: ReadonlyMap<number, SectionPlace>, definedBitmap: SectionPlace | null): Submessage {
  const placeOf = (sectionNumber: number): SectionPlace => {
    const place = current.get(sectionNumber);
    if (place === undefined) throw new Error(`section ${sectionNumber} was not walked`);
    return place;
  };
  return {
    identification: placeOf(1),
    grid: placeOf(3),
    product: placeOf(4),
    representation: placeOf(5),
    bitmapSection: placeOf(6),
    definedBitmap,
    data: placeOf(7),
  };
}

interface Progress {
  readonly index: number;
  readonly declaredEndIndex: number;
  readonly lastNumber: number;
}

/** The end of the message, whole or not; null while another section should follow. */
function endAt(bytes: Uint8Array, place: MessagePlace, at: Progress): Pick<Walk, 'problems' | 'nextIndex'> | null {
  const { index, declaredEndIndex, lastNumber } = at;
  if (lastNumber === 7 && hasMark(bytes, index, END_MARK)) {
    const nextIndex = index + END_MARK.length;
    return { problems: nextIndex === declaredEndIndex ? [] : [wrongLength(place, at, nextIndex)], nextIndex };
  }
  if (lastNumber === 7 && index === declaredEndIndex - END_MARK.length) {
    return { problems: [endMissing(place)], nextIndex: Math.min(declaredEndIndex, bytes.length) };
  }
  if (index + 5 > bytes.length) return { problems: [truncated(place, bytes.length)], nextIndex: index };
  return null;
}

function brokenSection(
  bytes: Uint8Array,
  place: MessagePlace,
  found: { section: SectionPlace; sectionNumber: number; lastNumber: number },
): Problem | null {
  const { section, sectionNumber, lastNumber } = found;
  const followers = FOLLOWERS[lastNumber] ?? [];
  if (section.lengthOctets < 5 || !followers.includes(sectionNumber)) {
    return damaged(place, {
      code: 'grib.section-broken',
      section: viewSection(bytes, sectionNumber, { startIndex: section.startIndex, lengthOctets: 5 }),
      octet: 1,
      what: `After section ${lastNumber} stands a section numbered ${sectionNumber} of ${section.lengthOctets} octets.`,
      expected: `section ${followers.join(' or ')}, of at least 5 octets`,
    });
  }
  return section.startIndex + section.lengthOctets > bytes.length ? truncated(place, bytes.length) : null;
}

function wrongLength(place: MessagePlace, at: Progress, nextIndex: number): Problem {
  return {
    code: 'grib.message-length',
    where: whereMessage(place),
    what: `The message declares ${at.declaredEndIndex - place.messageOffsetOctet} octets and has ${nextIndex - place.messageOffsetOctet}.`,
    expected: 'the same number',
    remedy: 'Its fields are used, since all sections fit. Fetch the file again if a value looks wrong.',
  };
}
