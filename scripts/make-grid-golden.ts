/**
 * Writes tests/golden/grib-grids: small messages of every kind of grid, and where ecCodes places their points.
 *
 *     node --import tsx scripts/make-grid-golden.ts
 *
 * The messages are made from the samples that ecCodes brings along, by setting keys with `grib_filter`; values count the
 * points in the order of the file, from 1, so that a point is known again where the tool prints points in another order. Nothing
 * of lib/grib is used.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { eccodesVersion, readReferenceFile } from './compare-grib/eccodes.ts';

const FOLDER = 'tests/golden/grib-grids';
/** The tool that sets keys of a message. */
const FILTER = 'grib_filter';
/** Points written of each grid, evenly spread. */
const MOST_POINTS = 40;

type Keys = Readonly<Record<string, number | readonly number[]>>;

interface GridCase {
  readonly name: string;
  /** File name in the folder of samples, without its ending. */
  readonly sample: string;
  readonly keys: Keys;
  /** Values; left out: those of the sample, which are all the same. */
  readonly pointCount?: number;
}

const SCAN = { WEST: 128, NORTH: 64, MERIDIANS: 32, ALTERNATING: 16 };

const lambert: Keys = {
  gridDefinitionTemplateNumber: 30,
  shapeOfTheEarth: 6,
  Nx: 7,
  Ny: 5,
  latitudeOfFirstGridPoint: 12_190_000,
  longitudeOfFirstGridPoint: 226_541_000,
  LaD: 25_000_000,
  LoV: 265_000_000,
  Dx: 400_000_000,
  Dy: 300_000_000,
  scanningMode: SCAN.NORTH,
  Latin1: 25_000_000,
  Latin2: 25_000_000,
};

const polar: Keys = {
  gridDefinitionTemplateNumber: 20,
  shapeOfTheEarth: 6,
  Nx: 7,
  Ny: 5,
  latitudeOfFirstGridPoint: 7_647_000,
  longitudeOfFirstGridPoint: 226_557_000,
  LaD: 60_000_000,
  orientationOfTheGrid: 255_000_000,
  Dx: 400_000_000,
  Dy: 300_000_000,
  scanningMode: SCAN.NORTH,
};

const mercator: Keys = {
  gridDefinitionTemplateNumber: 10,
  shapeOfTheEarth: 6,
  Ni: 7,
  Nj: 5,
  latitudeOfFirstGridPoint: -2_000_000,
  longitudeOfFirstGridPoint: 178_475_000,
  LaD: 20_000_000,
  latitudeOfLastGridPoint: 7_530_000,
  longitudeOfLastGridPoint: 192_828_000,
  orientationOfTheGrid: 0,
  Di: 250_000_000,
  Dj: 250_000_000,
  scanningMode: SCAN.NORTH,
};

const rotated: Keys = {
  Ni: 7,
  Nj: 5,
  latitudeOfFirstGridPointInDegrees: -2,
  longitudeOfFirstGridPointInDegrees: -3,
  latitudeOfLastGridPointInDegrees: 6,
  longitudeOfLastGridPointInDegrees: 9,
  iDirectionIncrementInDegrees: 2,
  jDirectionIncrementInDegrees: 2,
  scanningMode: SCAN.NORTH,
  latitudeOfSouthernPoleInDegrees: -36,
  longitudeOfSouthernPoleInDegrees: 245,
  angleOfRotationInDegrees: 0,
};

const gaussian: Keys = {
  Ni: 5,
  Nj: 4,
  N: 32,
  latitudeOfFirstGridPointInDegrees: 37.673,
  latitudeOfLastGridPointInDegrees: 29.301,
  longitudeOfFirstGridPointInDegrees: -5.625,
  longitudeOfLastGridPointInDegrees: 5.625,
  iDirectionIncrementInDegrees: 2.8125,
  scanningMode: 0,
};

