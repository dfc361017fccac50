/** Damage done to GRIB messages, always the same for a seed and an index. */
import { type Chance, chanceOf, type Damage, type Sample } from './chance.ts';
import { FIELD_DAMAGES, sayGust } from './field-damages.ts';
import { headerPlaces, readNumber, type SectionSpan, sectionsOf, totalLengthPlace } from './header-places.ts';
import { joined, replaced, writeNumber } from './octets.ts';
import { PAYLOAD_DAMAGES } from './payload-damages.ts';

export type { Sample } from './chance.ts';

/** An input for the decoder; `story` says what was done to which sample. */
export interface Mutant {
  readonly bytes: Uint8Array;
  readonly story: string;
  /** Index of the sample that was damaged. */
  readonly sampleIndex: number;
}

const FULL_OCTETS = [0, 127, 128, 255];
const MOST_FLIPS = 8;
const MOST_JUNK_OCTETS = 200;

/** The damages, the more often named the more often chosen. */
const DAMAGES: readonly (readonly [name: string, damage: Damage, weight: number])[] = [
  ['bits flipped', flipBits, 4],
  ['octets set', setOctets, 3],
  ['header numbers set', setHeaderNumbers, 8],
  ['cut short', cutShort, 2],
  ['section removed', removeSection, 1],
  ['section doubled', doubleSection, 1],
  ['sections swapped', swapSections, 1],
  ['section of another message', transplantSection, 3],
  ['end of another message', spliceEnd, 1],
  ['junk put in', putJunkIn, 1],
  ['octets taken out', takeOctetsOut, 1],
  ...FIELD_DAMAGES,
  ...PAYLOAD_DAMAGES,
];
const TICKETS = DAMAGES.flatMap(([name, damage, weight]) => Array.from({ length: weight }, () => ({ name, damage })));

/** The `index`-th mutant of a seed: one sample, one damage or two on top of each other. */
export function mutant(samples: readonly Sample[], at: { readonly seed: number; readonly index: number }): Mutant {
  const chance = chanceOf(samples, at);
  const { below, pick } = chance;
  const sample = chance.anySample();
  const damages = below(4) === 0 ? [pick(TICKETS), pick(TICKETS)] : [pick(TICKETS)];
  let bytes: Uint8Array = sample.bytes.slice();
  if (below(2) === 0) bytes = sayGust(bytes);
  for (const { damage } of damages) bytes = damage(bytes, chance);
  if (below(2) === 0) bytes = withTotalLength(bytes);
  const story = `${sample.name}: ${damages.map(({ name }) => name).join(', ')}`;
  return { bytes, story, sampleIndex: samples.indexOf(sample) };
}

/** Lets the message's length in Section 0 agree with the octets, so that later checks are reached. */
function withTotalLength(bytes: Uint8Array): Uint8Array {
  if (bytes.length >= 16) writeNumber(bytes, totalLengthPlace(bytes), bytes.length);
  return bytes;
}

function flipBits(bytes: Uint8Array, { below }: Chance): Uint8Array {
  for (let left = 1 + below(MOST_FLIPS); left > 0; left--) {
    const index = below(bytes.length);
    bytes[index] = (bytes[index] ?? 0) ^ (1 << below(8));
  }
  return bytes;
}

function setOctets(bytes: Uint8Array, { below, pick }: Chance): Uint8Array {
  for (let left = 1 + below(MOST_FLIPS); left > 0; left--) bytes[below(bytes.length)] = pick(FULL_OCTETS);
  return bytes;
}

