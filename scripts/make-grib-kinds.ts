/**
 * Writes tests/golden/grib-kinds: one small message of every kind of packing, grid and product that ecCodes can write and
 * the other samples do not show, as samples to be damaged (`npm run mutate-grib`). What ecCodes cannot write is made of
 * those by setting octets, in `byOctets`.
 *
 *     node --import tsx scripts/make-grib-kinds.ts [--out DIR]
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { writeGrib2Message } from '../lib/grib/index.ts';
import { sectionsOf, totalLengthPlace } from './mutate-grib/header-places.ts';
import { writeNumber } from './mutate-grib/octets.ts';

const { values: asked } = parseArgs({ options: { out: { type: 'string', default: 'tests/golden/grib-kinds' } } });
const FOLDER = asked.out;
/** The tool that sets keys of a message. */
const SET_TOOL = 'grib_set';
const [COLUMNS, ROWS] = [16, 8];

/** 10 m u wind on 16 × 8 points that goes up and down; with gaps, every ninth point is missing. */
const base = (hasGaps: boolean): Uint8Array =>
  wind(ROWS, (i) => (hasGaps && i % 9 === 4 ? Number.NaN : 9 * Math.sin(i / 7) + i / 50 + 10));

/** Of 16 × 40 points with few different values: ecCodes writes PNG images only where they are shorter than simple packing. */
const stepped = (hasGaps: boolean): Uint8Array =>
  wind(5 * ROWS, (i) => (hasGaps && i % 9 === 4 ? Number.NaN : (i % 5) + 0.25));

function wind(rowCount: number, valueAt: (index: number) => number): Uint8Array {
  const referenceEpochMs = Date.UTC(2026, 4, 27, 12);
  return writeGrib2Message({
    parameter: { discipline: 0, category: 2, number: 2 },
    level: { first: { typeCode: 103, value: 10 }, second: null },
    referenceEpochMs,
    validity: { kind: 'instant', validEpochMs: referenceEpochMs + 6 * 3_600_000 },
    grid: {
      ni: COLUMNS,
      nj: rowCount,
      first: { lat: -30, lon: 172 },
      iIncrementDeg: 1,
      jIncrementDeg: 1,
      scanningMode: 64,
    },
    values: Array.from({ length: COLUMNS * rowCount }, (_, i) => valueAt(i)),
    decimalScaleFactor: 2,
    packing: 'simple',
    centre: 98,
  });
}

const PACKINGS: Readonly<Record<string, string>> = {
  'packing-complex': 'packingType=grid_complex',
  'packing-complex-order-0': 'packingType=grid_complex_spatial_differencing',
  'packing-jpeg': 'packingType=grid_jpeg',
  'packing-jpeg-lossy': 'packingType=grid_jpeg,typeOfCompressionUsed=1,targetCompressionRatio=4',
  'packing-ccsds': 'packingType=grid_ccsds',
  'packing-ieee': 'packingType=grid_ieee',
  'packing-logarithm': 'packingType=grid_simple_log_preprocessing',
  'packing-second-order': 'packingType=grid_second_order,decimalScaleFactor=0',
};
/** Bits are set of a field without scale factors, the packing after them: otherwise ecCodes keeps the width it had. */
const PACKING_WIDTHS: readonly (readonly [packing: string, bits: number])[] = [
  ...[8, 16, 24, 32].map((bits) => ['png', bits] as const),
  ...[24, 32].map((bits) => ['ccsds', bits] as const),
  ['jpeg', 24],
];
const PRODUCTS = [2, 5, 6, 9, 10, 11, 12, 15, 40, 41, 42, 43, 44, 45, 46, 47, 48, 49, 51, 60, 61, 91, 1000, 1100];
const GRIDS = [
  'rotated_ll',
  'stretched_ll',
  'mercator',
  'polar_stereographic',
  'lambert',
  'albers',
  'regular_gg',
  'sh',
  'space_view',
  'unstructured_grid',
  'lambert_azimuthal_equal_area',
  'azimuth_range',
  'triangular_grid',
];
const EDITION_1: Readonly<Record<string, string>> = {
  'edition-1-simple': 'packingType=grid_simple',
  'edition-1-ieee': 'packingType=grid_ieee',
  'edition-1-matrix': 'packingType=grid_simple_matrix',
  'edition-1-second-order': 'packingType=grid_second_order',
};
/** Samples that ecCodes brings along (Apache-2.0), as they are. */
const BROUGHT: Readonly<Record<string, string>> = {
  'edition-1-spectral': 'sh_sfc_grib1.tmpl',
  'packing-spectral': 'sh_sfc_grib2.tmpl',
  'edition-1-clusters': 'clusters_grib1.tmpl',
  'grid-lambert-bi-fourier': 'lambert_bf_grib2.tmpl',
};

