/** Committed messages of every kind of grid, with the points of another reader; and grids built from octets. */
import { readdirSync, readFileSync } from 'node:fs';
import { type PlacedGrid, scanGrib } from '../../lib/grib/index.ts';
import { altered, sectionStart, smallMessage } from './sample-message.ts';

const FOLDER = 'tests/golden/grib-grids';

export interface GridGolden {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly octets: number;
  /** Index in the file, latitude, longitude. */
  readonly points: readonly (readonly [number, number, number])[];
}

export const gridGoldens: readonly GridGolden[] = readdirSync(FOLDER)
  .filter((file) => file.endsWith('.json'))
  .map((file) => {
    const name = file.replace('.json', '');
    const { octets, points } = JSON.parse(readFileSync(`${FOLDER}/${file}`, 'utf8')) as Omit<
      GridGolden,
      'name' | 'bytes'
    >;
    return { name, octets, points, bytes: gridMessage(name) };
  });

/** The committed message of a name. */
export function gridMessage(name: string): Uint8Array {
  return new Uint8Array(readFileSync(`${FOLDER}/${name}.grib`));
}

/** The grid of a message's first field; throws when it is not placed. */
export function placedGrid(bytes: Uint8Array): PlacedGrid {
  const { fields, problems } = scanGrib(bytes, 'test');
  const [field] = fields;
  if (field === undefined || field.grid.kind === 'unsupported')
    throw new Error(JSON.stringify([...problems, field?.obstacles.grid]));
  return field.grid;
}

/** Difference of two longitudes, −180 to 180 degrees. */
export const lonDifferenceDeg = (a: number, b: number): number => ((((a - b + 180) % 360) + 360) % 360) - 180;

/** Big-endian octets of a whole number; negative ones in sign and magnitude (regulation 92.1.5). */
export function octetsOf(value: number, widthOctets: number): number[] {
  const coded = value < 0 ? 2 ** (8 * widthOctets - 1) - value : value;
  return Array.from({ length: widthOctets }, (_, k) => Math.floor(coded / 256 ** (widthOctets - 1 - k)) % 256);
}

/** The octets from 15 on of a grid section, its template and number of points. */
export interface GridOctets {
  readonly templateNumber: number;
  readonly pointCount: number;
  readonly template: readonly number[];
  readonly list?: GridList;
}

/** A message of edition 2 with another Section 3. */
export function withGrid(
  message: Uint8Array,
  { templateNumber, pointCount, template, list = NO_LIST }: GridOctets,
): Uint8Array {
  const listOctets = list.numbers.flatMap((number) => octetsOf(number, list.widthOctets));
  const body = [
    0,
    ...octetsOf(pointCount, 4),
    list.widthOctets,
    list.meaning,
    ...octetsOf(templateNumber, 2),
    ...template,
    ...listOctets,
  ];
  const section = [...octetsOf(5 + body.length, 4), 3, ...body];
  const [start, end] = [sectionStart(message, 3), sectionStart(message, 4)];
  const joined = Uint8Array.from([...message.slice(0, start), ...section, ...message.slice(end)]);
  joined.set(octetsOf(joined.length, 8), 8);
  return joined;
}

/** A message with a constant field of as many points as its Section 3 declares. */
function messageWithGrid(octets: GridOctets): Uint8Array {
  const message = smallMessage({ values: Array.from({ length: 12 }, () => 1) });
  const constant = altered(message, { sectionNumber: 5, octet: 6 }, octetsOf(octets.pointCount, 4));
  return withGrid(altered(constant, { sectionNumber: 5, octet: 20 }, [0]), octets);
}

export interface GridList {
  readonly widthOctets: number;
  /** Code table 3.11. */
  readonly meaning: number;
  readonly numbers: readonly number[];
}
const NO_LIST: GridList = { widthOctets: 0, meaning: 0, numbers: [] };
const MISSING_4 = [255, 255, 255, 255];
const microDeg = (angleDeg: number): number[] => octetsOf(Math.round(angleDeg * 1e6), 4);

/** Octets 15 on of a thinned grid: template 3.0, or 3.40 with N in the place of the j increment. */
export function thinnedMessage(from: {
  readonly counts: readonly number[];
  readonly first: readonly [lat: number, lon: number];
  readonly last: readonly [lat: number, lon: number];
  readonly meaning: number;
  readonly scanningMode?: number;
  readonly pointCount?: number;
  readonly widthOctets?: number;
  /** Template 3.40. */
  readonly parallelCount?: number;
}): Uint8Array {
  const { counts, first, last, meaning, parallelCount } = from;
  const template = [
    6,
    ...Array.from({ length: 15 }, () => 255),
    ...MISSING_4,
    ...octetsOf(counts.length, 4),
    0,
    0,
    0,
    0,
    ...MISSING_4,
    ...first.flatMap(microDeg),
    0,
    ...last.flatMap(microDeg),
    ...MISSING_4,
    ...(parallelCount === undefined ? MISSING_4 : octetsOf(parallelCount, 4)),
    from.scanningMode ?? 0,
  ];
  const pointCount = from.pointCount ?? counts.reduce((sum, count) => sum + count, 0);
  const list = { widthOctets: from.widthOctets ?? 2, meaning, numbers: counts };
  return messageWithGrid({ templateNumber: parallelCount === undefined ? 0 : 40, pointCount, template, list });
}

/** Section 3 of a committed message of edition 2, from octet 15 on. */
export function gridOctetsOf(message: Uint8Array): GridOctets {
  const section = message.slice(sectionStart(message, 3), sectionStart(message, 4));
  const view = new DataView(section.buffer);
  return { templateNumber: view.getUint16(12), pointCount: view.getUint32(6), template: Array.from(section.slice(14)) };
}
