/** Other GRIB readers from npm on the same files: right or wrong, and how fast. */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { decodePacked, type GribField, gridPositions, scanGrib } from '../../lib/grib/index.ts';

/** A package and the folder its `node_modules` is in. */
export interface NpmReader {
  readonly name: string;
  readonly folder: string;
}

export interface ReaderResult {
  readonly name: string;
  readonly verdict: 'ok' | 'wrong' | 'refuses' | 'too slow';
  readonly detail: string;
  readonly perS: number | null;
}

const CHILD = fileURLToPath(new URL('read-with-package.mjs', import.meta.url));
const PROJECT = fileURLToPath(new URL('../..', import.meta.url));
const MOST_MS = 8000;
const INSTALL_MS = 60_000;
/** Packages the project does not install, as of this writing. */
const OTHER_PACKAGES = ['grib-js@1.0.0', 'grib2class@1.0.7'];
/** Places asked of a package that gives values at places only; it counts the bitmap anew for each. */
const PLACES_COUNT = 500;

/** Installs the packages into a folder of this run; a text says what failed. */
export function installReaders(scratch: string): { readers: NpmReader[]; complaint: string | null } {
  const own = { name: 'grib2-simple', folder: PROJECT };
  writeFileSync(join(scratch, 'package.json'), '{"private":true}');
  const words = ['install', '--no-save', '--ignore-scripts', '--no-audit', '--no-fund', '--prefix', scratch];
  const run = spawnSync('npm', [...words, ...OTHER_PACKAGES], { cwd: scratch, encoding: 'utf8', timeout: INSTALL_MS });
  if (run.status !== 0) {
    const reason = run.error?.message ?? run.stderr.trim().split('\n')[0] ?? '';
    return { readers: [own], complaint: `${OTHER_PACKAGES.join(' and ')} could not be installed: ${reason}` };
  }
  const others = OTHER_PACKAGES.map((spec) => ({ name: spec.slice(0, spec.lastIndexOf('@')), folder: scratch }));
  return { readers: [own, ...others], complaint: null };
}

/** Lets each reader read a file, one process each. */
export function tryReaders(readers: readonly NpmReader[], path: string, scratch: string): ReaderResult[] {
  const taskPath = writeTask(path, scratch);
  return readers.map(({ name, folder }) => {
    const run = spawnSync(process.execPath, [CHILD, name, folder, taskPath], {
      encoding: 'utf8',
      timeout: MOST_MS,
      maxBuffer: 2 ** 28,
    });
    const answer: unknown = run.status === 0 ? JSON.parse(run.stdout.trim().split('\n').at(-1) ?? 'null') : null;
    if (isAnswer(answer)) return { name, ...answer };
    const detail = run.error === undefined ? `ended with ${run.signal ?? run.status}` : `more than ${MOST_MS / 1000} s`;
    return { name, verdict: run.error === undefined ? 'refuses' : 'too slow', detail, perS: null };
  });
}

const isAnswer = (value: unknown): value is Omit<ReaderResult, 'name'> =>
  typeof value === 'object' && value !== null && 'verdict' in value && 'detail' in value;

/** Expected values are ours: the same as ecCodes', as `compare-grib` and `grib-matrix` show. */
function writeTask(path: string, scratch: string): string {
  const bytes = new Uint8Array(readFileSync(path));
  const { fields } = scanGrib(bytes, 'bench');
  const values = fields.map((field) => {
    const found = decodePacked(bytes, field);
    return found.ok ? found.value : new Float64Array(field.pointCount).fill(Number.NaN);
  });
  const valuesPath = join(scratch, 'expected.f64');
  writeFileSync(
    valuesPath,
    Buffer.concat(values.map((one) => new Uint8Array(one.buffer, one.byteOffset, one.byteLength))),
  );
  const taskPath = join(scratch, 'task.json');
  writeFileSync(taskPath, JSON.stringify({ grib: path, values: valuesPath, fields: fields.map(describe) }));
  return taskPath;
}

function describe(field: GribField): object {
  return {
    startIndex: field.messageOffsetOctet,
    lengthOctets: field.messageLengthOctets,
    submessageNumber: field.submessageNumber,
    pointCount: field.pointCount,
    places: placesOf(field),
  };
}

function placesOf({ grid, pointCount }: GribField): { index: number; lat: number; lon: number }[] {
  if (grid.kind === 'unsupported') return [];
  const { lats, lons } = gridPositions(grid);
  const stepCount = Math.max(1, Math.floor(pointCount / PLACES_COUNT));
  return Array.from({ length: Math.ceil(pointCount / stepCount) }, (_, k) => {
    const index = k * stepCount;
    return { index, lat: lats[index] ?? Number.NaN, lon: lons[index] ?? Number.NaN };
  });
}