interface Bench {
  readonly scratch: string;
  readonly samples: string;
}

/** What `grib_set` makes of a message; null where it will not. */
function withKeys({ scratch }: Bench, message: Uint8Array | null, keys: string): Uint8Array | null {
  if (message === null) return null;
  const [from, to] = [join(scratch, 'from'), join(scratch, 'to')];
  writeFileSync(from, message);
  rmSync(to, { force: true });
  const run = spawnSync(SET_TOOL, ['-r', '-s', keys, from, to], { encoding: 'utf8' });
  return run.status === 0 ? new Uint8Array(readFileSync(to)) : null;
}

type Named = readonly [name: string, message: Uint8Array | null];

function writtenByTool(bench: Bench): Named[] {
  const [whole, gaps] = [base(false), base(true)];
  const edition1 = withKeys(bench, gaps, 'edition=1') ?? new Uint8Array(0);
  const whole1 = withKeys(bench, whole, 'edition=1') ?? new Uint8Array(0);
  return [
    ...Object.entries(PACKINGS).map(([name, keys]): Named => [name, withKeys(bench, whole, keys)]),
    ...PACKING_WIDTHS.flatMap(([packing, bits]): Named[] =>
      [false, true].map((hasGaps): Named => {
        const unscaled = ['packingType=grid_ieee', 'packingType=grid_simple'];
        const steps = [...unscaled, `bitsPerValue=${bits}`, `packingType=grid_${packing}`];
        const packed = steps.reduce<Uint8Array | null>(
          (message, keys) => withKeys(bench, message, keys),
          stepped(hasGaps),
        );
        return [`packing-${packing}-${bits}-bits${hasGaps ? '-masked' : ''}`, packed];
      }),
    ),
    ...Object.entries(PACKINGS).map(([name, keys]): Named => [`${name}-masked`, withKeys(bench, gaps, keys)]),
    ...PRODUCTS.map((number): Named => [
      `product-4-${number}`,
      withKeys(bench, whole, `productDefinitionTemplateNumber=${number}`),
    ]),
    ...GRIDS.map((kind): Named => [`grid-${kind.replaceAll('_', '-')}`, withKeys(bench, whole, `gridType=${kind}`)]),
    ...Object.entries(EDITION_1).flatMap(([name, keys]): Named[] => [
      [name, withKeys(bench, whole1, keys)],
      [`${name}-masked`, withKeys(bench, edition1, keys)],
    ]),
    ...Object.entries(BROUGHT).map(([name, file]): Named => [
      name,
      new Uint8Array(readFileSync(join(bench.samples, file))),
    ]),
  ];
}

/** Octets of a section of a message replaced; they count from 1. */
function withOctets(
  message: Uint8Array,
  at: { section: number; octet: number },
  octets: readonly number[],
): Uint8Array {
  const copy = message.slice();
  const section = sectionsOf(message).find(({ sectionNumber }) => sectionNumber === at.section);
  if (section === undefined) throw new Error(`there is no section ${at.section}`);
  copy.set(octets, section.startIndex + at.octet - 1);
  return copy;
}

/** A message with octets put in before one of its sections, or a section taken out; the whole length agrees. */
function spliced(message: Uint8Array, before: number, put: readonly number[], takenOctets = 0): Uint8Array {
  const section = sectionsOf(message).find(({ sectionNumber }) => sectionNumber === before);
  if (section === undefined) throw new Error(`there is no section ${before}`);
  const made = new Uint8Array(
    Buffer.concat([
      message.subarray(0, section.startIndex - takenOctets),
      Uint8Array.from(put),
      message.subarray(section.startIndex),
    ]),
  );
  writeNumber(made, totalLengthPlace(made), made.length);
  return made;
}

