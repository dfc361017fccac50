/** Where a GRIB message keeps its lengths, counts, widths and codes. Octets count from 0 here, as in the array. */

/** A section as its length says; edition 1 has no numbers in its sections, they are counted. */
export interface SectionSpan {
  readonly sectionNumber: number;
  readonly startIndex: number;
  readonly lengthOctets: number;
}

/** An unsigned number in the octets of a message. */
export interface NumberPlace {
  readonly startIndex: number;
  readonly lengthOctets: number;
}

/** Octets of each section that hold a number, as the standard counts and writes them: from 1, `7-10`. */
type KnownOctets = Readonly<Record<number, string>>;

/** Sections 1 to 7 of edition 2, with templates 3.0 to 3.40, 4.0 to 4.12, 5.0 to 5.42 (WMO-No. 306, I.2). */
const EDITION_2: KnownOctets = {
  1: '1-4 5 6-7 13-14 15',
  2: '1-4 5',
  3: '1-4 5 6 7-10 11 12 13-14 15 16 17-20 31-34 35-38 39-42 43-46 47-50 51-54 55 56-59 60-63 64-67 68-71 72 73-76 77-80 81-84',
  4: '1-4 5 6-7 8-9 10 11 18 19-22 23 24 25-28 35 42 48 55-58',
  5: '1-4 5 6-9 10-11 12-15 16-17 18-19 20 21 22 23 24-25 28-31 32-35 36 37 38-41 42 43-46 47 48 49',
  6: '1-4 5 6',
  7: '1-4 5',
};
/** Sections 1 to 4 of edition 1 (WMO-No. 306, I.1), the second-order packing of section 4 among them. */
const EDITION_1: KnownOctets = {
  1: '1-3 4 7 8 9 10 13 14 18 19 20 21 25 27-28',
  2: '1-3 4 5 6 7-8 9-10 11-13 14-16 17 18-20 21-23 24-25 26-27 28 33-35 36-38 39-42',
  3: '1-3 4 5-6',
  4: '1-3 4 5-6 7-10 11 12-13 14 15-16 17-18 19-20 21 22-23 24',
};

/** `7-10 11` as places within the section. */
const placesIn = (octets: string): NumberPlace[] =>
  octets.split(' ').map((range) => {
    const [first = 1, last = first] = range.split('-').map(Number);
    return { startIndex: first - 1, lengthOctets: last - first + 1 };
  });

/** Beginning of the data in which JPEG 2000, PNG and the group tables keep their own sizes. */
const DATA_HEAD_OCTETS = 64;

const isEdition2 = (message: Uint8Array): boolean => message[7] === 2;

/** Big-endian; as far as the message goes. */
export function readNumber(message: Uint8Array, place: NumberPlace): number {
  let value = 0;
  for (let i = 0; i < place.lengthOctets; i++) value = value * 256 + (message[place.startIndex + i] ?? 0);
  return value;
}

/** The sections of an undamaged message that begins at the array's beginning, Section 0 and the closing 7777 left out. */
export function sectionsOf(message: Uint8Array): SectionSpan[] {
  return isEdition2(message) ? sectionsOfEdition2(message) : sectionsOfEdition1(message);
}

function sectionsOfEdition2(message: Uint8Array): SectionSpan[] {
  const sections: SectionSpan[] = [];
  let startIndex = 16;
  while (startIndex + 5 <= message.length - 4) {
    const lengthOctets = readNumber(message, { startIndex, lengthOctets: 4 });
    if (lengthOctets < 5 || startIndex + lengthOctets > message.length) break;
    sections.push({ sectionNumber: message[startIndex + 4] ?? 0, startIndex, lengthOctets });
    startIndex += lengthOctets;
  }
  return sections;
}

function sectionsOfEdition1(message: Uint8Array): SectionSpan[] {
  const flags = message[15] ?? 0;
  const numbers = [1, ...((flags & 0x80) === 0 ? [] : [2]), ...((flags & 0x40) === 0 ? [] : [3]), 4];
  const sections: SectionSpan[] = [];
  let startIndex = 8;
  for (const sectionNumber of numbers) {
    const lengthOctets = readNumber(message, { startIndex, lengthOctets: 3 });
    if (lengthOctets < 4 || startIndex + lengthOctets > message.length) break;
    sections.push({ sectionNumber, startIndex, lengthOctets });
    startIndex += lengthOctets;
  }
  return sections;
}

/** Place of the length of the whole message in Section 0. */
export const totalLengthPlace = (message: Uint8Array): NumberPlace =>
  isEdition2(message) ? { startIndex: 8, lengthOctets: 8 } : { startIndex: 4, lengthOctets: 3 };

/** Every known number of the message, the first octets of its data included. */
export function headerPlaces(message: Uint8Array): NumberPlace[] {
  const known = isEdition2(message) ? EDITION_2 : EDITION_1;
  const dataNumber = isEdition2(message) ? 7 : 4;
  const inSections = sectionsOf(message).flatMap(({ sectionNumber, startIndex, lengthOctets }) => {
    const places = placesIn(known[sectionNumber] ?? '1')
      .filter((place) => place.startIndex + place.lengthOctets <= lengthOctets)
      .map((place) => ({ ...place, startIndex: startIndex + place.startIndex }));
    return sectionNumber === dataNumber ? [...places, ...dataHead(startIndex, lengthOctets)] : places;
  });
  return [totalLengthPlace(message), { startIndex: 7, lengthOctets: 1 }, ...inSections];
}

function dataHead(startIndex: number, lengthOctets: number): NumberPlace[] {
  const count = Math.max(0, Math.floor((Math.min(lengthOctets - 5, DATA_HEAD_OCTETS) - 3) / 2));
  return Array.from({ length: count }, (_, i) => ({
    startIndex: startIndex + 5 + 2 * i,
    lengthOctets: i % 2 === 0 ? 4 : 1,
  }));
}
