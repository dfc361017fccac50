/** Cuts as ecCodes reads them: the headers of the files they were cut from, and the same values at the same places. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CutRequest } from '../../lib/forecast/index.ts';
import { referenceTool } from '../reference-tools.ts';
import { cutOf, type File, goldenFile, sampleFile } from './cut-samples.ts';

/** What was told of the committed files, which several tests ask about. */
const toldBefore = new WeakMap<Uint8Array, Map<string, string>>();

/** Output of a program of ecCodes about a file of these octets. */
function told(program: string, options: readonly string[], bytes: Uint8Array): string {
  const key = [program, ...options].join(' ');
  const known = toldBefore.get(bytes) ?? new Map<string, string>();
  const text = known.get(key) ?? run(program, options, bytes);
  toldBefore.set(bytes, known.set(key, text));
  return text;
}

function run(program: string, options: readonly string[], bytes: Uint8Array): string {
  const folder = mkdtempSync(join(tmpdir(), 'cut-test-'));
  try {
    writeFileSync(join(folder, 'f.grib'), bytes);
    return execFileSync(program, [...options, join(folder, 'f.grib')], { encoding: 'utf8', maxBuffer: 1e9 });
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The name ecCodes has for the parameter, its level, times, centre and member: in either edition the same words. */
const HEADERS =
  'shortName,typeOfLevel,level,dataDate,dataTime,stepRange,stepType,centre,subCentre,perturbationNumber,numberOfForecastsInEnsemble';
/** Copied octet by octet where the file is of edition 2. */
const COPIED =
  'discipline,parameterCategory,parameterNumber,tablesVersion,productionStatusOfProcessedData,typeOfProcessedData,' +
  'typeOfGeneratingProcess,generatingProcessIdentifier,shapeOfTheEarth,productDefinitionTemplateNumber';

const GFS = goldenFile('grib/files/gfs_2p5_cut.grib2');
const WAVES = goldenFile('grib/files/gdaswave_cut.grib1');
const AIR = goldenFile('grib/files/regular_ll_sfc.grib1');
const GUST = goldenFile('grib/files/pdt8_gust_max_3_6.grib2');

const boxed = (south: number, west: number, north: number, east: number): CutRequest => ({
  area: { kind: 'box', box: { southWest: { lat: south, lon: west }, northEast: { lat: north, lon: east } } },
});

interface Case {
  readonly name: string;
  readonly file: File;
  readonly request: CutRequest;
  readonly keys: string;
  readonly fieldCount: number;
  readonly hasMembers?: boolean;
  /** All points are kept: they are compared in their order, as ecCodes places those of edition 1 by increments of 0.166°. */
  readonly isWhole?: boolean;
  /** Lower values of the file can be no weather, and are missing in the cut. */
  readonly leastValue?: number;
}

const CASES: readonly Case[] = [
  {
    name: 'winds, gust, pressure and rain, edition 2',
    file: GFS,
    request: boxed(-40, 170, -20, -170),
    keys: `${HEADERS},${COPIED}`,
    fieldCount: 5,
  },
  {
    name: 'the same, a message for each',
    file: GFS,
    request: { ...boxed(-40, -20, -20, 20), layout: 'separate' },
    keys: `${HEADERS},${COPIED}`,
    fieldCount: 5,
  },
  {
    name: 'gust over an interval',
    file: GUST,
    request: boxed(-90, -180, 90, 180),
    keys: `${HEADERS},${COPIED}`,
    fieldCount: 1,
    // Half of its invented gusts are negative; -1 kn is still taken for 0.
    leastValue: -1852 / 3600,
  },
  {
    name: 'members and control, sums',
    file: sampleFile(0),
    request: boxed(-36, 178, -34, -178),
    keys: `${HEADERS},${COPIED}`,
    fieldCount: 112,
    hasMembers: true,
  },
  {
    name: 'wind and waves, edition 1, land missing',
    file: WAVES,
    request: boxed(25, -150, 50, -110),
    keys: HEADERS,
    fieldCount: 3,
    isWhole: true,
  },
  {
    name: 'air temperature, edition 1',
    file: AIR,
    request: boxed(-90, -180, 90, 180),
    keys: 'shortName,dataDate,dataTime,stepRange,stepType,centre',
    fieldCount: 1,
  },
];

describe.skipIf(referenceTool('grib_get') === null)('headers of a cut in ecCodes', () => {
  const program = referenceTool('grib_get') ?? '';

  it.each(CASES)('$name: those of the fields it was cut from', ({ file, request, keys, fieldCount }) => {
    const lines = (bytes: Uint8Array): string[] => told(program, ['-f', '-p', keys], bytes).trim().split('\n');
    const [before, after] = [new Set(lines(file.bytes)), lines(cutOf([file], request).bytes)];
    expect(after).toHaveLength(fieldCount);
    expect(new Set(after).size).toBe(fieldCount);
    expect(after.filter((line) => !before.has(line))).toEqual([]);
  });
});

describe.skipIf(referenceTool('grib_set') === null)('edition 1 translated by ecCodes', () => {
  it('air temperature of ECMWF: the same parameter, level and time of edition 2', () => {
    const folder = mkdtempSync(join(tmpdir(), 'cut-test-'));
    try {
      const [from, to] = [join(folder, '1.grib'), join(folder, '2.grib')];
      writeFileSync(from, AIR.bytes);
      execFileSync(referenceTool('grib_set') ?? '', ['-s', 'edition=2', from, to]);
      const keys = 'discipline,parameterCategory,parameterNumber,typeOfLevel,level,dataDate,dataTime,stepRange,centre';
      const [its, ours] = [readFileSync(to), cutOf([AIR], boxed(-90, -180, 90, 180)).bytes].map((bytes) =>
        told(referenceTool('grib_get') ?? '', ['-f', '-p', keys], bytes),
      );
      expect(ours).toBe(its);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});

describe.skipIf(referenceTool('grib_get_data') === null)('values of a cut in ecCodes', () => {
  const program = referenceTool('grib_get_data') ?? '';

  /** Values by header and place. */
  function valuesOf(bytes: Uint8Array, header: string, byPlace = true): ReadonlyMap<string, string> {
    const options = ['-m', 'missing', '-p', header, '-L', '%.4f %.4f', '-F', '%.8e'];
    const rows = told(program, options, bytes)
      .split('\n')
      .filter((line) => /^\s*-?\d/.test(line))
      .map((line) => line.trim().split(/[\s,]+/));
    const counts = new Map<string, number>();
    return new Map(
      rows.map(([lat, lon, value = '', ...headers]) => {
        const name = headers.join(' ');
        const countSoFar = counts.get(name) ?? 0;
        counts.set(name, countSoFar + 1);
        if (!byPlace) return [`${name} ${countSoFar}`, value];
        const place = `${Number(lat).toFixed(3)} ${(((Number(lon) % 360) + 360) % 360).toFixed(3)}`;
        return [`${name} ${place}`, value];
      }),
    );
  }

  /** Half a step of each parameter [its own unit]: 0.05 m/s, 0.05 m, 10 Pa, 0.05 kg m-2, 0.05 K. */
  const ERRORS: Readonly<Record<string, number>> = { prmsl: 10, default: 0.05 };

  it.each(CASES)(
    '$name: each within half a step of the value there was, missing ones missing',
    ({ file, request, hasMembers, isWhole, leastValue = -Infinity }) => {
      const header = hasMembers === true ? 'shortName,stepRange,perturbationNumber' : 'shortName,stepRange';
      const [before, after] = [
        valuesOf(file.bytes, header, isWhole !== true),
        valuesOf(cutOf([file], request).bytes, header, isWhole !== true),
      ];
      expect(after.size).toBeGreaterThan(200);
      const wrong = [...after].filter(([key, value]) => {
        const read = before.get(key);
        const own = Number(read) < leastValue ? 'missing' : read;
        if (own === undefined || own === 'missing' || value === 'missing') return own !== value;
        const allowed = ERRORS[key.split(' ')[0] ?? ''] ?? ERRORS['default'] ?? 0;
        return !(Math.abs(Number(own) - Number(value)) <= allowed * 1.001 + Math.abs(Number(own)) * 1e-7);
      });
      expect(wrong).toEqual([]);
    },
  );

  it('a corridor: values where it needs them, missing elsewhere', () => {
    const header = 'shortName,stepRange,perturbationNumber';
    const places = [
      { lat: -40, lon: 174 },
      { lat: -33, lon: -177 },
    ];
    const request: CutRequest = { area: { kind: 'corridor', places, marginNm: 40 } };
    const [before, after] = [
      valuesOf(sampleFile(64).bytes, header),
      valuesOf(cutOf([sampleFile(64)], request).bytes, header),
    ];
    const present = [...after].filter(([, value]) => value !== 'missing');
    expect(present.length / after.size).toBeGreaterThan(0.2);
    expect(present.length / after.size).toBeLessThan(0.7);
    const wrong = present.filter(
      ([key, value]) =>
        !(Math.abs(Number(before.get(key)) - Number(value)) <= (key.startsWith('prmsl') ? 10.02 : 0.0501)),
    );
    expect(wrong).toEqual([]);
  });
});