/** Kinds made by setting octets: Section 5 codes, a local Section 2, bitmaps of the centre, edition 1 without Section 2. */
function byOctets(bench: Bench): Named[] {
  const [whole, gaps] = [base(false), base(true)];
  const whole1 = withKeys(bench, whole, 'edition=1') ?? new Uint8Array(0);
  const gaps1 = withKeys(bench, gaps, 'edition=1') ?? new Uint8Array(0);
  const codedPacking = (code: number): Uint8Array =>
    withOctets(whole, { section: 5, octet: 10 }, [code >> 8, code & 255]);
  const noGrid = spliced(withOctets(whole1, { section: 1, octet: 8 }, [0]), 4, [], 32);
  return [
    ...[1, 53, 200].map((code): Named => [`packing-code-${code}`, codedPacking(code)]),
    ...[7, 60, 103, 104, 117, 118].map((code): Named => [
      `product-code-${code}`,
      withOctets(longProduct(whole), { section: 4, octet: 8 }, [code >> 8, code & 255]),
    ]),
    ['local-section', spliced(whole, 3, [0, 0, 0, 9, 2, 1, 2, 3, 4])],
    ['bitmap-of-centre', withOctets(whole, { section: 6, octet: 6 }, [7])],
    ['bitmap-before-missing', withOctets(whole, { section: 6, octet: 6 }, [254])],
    ['edition-1-no-grid', noGrid],
    ['edition-1-bitmap-of-centre', withOctets(gaps1, { section: 3, octet: 5 }, [0, 9])],
    ['mixed-editions', new Uint8Array(Buffer.concat([whole1, gaps, gaps1, whole]))],
    [
      'bulletin-headers',
      new Uint8Array(
        Buffer.concat([whole, gaps].flatMap((one, i) => [bulletinHead(i + 1), one, Buffer.from('\r\r\n\u0003')])),
      ),
    ],
  ];
}

/** Abbreviated heading of a bulletin (WMO-No. 386, Attachment II-5). */
const bulletinHead = (number: number): Buffer =>
  Buffer.from(`\u0001\r\r\n${String(number).padStart(3, '0')}\r\r\nHUXA85 KWBC 271200\r\r\n`);

/** Section 4 made long enough for every template that is understood; what is behind template 4.0 is missing (all ones). */
function longProduct(message: Uint8Array): Uint8Array {
  const more = Array.from({ length: 40 }, () => 255);
  const longer = spliced(message, 5, more);
  return withOctets(longer, { section: 4, octet: 1 }, [0, 0, 0, 34 + more.length]);
}

function main(): number {
  const info = spawnSync('codes_info', ['-s'], { encoding: 'utf8' });
  if (info.status !== 0) {
    console.error('ecCodes is not installed (no codes_info found).');
    return 2;
  }
  const bench = { scratch: mkdtempSync(join(tmpdir(), 'grib-kinds-')), samples: info.stdout.trim() };
  rmSync(FOLDER, { recursive: true, force: true });
  mkdirSync(FOLDER, { recursive: true });
  let writtenCount = 0;
  for (const [name, message] of [...writtenByTool(bench), ...byOctets(bench)]) {
    if (message === null || message.length === 0) console.log(`not written by ecCodes: ${name}`);
    else {
      writeFileSync(join(FOLDER, `${name}.grib`), message);
      writtenCount += 1;
    }
  }
  console.log(`${FOLDER}: ${writtenCount} messages`);
  writeFileSync(join(FOLDER, 'README.md'), README);
  rmSync(bench.scratch, { recursive: true });
  return 0;
}

const README = `# Small GRIB messages of kinds the other samples do not show

Samples to be damaged (\`npm run mutate-grib\`), 16 × 8 or 16 × 40 points of invented wind. Written by ecCodes, or made of
such messages by setting octets, as \`node --import tsx scripts/make-grib-kinds.ts\` does, which writes this folder;
\`edition-1-spectral\`, \`packing-spectral\`, \`edition-1-clusters\` and \`grid-lambert-bi-fourier\` are samples that ecCodes
brings along (Apache-2.0). No value of theirs is checked. No third-party weather data.
`;

process.exitCode = main();