/** Lengths, counts, widths and codes: extremes, neighbours of what stands there, and anything. */
function setHeaderNumbers(bytes: Uint8Array, { below, pick }: Chance): Uint8Array {
  const places = headerPlaces(bytes);
  for (let left = 1 + below(2); left > 0; left--) {
    const place = pick(places);
    const coded = readNumber(bytes, place);
    const largest = 256 ** place.lengthOctets - 1;
    const half = (largest + 1) / 2;
    const choices = [
      0,
      1,
      largest,
      largest - 1,
      half,
      half - 1,
      coded + 1,
      coded - 1,
      coded * 2,
      coded * 255,
      coded / 2,
    ];
    const value = pick([...choices, below(256), below(65_536), below(Math.min(largest, 2 ** 32))]);
    writeNumber(bytes, place, Math.floor(Math.min(largest, Math.max(0, value))));
  }
  return bytes;
}

function cutShort(bytes: Uint8Array, { below }: Chance): Uint8Array {
  const spans = sectionsOf(bytes);
  const borders = spans.flatMap(({ startIndex, lengthOctets }) => [startIndex, startIndex + lengthOctets]);
  const atBorder = borders[below(borders.length)];
  if (atBorder === undefined || below(2) === 0) return bytes.slice(0, below(bytes.length));
  return bytes.slice(0, Math.max(0, atBorder + below(11) - 5));
}

const spanOf = ({ startIndex, lengthOctets }: SectionSpan): { from: number; to: number } => ({
  from: startIndex,
  to: startIndex + lengthOctets,
});

const octetsOf = (bytes: Uint8Array, section: SectionSpan): Uint8Array =>
  bytes.subarray(section.startIndex, section.startIndex + section.lengthOctets);

function removeSection(bytes: Uint8Array, { pick }: Chance): Uint8Array {
  const sections = sectionsOf(bytes);
  return sections.length === 0 ? bytes : replaced(bytes, spanOf(pick(sections)), new Uint8Array(0));
}

function doubleSection(bytes: Uint8Array, { pick }: Chance): Uint8Array {
  const sections = sectionsOf(bytes);
  if (sections.length === 0) return bytes;
  const section = pick(sections);
  return replaced(bytes, { from: section.startIndex, to: section.startIndex }, octetsOf(bytes, section));
}

function swapSections(bytes: Uint8Array, { below }: Chance): Uint8Array {
  const sections = sectionsOf(bytes);
  const at = below(Math.max(1, sections.length - 1));
  const [first, second] = [sections[at], sections[at + 1]];
  if (first === undefined || second === undefined) return bytes;
  const span = { from: spanOf(first).from, to: spanOf(second).to };
  return replaced(bytes, span, joined(octetsOf(bytes, second), octetsOf(bytes, first)));
}

/** A section of the same number from another sample takes the place of one. */
function transplantSection(bytes: Uint8Array, { pick, anySample }: Chance): Uint8Array {
  const donor = anySample().bytes;
  const sections = sectionsOf(bytes);
  const given = sectionsOf(donor);
  const common = sections.filter(({ sectionNumber }) => given.some((one) => one.sectionNumber === sectionNumber));
  if (common.length === 0 || donor[7] !== bytes[7]) return bytes;
  const section = pick(common);
  const graft = pick(given.filter(({ sectionNumber }) => sectionNumber === section.sectionNumber));
  return replaced(bytes, spanOf(section), octetsOf(donor, graft));
}

function spliceEnd(bytes: Uint8Array, { below, anySample }: Chance): Uint8Array {
  const donor = anySample().bytes;
  return joined(bytes.subarray(0, below(bytes.length)), donor.subarray(below(donor.length)));
}

function putJunkIn(bytes: Uint8Array, { below }: Chance): Uint8Array {
  const at = below(bytes.length);
  const junk = Uint8Array.from({ length: 1 + below(MOST_JUNK_OCTETS) }, () => below(256));
  return replaced(bytes, { from: at, to: at }, junk);
}

function takeOctetsOut(bytes: Uint8Array, { below }: Chance): Uint8Array {
  const from = below(bytes.length);
  return replaced(bytes, { from, to: Math.min(bytes.length, from + 1 + below(MOST_JUNK_OCTETS)) }, new Uint8Array(0));
}