const CASES: readonly GridCase[] = [
  { name: 'lambert-tangent', sample: 'regular_ll_sfc_grib2', pointCount: 35, keys: lambert },
  {
    name: 'lambert-secant',
    sample: 'regular_ll_sfc_grib2',
    pointCount: 35,
    keys: { ...lambert, Latin1: 30e6, Latin2: 60e6, LaD: 30e6 },
  },
  {
    name: 'lambert-either-side-of-equator',
    sample: 'regular_ll_sfc_grib2',
    pointCount: 35,
    keys: { ...lambert, Latin1: 40e6, Latin2: -10e6, LaD: 40e6 },
  },
  {
    name: 'lambert-wgs84',
    sample: 'regular_ll_sfc_grib2',
    pointCount: 35,
    keys: { ...lambert, shapeOfTheEarth: 5, Latin1: 30e6, Latin2: 60e6, LaD: 60e6 },
  },
  {
    name: 'lambert-iau-1965',
    sample: 'regular_ll_sfc_grib2',
    pointCount: 35,
    keys: { ...lambert, shapeOfTheEarth: 2 },
  },
  {
    name: 'lambert-axes-in-km',
    sample: 'regular_ll_sfc_grib2',
    pointCount: 35,
    keys: {
      ...lambert,
      shapeOfTheEarth: 3,
      scaleFactorOfEarthMajorAxis: 3,
      scaledValueOfEarthMajorAxis: 6_378_137,
      scaleFactorOfEarthMinorAxis: 3,
      scaledValueOfEarthMinorAxis: 6_356_000,
    },
  },
  {
    name: 'lambert-alternating',
    sample: 'regular_ll_sfc_grib2',
    pointCount: 35,
    keys: { ...lambert, scanningMode: SCAN.NORTH + SCAN.ALTERNATING },
  },
  {
    name: 'lambert-meridians',
    sample: 'regular_ll_sfc_grib2',
    pointCount: 35,
    keys: { ...lambert, scanningMode: SCAN.NORTH + SCAN.MERIDIANS },
  },
  { name: 'polar-north', sample: 'regular_ll_sfc_grib2', pointCount: 35, keys: polar },
  {
    name: 'polar-south',
    sample: 'regular_ll_sfc_grib2',
    pointCount: 35,
    keys: {
      ...polar,
      projectionCentreFlag: 128,
      LaD: -60e6,
      latitudeOfFirstGridPoint: -50e6,
      longitudeOfFirstGridPoint: 200e6,
      orientationOfTheGrid: 180e6,
    },
  },
  {
    name: 'polar-over-pole',
    sample: 'regular_ll_sfc_grib2',
    pointCount: 35,
    keys: { ...polar, LaD: 90e6, latitudeOfFirstGridPoint: 82_500_000, longitudeOfFirstGridPoint: 210e6 },
  },
  {
    name: 'polar-alternating',
    sample: 'regular_ll_sfc_grib2',
    pointCount: 35,
    keys: { ...polar, scanningMode: SCAN.NORTH + SCAN.ALTERNATING },
  },
  { name: 'mercator', sample: 'regular_ll_sfc_grib2', pointCount: 35, keys: mercator },
  { name: 'mercator-wgs84', sample: 'regular_ll_sfc_grib2', pointCount: 35, keys: { ...mercator, shapeOfTheEarth: 5 } },
  {
    name: 'mercator-sphere-given',
    sample: 'regular_ll_sfc_grib2',
    pointCount: 35,
    keys: {
      ...mercator,
      shapeOfTheEarth: 1,
      scaleFactorOfRadiusOfSphericalEarth: 0,
      scaledValueOfRadiusOfSphericalEarth: 6_371_200,
    },
  },
  {
    name: 'mercator-meridians-alternating',
    sample: 'regular_ll_sfc_grib2',
    pointCount: 35,
    keys: { ...mercator, scanningMode: SCAN.NORTH + SCAN.ALTERNATING },
  },
  { name: 'rotated', sample: 'rotated_ll_sfc_grib2', pointCount: 35, keys: rotated },
  {
    name: 'rotated-westward-meridians',
    sample: 'rotated_ll_sfc_grib2',
    pointCount: 35,
    keys: {
      ...rotated,
      scanningMode: SCAN.WEST + SCAN.MERIDIANS,
      latitudeOfFirstGridPointInDegrees: 6,
      latitudeOfLastGridPointInDegrees: -2,
      longitudeOfFirstGridPointInDegrees: 9,
      longitudeOfLastGridPointInDegrees: -3,
    },
  },
  {
    name: 'rotated-over-pole',
    sample: 'rotated_ll_sfc_grib2',
    pointCount: 35,
    keys: { ...rotated, latitudeOfSouthernPoleInDegrees: -2 },
  },
  { name: 'gaussian-part', sample: 'regular_gg_sfc_grib2', pointCount: 20, keys: gaussian },
  {
    name: 'gaussian-northward',
    sample: 'regular_gg_sfc_grib2',
    pointCount: 20,
    keys: {
      ...gaussian,
      scanningMode: SCAN.NORTH,
      latitudeOfFirstGridPointInDegrees: 29.301,
      latitudeOfLastGridPointInDegrees: 37.673,
    },
  },
  { name: 'gaussian-n32', sample: 'regular_gg_sfc_grib2', keys: {} },
  { name: 'reduced-n32', sample: 'reduced_gg_pl_32_grib2', keys: {} },
  { name: 'reduced-n80', sample: 'reduced_gg_pl_80_grib2', keys: {} },
  { name: 'thinned-latlon', sample: 'reduced_ll_sfc_grib2', keys: {} },
  { name: 'edition-1-lambert', sample: 'regular_ll_sfc_grib1', pointCount: 35, keys: edition1Lambert() },
  {
    name: 'edition-1-lambert-ellipsoid',
    sample: 'regular_ll_sfc_grib1',
    pointCount: 35,
    keys: { ...edition1Lambert(), resolutionAndComponentFlags: 0xc8 },
  },
  {
    name: 'edition-1-polar',
    sample: 'regular_ll_sfc_grib1',
    pointCount: 35,
    keys: {
      dataRepresentationType: 5,
      Nx: 7,
      Ny: 5,
      latitudeOfFirstGridPoint: 7647,
      longitudeOfFirstGridPoint: -133_443,
      orientationOfTheGrid: -105_000,
      DxInMetres: 400_000,
      DyInMetres: 300_000,
      scanningMode: SCAN.NORTH,
    },
  },
  {
    name: 'edition-1-mercator',
    sample: 'regular_ll_sfc_grib1',
    pointCount: 35,
    keys: {
      dataRepresentationType: 1,
      Ni: 7,
      Nj: 5,
      latitudeOfFirstGridPoint: -2000,
      longitudeOfFirstGridPoint: 178_475,
      Latin: 20_000,
      latitudeOfLastGridPoint: 7535,
      longitudeOfLastGridPoint: -167_163,
      DiInMetres: 250_000,
      DjInMetres: 250_000,
      scanningMode: SCAN.NORTH,
    },
  },
  { name: 'edition-1-rotated', sample: 'rotated_ll_sfc_grib1', pointCount: 35, keys: rotated },
  { name: 'edition-1-gaussian', sample: 'regular_gg_sfc_grib1', pointCount: 20, keys: gaussian },
  { name: 'edition-1-reduced-n32', sample: 'reduced_gg_pl_32_grib1', keys: {} },
  { name: 'edition-1-thinned-latlon', sample: 'reduced_ll_sfc_grib1', keys: {} },
];

