/** Files of the benchmark: found by name, or packed again with ecCodes' `grib_set`. */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { writeGrib2Message } from '../../lib/grib/index.ts';
import { uniformDraws } from '../sample-forecasts/random.ts';
import type { BenchCase, RepackedSource } from './cases.ts';

/** Where to look and where to write. */
export interface BenchFolders {
  readonly given: string;
  readonly scratch: string;
}

/** Path of a case's file, or why there is none. */
export type MadeFile = { readonly path: string } | { readonly missing: string };

const COLUMNS = 1440;
const ROWS = 721;
const SET = 'grib_set';

export function fileOf({ source }: BenchCase, folders: BenchFolders): MadeFile {
  return source.kind === 'found' ? findFile(source.fileName, folders.given) : repack(source, folders);
}

function findFile(fileName: string, folder: string): MadeFile {
  const entry = readdirSync(folder, { recursive: true, withFileTypes: true }).find(
    (one) => one.isFile() && one.name === fileName,
  );
  return entry === undefined ? { missing: `${fileName} is not there` } : { path: join(entry.parentPath, fileName) };
}

/**
 * Through simple packing at the wanted width, whatever the source is packed in: other ways ecCodes keeps the width of the
 * group references. Steps two cases share are done once.
 */
function repack(source: RepackedSource, folders: BenchFolders): MadeFile {
  const base = source.from === 'waves' ? writeWaves(folders.scratch) : findFile(source.from, folders.given);
  if ('missing' in base) return base;
  const steps = [
    ['-r', '-s', 'packingType=grid_simple'],
    ['-r', '-s', `decimalScaleFactor=0,bitsPerValue=${source.widthBits}`],
    ...(source.edition === 1 ? [['-s', 'edition=1']] : []),
    ...(source.packingType === 'grid_simple' ? [] : [['-r', '-s', `packingType=${source.packingType}`]]),
    ...(source.options === undefined ? [] : [['-r', '-s', source.options]]),
  ];
  let path = base.path;
  let name = source.from;
  for (const step of steps) {
    name = `${name}-${(step.at(-1) ?? '').replaceAll(/[^\w]+/g, '-')}`;
    const next = join(folders.scratch, name);
    if (!existsSync(next)) {
      const run = spawnSync(SET, [...step, path, next], { encoding: 'utf8' });
      if (run.status !== 0) return { missing: `${SET} did not write it: ${complaint(run)}` };
    }
    path = next;
  }
  return { path };
}

const complaint = (run: { stderr: string | null; error?: Error }): string =>
  run.error?.message ?? run.stderr?.trim().split('\n')[0] ?? 'no reason given';

/** A smooth field with noise, the same every time; coded as a temperature at 2 m, which edition 1 knows too. */
function writeWaves(scratch: string): MadeFile {
  const path = join(scratch, 'waves');
  if (existsSync(path)) return { path };
  const draw = uniformDraws(1);
  const values = Float64Array.from({ length: COLUMNS * ROWS }, (_, i) => {
    const [x, y] = [i % COLUMNS, Math.floor(i / COLUMNS)];
    return 280 + 25 * Math.sin(x / 90) * Math.cos(y / 70) + 3 * Math.sin(x / 13 + y / 7) + 0.4 * draw();
  });
  const message = writeGrib2Message({
    parameter: { discipline: 0, category: 0, number: 0 },
    level: { first: { typeCode: 103, value: 2 }, second: null },
    referenceEpochMs: Date.UTC(2026, 0, 1),
    validity: { kind: 'instant', validEpochMs: Date.UTC(2026, 0, 1, 6) },
    grid: {
      ni: COLUMNS,
      nj: ROWS,
      first: { lat: 90, lon: 0 },
      iIncrementDeg: 0.25,
      jIncrementDeg: 0.25,
      scanningMode: 0,
    },
    values,
    decimalScaleFactor: 6,
    packing: 'simple',
    centre: 98,
  });
  writeFileSync(path, message);
  return { path };
}
