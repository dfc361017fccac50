/**
 * Writes tests/golden/grib/fields.json: what ecCodes reads from every file in tests/golden/grib/files.
 *
 *     node --import tsx scripts/make-grib-golden.ts [--out FILE]
 *
 * Nothing of lib/grib is used, so that the figures stay an outside opinion.
 */
import { spawnSync } from 'node:child_process';
import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { eccodesVersion, type ReferenceField, readReferenceFile } from './compare-grib/eccodes.ts';

const FOLDER = 'tests/golden/grib';
const { values: asked } = parseArgs({ options: { out: { type: 'string', default: join(FOLDER, 'fields.json') } } });

/** Keys of ecCodes, one column each; steps in seconds. */
const KEYS = [
  'edition',
  'centre:i',
  'discipline',
  'parameterCategory',
  'parameterNumber',
  'table2Version',
  'indicatorOfParameter:i',
  'typeOfFirstFixedSurface:i',
  'indicatorOfTypeOfLevel:i',
  'level',
  'dataDate',
  'dataTime',
  'startStep',
  'endStep',
  'validityDate',
  'validityTime',
  'typeOfStatisticalProcessing:i',
  'perturbationNumber',
  'numberOfForecastsInEnsemble',
  'bitsPerValue',
  'numberOfPoints',
  'Ni',
  'Nj',
  'latitudeOfFirstGridPointInDegrees',
  'longitudeOfFirstGridPointInDegrees',
  'latitudeOfLastGridPointInDegrees',
  'longitudeOfLastGridPointInDegrees',
];
const COMMAND = 'grib_get -f -F %.12g -s stepUnits=s -p';
/** Steps cannot be told in seconds where a message counts in years. */
const KEYS_WITHOUT_STEPS = KEYS.filter((key) => !key.endsWith('Step'));

type Header = Record<string, number | null>;

/** One header per field, in file order. */
function readHeaders(path: string): Header[] {
  const headers = readKeys(path, KEYS);
  return headers.some((header) => header === null)
    ? readKeys(path, KEYS_WITHOUT_STEPS).filter((header) => header !== null)
    : headers.filter((header) => header !== null);
}

/** Null for a row that the tool broke off. A message that it cannot read at all leaves a row without an edition. */
function readKeys(path: string, keys: readonly string[]): (Header | null)[] {
  const [tool = '', ...options] = COMMAND.split(' ');
  const run = spawnSync(tool, [...options, keys.join(','), path], { encoding: 'latin1' });
  const rows = run.stdout.split('\n').map((line) => line.trim().split(/\s+/));
  return rows
    .filter((columns) => numberOrNull(columns[0]) !== null && columns[0] !== '')
    .map((columns) => (columns.length === keys.length ? namedColumns(keys, columns) : null));
}

const namedColumns = (keys: readonly string[], columns: readonly string[]): Header =>
  Object.fromEntries(keys.map((key, i) => [key.replace(':i', ''), numberOrNull(columns[i])]));

const numberOrNull = (text: string | undefined): number | null =>
  text === undefined || Number.isNaN(Number(text)) ? null : Number(text);

/** Sampled points: evenly spread, both ends included; [index, lat, lon, value], null for missing. */
function summarise(field: ReferenceField): object {
  const count = field.values.length;
  const present = Array.from(field.values).filter((value) => !Number.isNaN(value));
  const sampleIndices = [...new Set(Array.from({ length: 17 }, (_, k) => Math.round((k * (count - 1)) / 16)))];
  const nullable = (value: number | undefined): number | null =>
    value === undefined || Number.isNaN(value) ? null : value;
  return {
    pointCount: count,
    missingCount: count - present.length,
    least: present.length === 0 ? null : present.reduce((a, b) => Math.min(a, b)),
    greatest: present.length === 0 ? null : present.reduce((a, b) => Math.max(a, b)),
    mean: present.length === 0 ? null : present.reduce((a, b) => a + b, 0) / present.length,
    samples: sampleIndices.map((i) => [i, nullable(field.lats[i]), nullable(field.lons[i]), nullable(field.values[i])]),
  };
}

function main(): number {
  const version = eccodesVersion();
  if (version === null) {
    console.error('ecCodes is not installed (no codes_info found).');
    return 2;
  }
  const files = readdirSync(join(FOLDER, 'files')).toSorted();
  const entries = files.flatMap((file) => {
    const path = join(FOLDER, 'files', file);
    const headers = readHeaders(path);
    const points = readReferenceFile(path, 'points');
    const values = readReferenceFile(path, 'values');
    return headers.map((header, i) => {
      const summary =
        points.length === headers.length ? points[i] : values.length === headers.length ? values[i] : undefined;
      return JSON.stringify({ file, header, values: summary === undefined ? null : summarise(summary) });
    });
  });
  const about = {
    source: `ecCodes ${version}`,
    how: `scripts/make-grib-golden.ts: ${COMMAND} ${KEYS.join(',')}; grib_get_data -f -m NaN -F %.17g -L "%.9f %.9f "`,
    units: 'values in the unit of the parameter; degrees; steps in seconds',
    licence: 'facts read from the files of MANIFEST.tsv, whose licences stand there',
  };
  const text = `{"about":${JSON.stringify(about)},\n"fields":[\n${entries.join(',\n')}\n]}\n`;
  writeFileSync(asked.out, text);
  console.log(`${entries.length} fields of ${files.length} files, ecCodes ${version}`);
  return 0;
}

process.exitCode = main();
