/**
 * The reference reader: ecCodes' `grib_get_data`, one message at a time; `grib_filter` for grids on which
 * `grib_get_data` reorders the rows or knows no positions.
 */
import { spawnSync, type SpawnSyncReturns } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Points of one field as the reference prints them; positions are empty where only values were asked for. */
export interface ReferenceField {
  readonly lats: Float64Array;
  readonly lons: Float64Array;
  /** NaN is missing. */
  readonly values: Float64Array;
}

const MOST_OUTPUT_OCTETS = 2 ** 31 - 1;
const LINE_FEED = 0x0a;

/** Version of the installed tool, or null when there is none. */
export function eccodesVersion(): string | null {
  const run = spawnSync('codes_info', ['-v'], { encoding: 'utf8' });
  return run.status === 0 ? run.stdout.trim() : null;
}

/** Reads all fields of a message, or returns the tool's complaint. */
export type ReadReference = (message: Uint8Array, ask: 'points' | 'values') => ReferenceField[] | string;

/** Runs `work` with a reader; its scratch files are removed afterwards. */
export function withReference<T>(work: (read: ReadReference) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'compare-grib-'));
  try {
    return work((message, ask) => readMessage(folder, message, ask));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Stands for missing values in the output of `grib_filter`; no field holds it. */
const MISSING_MARK = -123_456_789_123;
const VALUES_HEADING = 'Lat: values only';
const VALUES_RULES = `set missingValue=${MISSING_MARK}; print "${VALUES_HEADING}"; print "[values%.17g!1]";`;

/** Multi-field support is on by default in both tools; 17 digits restore a double. */
function readMessage(folder: string, message: Uint8Array, ask: 'points' | 'values'): ReferenceField[] | string {
  const messagePath = join(folder, 'message.grib');
  const rulesPath = join(folder, 'values.rules');
  writeFileSync(messagePath, message);
  writeFileSync(rulesPath, VALUES_RULES);
  const run = ask === 'points' ? points(messagePath) : spawn('grib_filter', [rulesPath, messagePath]);
  if (run.status !== 0) return run.stderr.toString('latin1').trim().split('\n')[0] ?? 'no output';
  return parseFields(run.stdout);
}

/** All fields of a file, as far as the tool gets. */
export function readReferenceFile(path: string, ask: 'points' | 'values'): ReferenceField[] {
  const folder = mkdtempSync(join(tmpdir(), 'compare-grib-'));
  try {
    const rulesPath = join(folder, 'values.rules');
    writeFileSync(rulesPath, VALUES_RULES);
    return parseFields(ask === 'points' ? points(path).stdout : spawn('grib_filter', ['-f', rulesPath, path]).stdout);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

const points = (path: string): SpawnSyncReturns<Buffer> =>
  spawn('grib_get_data', ['-f', '-m', 'NaN', '-F', '%.17g', '-L', '%.9f %.9f ', path]);

const spawn = (tool: string, args: string[]): SpawnSyncReturns<Buffer> =>
  spawnSync(tool, args, { maxBuffer: MOST_OUTPUT_OCTETS });

/** A heading that begins with `Lat` begins each field; every other line is a point: latitude, longitude, value, or the value alone. */
function parseFields(output: Buffer): ReferenceField[] {
  const headings = headingIndices(output);
  return headings.map((start, i) => parsePoints(output.subarray(start, headings[i + 1] ?? output.length)));
}

function headingIndices(output: Buffer): number[] {
  const indices: number[] = [];
  for (let at = output.indexOf('Lat'); at >= 0; at = output.indexOf('Lat', at + 1)) indices.push(at);
  return indices;
}

function parsePoints(output: Buffer): ReferenceField {
  const numbers: number[][] = [[], [], []];
  const isValuesOnly = output.subarray(0, VALUES_HEADING.length).toString('latin1') === VALUES_HEADING;
  let start = output.indexOf(LINE_FEED) + 1;
  while (start < output.length) {
    const found = output.indexOf(LINE_FEED, start);
    const end = found < 0 ? output.length : found;
    const parts = output
      .toString('latin1', start, end)
      .trim()
      .split(/[\s,]+/);
    if (parts.length === 3 && parts[0] !== '"ERROR:')
      parts.forEach((part, column) => numbers[column]?.push(Number(part)));
    else if (isValuesOnly && parts[0] !== '')
      numbers[2]?.push(Number(parts[0]) === MISSING_MARK ? NaN : Number(parts[0]));
    start = end + 1;
  }
  const [lats = [], lons = [], values = []] = numbers;
  return { lats: Float64Array.from(lats), lons: Float64Array.from(lons), values: Float64Array.from(values) };
}
