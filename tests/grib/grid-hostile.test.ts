/** Grid sections that lie: each lie is named with section and octet, nothing throws or hangs, and no place is not a number. */
import { describe, expect, it } from 'vitest';
import {
  decodeField,
  formatGrid,
  frameOfGrid,
  gridPositions,
  positionAt,
  scanGrib,
  toIndex,
  toNorthUpGrid,
} from '../../lib/grib/index.ts';
import { gridGoldens, gridMessage, octetsOf, thinnedMessage } from './grid-messages.ts';
import { altered, codesOf } from './sample-message.ts';

const microDeg = (angleDeg: number): number[] => octetsOf(Math.round(angleDeg * 1e6), 4);
const changed = (name: string, octet: number, octets: readonly number[]): Uint8Array =>
  altered(gridMessage(name), { sectionNumber: 3, octet }, octets);
/** Section 2 of edition 1 follows the 8 octets of Section 0 and the product section. */
function changedEdition1(name: string, octet: number, octets: readonly number[]): Uint8Array {
  const message = gridMessage(name).slice();
  const product = (message[8] ?? 0) * 65_536 + (message[9] ?? 0) * 256 + (message[10] ?? 0);
  message.set(octets, 8 + product + octet - 1);
  return message;
}

/** Message, the problem's code, section and octet. */
type Row = readonly [name: string, message: Uint8Array, code: string, octet: number];

const refused = 'grib.grid-unsupported';
const contradicts = 'grib.grid-inconsistent';

const EDITION_2: readonly Row[] = [
  ['no template of this number', changed('rotated', 13, octetsOf(2, 2)), refused, 13],
  ['unstructured points', changed('rotated', 13, octetsOf(101, 2)), refused, 13],
  ['Lambert: standard parallel at the pole', changed('lambert-secant', 66, microDeg(90)), contradicts, 66],
  ['Lambert: second parallel at the other pole', changed('lambert-secant', 70, microDeg(-90)), contradicts, 66],
  ['Lambert: second parallel beyond the pole', changed('lambert-secant', 70, microDeg(120)), contradicts, 66],
  ['Lambert: parallels cancel', changed('lambert-secant', 70, microDeg(-30)), contradicts, 66],
  ['Lambert: lengths hold elsewhere', changed('lambert-secant', 48, microDeg(45)), refused, 48],
  ['Lambert: another axis', changed('lambert-secant', 74, microDeg(-40)), refused, 74],
  ['Lambert: bipolar', changed('lambert-secant', 64, [0x40]), refused, 64],
  ['Lambert: no length', changed('lambert-secant', 56, octetsOf(0, 4)), contradicts, 31],
  ['Lambert: first point beyond the pole', changed('lambert-secant', 39, microDeg(91)), contradicts, 31],
  ['Lambert: first point at the other pole', changed('lambert-secant', 39, microDeg(-90)), contradicts, 31],
  ['Lambert: reaches behind the cone', changed('lambert-secant', 39, microDeg(85)), contradicts, 31],
  ['Lambert: meridian of 800°', changed('lambert-secant', 52, microDeg(800)), contradicts, 31],
  ['Lambert: points not columns times rows', changed('lambert-secant', 31, octetsOf(8, 4)), contradicts, 31],
  ['Lambert: shifted rows', changed('lambert-secant', 65, [0x48]), refused, 65],
  ['Lambert: list of points per row', changed('lambert-secant', 11, [2, 1]), refused, 12],
  ['earth of a shape not read', changed('lambert-secant', 15, [11]), refused, 15],
  ['sphere of no radius', changed('mercator-sphere-given', 17, octetsOf(0, 4)), contradicts, 15],
  ['sphere whose radius is not given', changed('mercator-sphere-given', 16, [255]), contradicts, 15],
  ['axes in metres where kilometres are meant', changed('lambert-axes-in-km', 21, [0]), contradicts, 15],
  ['polar: lengths beyond the pole', changed('polar-north', 48, microDeg(91)), contradicts, 48],
  ['polar: first point at the other pole', changed('polar-north', 39, microDeg(-90)), contradicts, 31],
  ['Mercator: corner at the pole', changed('mercator', 52, microDeg(90)), contradicts, 31],
  ['Mercator: lengths hold at the pole', changed('mercator', 48, microDeg(90)), contradicts, 31],
  ['Mercator: turned', changed('mercator', 61, microDeg(30)), refused, 61],
  ['Mercator: corner far from where the lengths lead', changed('mercator', 52, microDeg(30)), contradicts, 31],
  ['Mercator: all columns on one meridian', changed('mercator', 56, microDeg(178.475)), contradicts, 31],
  ['Mercator: rows against the scan', changed('mercator', 60, [0]), contradicts, 31],
  ['rotated: all columns on one meridian', changed('rotated', 60, microDeg(357)), contradicts, 31],
  ['rotated: south pole beyond the pole', changed('rotated', 73, microDeg(-91)), contradicts, 31],
  ['rotated: angle is no number', changed('rotated', 81, [0x7f, 0xc0, 0, 0]), contradicts, 31],
  ['rotated: angle of many turns', changed('rotated', 81, [0x7f, 0x7f, 0xff, 0xff]), contradicts, 31],
  ['rotated: thinned', changed('rotated', 31, octetsOf(0xffff_ffff, 4)), refused, 12],
  ['Gaussian: N = 0', changed('gaussian-part', 68, octetsOf(0, 4)), contradicts, 31],
  ['Gaussian: N of four thousand million', changed('gaussian-part', 68, octetsOf(0xffff_ffff, 4)), contradicts, 31],
  ['Gaussian: more rows than parallels', changed('gaussian-part', 68, octetsOf(1, 4)), contradicts, 31],
  ['Gaussian: rows that are no parallels', changed('gaussian-part', 47, microDeg(36.3)), contradicts, 31],
  ['Gaussian: shifted rows', changed('gaussian-part', 72, [1]), refused, 72],
];

