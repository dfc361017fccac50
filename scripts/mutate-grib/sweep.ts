/** Every damage of the plain kinds to every small sample, one by one: nothing is drawn. */
import type { Sample } from './chance.ts';
import { headerPlaces, type NumberPlace, readNumber, sectionsOf } from './header-places.ts';
import { kindsOf } from './kinds.ts';
import type { Mutant } from './mutations.ts';
import { joined, replaced, writeNumber } from './octets.ts';

/** Longer samples would be cut at too many octets. */
const MOST_OCTETS = 1500;

/** One sample with the number of inputs that come of it. */
interface Swept {
  readonly sample: Sample;
  readonly sampleIndex: number;
  readonly families: readonly Family[];
}

/** Inputs of one way of damage; `make` takes indices below `count`. */
interface Family {
  readonly name: string;
  readonly count: number;
  readonly make: (index: number) => Uint8Array;
}

/** All inputs of a sweep. */
export interface Sweep {
  readonly count: number;
  readonly input: (index: number) => Mutant;
}

/** Of samples that show the same kinds the shortest is swept. */
export function sweepOf(samples: readonly Sample[]): Sweep {
  const swept = chosen(samples).map(({ sample, sampleIndex }): Swept => ({
    sample,
    sampleIndex,
    families: familiesOf(sample.bytes),
  }));
  const parts = swept.flatMap(({ families, sample, sampleIndex }) =>
    families.map((family) => ({ ...family, sample, sampleIndex })),
  );
  const input = (index: number): Mutant => {
    let left = index;
    for (const { count, make, name, sample, sampleIndex } of parts) {
      if (left < count) return { bytes: make(left), story: `${sample.name}: ${name} ${left}`, sampleIndex };
      left -= count;
    }
    throw new Error(`there are only ${index - left} inputs`);
  };
  return { count: parts.reduce((sum, { count }) => sum + count, 0), input };
}

function chosen(samples: readonly Sample[]): { sample: Sample; sampleIndex: number }[] {
  const shortest = new Map<string, { sample: Sample; sampleIndex: number }>();
  for (const [sampleIndex, sample] of samples.entries()) {
    if (sample.bytes.length > MOST_OCTETS) continue;
    const key = kindsOf(sample).toSorted().join('; ');
    const before = shortest.get(key);
    if (before === undefined || sample.bytes.length < before.sample.bytes.length)
      shortest.set(key, { sample, sampleIndex });
  }
  return [...shortest.values()];
}

const familiesOf = (bytes: Uint8Array): Family[] => [
  numberFamily(bytes, 'header number', { places: headerPlaces(bytes), numbers: NUMBERS }),
  { name: 'cut after octet', count: bytes.length, make: (index) => bytes.slice(0, index) },
  { name: 'octet taken out', count: headOctets(bytes), make: (index) => without(bytes, index, index + 1) },
  { name: 'octet put in', count: headOctets(bytes), make: (index) => withOctet(bytes, index) },
  ...sectionFamilies(bytes),
];

/** Up to the data: among them one octet is as good as another. */
function headOctets(bytes: Uint8Array): number {
  const data = sectionsOf(bytes).at(-1);
  return data === undefined ? bytes.length : Math.min(bytes.length, data.startIndex + DATA_HEAD_OCTETS);
}

const DATA_HEAD_OCTETS = 40;

const without = (bytes: Uint8Array, from: number, to: number): Uint8Array =>
  replaced(bytes, { from, to }, new Uint8Array(0));
const withOctet = (bytes: Uint8Array, at: number): Uint8Array =>
  replaced(bytes, { from: at, to: at }, Uint8Array.of(255));

/** Each of the places, written with each of the numbers. */
function numberFamily(
  bytes: Uint8Array,
  name: string,
  of: { places: readonly NumberPlace[]; numbers: Numbers },
): Family {
  const { places, numbers } = of;
  return {
    name,
    count: places.length * numbers.length,
    make: (index) => {
      const place = places[Math.floor(index / numbers.length)];
      const numberFor = numbers[index % numbers.length];
      if (place === undefined || numberFor === undefined) throw new Error(`no number ${index}`);
      const copy = bytes.slice();
      writeNumber(copy, place, numberFor(readNumber(bytes, place), 256 ** place.lengthOctets));
      return copy;
    },
  };
}

/** What is written instead of a number, from it and the range of its octets. */
type Numbers = readonly ((coded: number, range: number) => number)[];

/** 0, 1, the largest, the sign bit alone, one more and one less. */
const NUMBERS: Numbers = [
  () => 0,
  () => 1,
  (_, range) => range - 1,
  (_, range) => range / 2,
  (coded, range) => (coded + 1) % range,
  (coded, range) => (coded + range - 1) % range,
];

/** Each section taken out, doubled, moved behind the next; each length 0, one off, all ones. */
function sectionFamilies(bytes: Uint8Array): Family[] {
  const sections = sectionsOf(bytes);
  const lengthOctets = bytes[7] === 2 ? 4 : 3;
  const at = (index: number) => {
    const section = sections[index];
    if (section === undefined) throw new Error(`no section ${index}`);
    const { startIndex } = section;
    return { ...section, from: startIndex, to: startIndex + section.lengthOctets };
  };
  return [
    { name: 'section out', count: sections.length, make: (index) => without(bytes, at(index).from, at(index).to) },
    {
      name: 'section doubled',
      count: sections.length,
      make: (index) => {
        const { from, to } = at(index);
        return replaced(bytes, { from, to: from }, bytes.subarray(from, to));
      },
    },
    {
      name: 'sections swapped',
      count: Math.max(0, sections.length - 1),
      make: (index) => {
        const [first, second] = [at(index), at(index + 1)];
        const octets = joined(bytes.subarray(second.from, second.to), bytes.subarray(first.from, first.to));
        return replaced(bytes, { from: first.from, to: second.to }, octets);
      },
    },
    numberFamily(bytes, 'section length', {
      places: sections.map(({ startIndex }) => ({ startIndex, lengthOctets })),
      numbers: LENGTHS,
    }),
  ];
}

const LENGTHS: Numbers = [...NUMBERS, () => 4, () => 5, (_, range) => range - 2, (coded) => coded + 4];