function edition1Lambert(): Keys {
  return {
    dataRepresentationType: 3,
    Nx: 7,
    Ny: 5,
    latitudeOfFirstGridPoint: 12_190,
    longitudeOfFirstGridPoint: -133_459,
    LoV: -95_000,
    DxInMetres: 400_000,
    DyInMetres: 300_000,
    scanningMode: SCAN.NORTH,
    Latin1: 30_000,
    Latin2: 60_000,
  };
}

/** Rules that make the message of a case. */
function rulesOf({ keys, pointCount }: GridCase): string {
  const settings = Object.entries(keys).map(
    ([key, value]) => `set ${key} = ${Array.isArray(value) ? `{${value.join()}}` : String(value)};`,
  );
  const isEdition2Map = 'gridDefinitionTemplateNumber' in keys;
  const count = pointCount === undefined || !isEdition2Map ? [] : [`set numberOfDataPoints = ${pointCount};`];
  const values = Array.from({ length: pointCount ?? 0 }, (_, i) => i + 1).join();
  const coded = pointCount === undefined ? [] : [`set decimalPrecision = 0; set values = {${values}};`];
  return [...settings, ...count, ...coded, 'write;'].join('\n');
}

function makeMessage(scratch: string, { samples, one }: { samples: string; one: GridCase }): string {
  const rulesPath = join(scratch, 'case.rules');
  const path = join(FOLDER, `${one.name}.grib`);
  writeFileSync(rulesPath, rulesOf(one));
  const run = spawnSync(FILTER, ['-o', path, rulesPath, join(samples, `${one.sample}.tmpl`)], {
    encoding: 'latin1',
  });
  if (run.status !== 0) throw new Error(`${one.name}: ${run.stderr}`);
  return path;
}

/** Index in the file, latitude and longitude of points evenly spread. */
function pointsOf(path: string, isCounted: boolean): number[][] {
  const [field] = readReferenceFile(path, 'points');
  if (field === undefined || field.lats.length === 0) throw new Error(`${path}: ecCodes finds no points`);
  const pointCount = field.lats.length;
  const sampleCount = Math.min(pointCount, MOST_POINTS);
  const printed = Array.from({ length: sampleCount }, (_, k) =>
    Math.round((k * (pointCount - 1)) / Math.max(1, sampleCount - 1)),
  );
  return printed.map((i) => [
    isCounted ? Math.round(field.values[i] ?? Number.NaN) - 1 : i,
    Number((field.lats[i] ?? Number.NaN).toFixed(7)),
    Number((field.lons[i] ?? Number.NaN).toFixed(7)),
  ]);
}

function main(): number {
  const version = eccodesVersion();
  if (version === null) {
    console.error('ecCodes is not installed (no codes_info found).');
    return 2;
  }
  const samples = spawnSync('codes_info', ['-s'], { encoding: 'utf8' }).stdout.trim();
  const scratch = mkdtempSync(join(tmpdir(), 'grid-golden-'));
  for (const one of CASES) {
    const path = makeMessage(scratch, { samples, one });
    const points = pointsOf(path, one.pointCount !== undefined);
    const about = {
      source: `ecCodes ${version}`,
      how: `scripts/make-grid-golden.ts, sample ${one.sample}`,
      keys: one.keys,
    };
    const octets = readFileSync(path).length;
    const text = `{"about":${JSON.stringify(about)},\n"octets":${octets},"points":[\n${points.map((point) => JSON.stringify(point)).join(',\n')}\n]}\n`;
    writeFileSync(join(FOLDER, `${one.name}.json`), text);
  }
  rmSync(scratch, { recursive: true });
  console.log(`${CASES.length} grids, ecCodes ${version}`);
  return 0;
}

process.exitCode = main();