const EDITION_1: readonly Row[] = [
  ['no type of this number', changedEdition1('edition-1-lambert', 6, [13]), refused, 6],
  [
    'Lambert: standard parallel at the pole',
    changedEdition1('edition-1-lambert', 29, octetsOf(90_000, 3)),
    contradicts,
    29,
  ],
  ['Lambert: bipolar', changedEdition1('edition-1-lambert', 27, [0x40]), refused, 27],
  ['Lambert: thinned', changedEdition1('edition-1-lambert', 7, [255, 255]), refused, 7],
  ['polar: no length', changedEdition1('edition-1-polar', 21, [0, 0, 0]), contradicts, 7],
  ['polar: meridian of 1000°', changedEdition1('edition-1-polar', 18, octetsOf(1_000_000, 3)), contradicts, 7],
  ['Mercator: corner at the pole', changedEdition1('edition-1-mercator', 18, octetsOf(90_000, 3)), contradicts, 7],
  [
    'rotated: south pole beyond the pole',
    changedEdition1('edition-1-rotated', 33, octetsOf(-91_000, 3)),
    contradicts,
    7,
  ],
  ['Gaussian: N = 0', changedEdition1('edition-1-gaussian', 26, [0, 0]), contradicts, 7],
  ['reduced Gaussian: no list', changedEdition1('edition-1-reduced-n32', 5, [255]), refused, 7],
  ['reduced Gaussian: list inside the template', changedEdition1('edition-1-reduced-n32', 5, [9]), contradicts, 5],
  ['reduced Gaussian: part of a circle', changedEdition1('edition-1-reduced-n32', 21, octetsOf(90_000, 3)), refused, 7],
  [
    'thinned: list beyond the section',
    changedEdition1('edition-1-thinned-latlon', 4, [200]),
    'grib.section-too-short',
    1034,
  ],
];

describe.each([
  ['edition 2', 3, EDITION_2],
  ['edition 1', 2, EDITION_1],
] as const)('%s', (_, sectionNumber, rows) => {
  it.each(rows)('%s', (__, message, code, octet) => {
    const { fields, problems } = scanGrib(message, 'test');
    const found = [...problems, ...fields.flatMap(({ obstacles }) => obstacles.grid ?? [])];
    expect(found.map((problem) => problem.code)).toEqual([code]);
    expect(found[0]?.where).toMatch(new RegExp(`section ${sectionNumber}, octet ${octet}$`));
    expect(fields.every(({ grid }) => grid.kind === 'unsupported')).toBe(true);
  });
});

describe('grids that are refused', () => {
  it('unstructured: what to ask for instead', () => {
    const [field] = scanGrib(changed('rotated', 13, octetsOf(101, 2)), 'icon.grib2').fields;
    expect(field?.support?.remedy).toBe(
      'Its points carry no coordinates here. Ask the source for this field on a regular latitude/longitude grid.',
    );
    expect(field === undefined ? '' : formatGrid(field)).toBe('unstructured');
  });

  it('a known template in a form not read: named', () => {
    const [field] = scanGrib(changed('mercator', 61, microDeg(30)), 'x').fields;
    expect(field === undefined ? '' : formatGrid(field)).toBe('Mercator, columns that are not meridians');
    expect(field?.support?.what).toBe(
      'GRIB2 template 3.10 (orientation of the grid): value 30000000 (columns that are not meridians) is not supported.',
    );
  });
});

describe('what is no number', () => {
  it.each([
    ['axes of the earth that are missing', changed('lambert-secant', 15, [1, 255, 255, 255, 255, 255]), 'are missing.'],
    ['an angle of rotation of all ones', changed('rotated', 81, [255, 255, 255, 255]), 'is no number.'],
  ])('%s: said in words', (_, message, said) => {
    const [problem] = scanGrib(message, 'test').problems;
    expect(problem?.code).toBe(contradicts);
    expect(problem?.what).toContain(said);
    expect(problem?.what).not.toContain('NaN');
  });
});

describe('tolerated', () => {
  it.each([
    ['polar south, latitude of true scale given as 60 or as −60: the same', changed('polar-south', 48, microDeg(60))],
    ['southern pole of a cone 0', changed('lambert-secant', 74, [0, 0, 0, 0])],
    ['southern pole of a cone −90', changed('lambert-secant', 74, microDeg(-90))],
    ['southern pole of a cone not given', changed('lambert-secant', 74, [255, 255, 255, 255])],
    ['orientation of a Mercator map not given', changed('mercator', 61, [255, 255, 255, 255])],
    [
      'lengths of a Mercator map not given',
      altered(changed('mercator', 65, [0, 0, 0, 0]), { sectionNumber: 3, octet: 69 }, [255, 255, 255, 255]),
    ],
  ])('%s', (_, message) => {
    expect(codesOf(message)).toEqual([]);
    const grid = scanGrib(message, 'x').fields[0]?.grid;
    const name =
      grid?.kind === 'polar-stereographic' ? 'polar-south' : grid?.kind === 'lambert' ? 'lambert-secant' : 'mercator';
    const whole = scanGrib(gridMessage(name), 'x').fields[0]?.grid;
    if (grid === undefined || whole === undefined || grid.kind === 'unsupported' || whole.kind === 'unsupported')
      throw new Error('a placed grid');
    const [ours, theirs] = [gridPositions(grid), gridPositions(whole)];
    ours.lats.forEach((lat, i) => expect(lat).toBeCloseTo(theirs.lats[i] ?? NaN, 1));
  });
});

/** Everything a grid is asked for; throws on a place that is none. */
function askAll(message: Uint8Array): string[] {
  const { fields, problems } = scanGrib(message, 'hostile');
  for (const field of fields) {
    if (field.grid.kind === 'unsupported' || field.pointCount > 500) continue;
    const { lats, lons } = gridPositions(field.grid);
    if (lats.length !== field.pointCount) throw new Error('as many places as points');
    if (!lats.every((lat) => Math.abs(lat) <= 90.0021))
      throw new Error(`a latitude that is none: ${lats.find((lat) => !(Math.abs(lat) <= 90))}`);
    if (!lons.every((lon) => lon >= -180 && lon < 180)) throw new Error('a longitude that is none');
    const frame = frameOfGrid(field.grid);
    toIndex(frame, { lat: 90, lon: 0 });
    toIndex(frame, { lat: -90, lon: 0 });
    if (!Number.isFinite(positionAt(frame, { columnIndex: 0, rowIndex: 0 }).lon))
      throw new Error('a corner that is none');
    const values = decodeField(message, field);
    if (values.ok && frame.columnCount * frame.rowCount < 1e4) toNorthUpGrid(field.grid, values.value);
    formatGrid(field);
  }
  return [...problems, ...fields.flatMap(({ support }) => support ?? [])].map(({ code }) => code);
}

/** One message of each template, and of each type of edition 1. */
const ONE_OF_EACH = [
  'rotated',
  'mercator',
  'polar-north',
  'lambert-secant',
  'gaussian-part',
  'edition-1-lambert',
  'edition-1-mercator',
  'edition-1-rotated',
  'edition-1-gaussian',
];

const small = [
  ...gridGoldens.filter(({ name }) => ONE_OF_EACH.includes(name)).map(({ name, bytes }) => ({ name, bytes })),
  {
    name: 'thinned',
    bytes: thinnedMessage({ counts: [2, 3, 5], first: [10, 0], last: [30, 40], meaning: 2, scanningMode: 64 }),
  },
];

/** Where the grid section of a message lies, with a few octets before and after it. */
const aroundGrid = (bytes: Uint8Array): readonly [number, number] => (bytes[7] === 2 ? [37, 130] : [36, 84]);

/** What is wrong with the answers to a message, or null. */
function complaint(bytes: Uint8Array): string | null {
  try {
    askAll(bytes);
    return null;
  } catch (error) {
    return error instanceof Error ? (error.stack ?? error.message) : 'thrown';
  }
}

describe('any octets', () => {
  it.each(small)(
    '$name, each octet of its grid section set to 0, 127, 128 and 255: never a throw, a hang or a place that is none',
    ({ bytes }) => {
      const [from, to] = aroundGrid(bytes);
      const complaints: string[] = [];
      for (let index = from; index < to; index++) {
        for (const octet of [0, 127, 128, 255]) {
          const copy = bytes.slice();
          copy[index] = octet;
          const wrong = complaint(copy);
          if (wrong !== null) complaints.push(`octet ${index} set to ${octet}: ${wrong}`);
        }
      }
      expect(complaints).toEqual([]);
    },
  );

  it.each(small)('$name, random octets in the grid section: likewise', ({ bytes }) => {
    let state = bytes.length;
    const random = (): number => {
      state = (state * 48_271) % 2_147_483_647;
      return state / 2_147_483_647;
    };
    const [from, to] = aroundGrid(bytes);
    const complaints: string[] = [];
    for (let round = 0; round < 300; round++) {
      const copy = bytes.slice();
      for (let k = 0; k < 6; k++) copy[from + Math.floor(random() * (to - from))] = Math.floor(random() * 256);
      const wrong = complaint(copy);
      if (wrong !== null) complaints.push(`round ${round}: ${wrong}`);
    }
    expect(complaints).toEqual([]);
  });
});
