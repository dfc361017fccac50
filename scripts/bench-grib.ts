/**
 * How fast the GRIB room decodes, beside the ecCodes C library in the same run and beside other readers from npm.
 *
 *     npm run bench:grib -- [FOLDER] [--json FILE] [--only TEXT]
 *
 * FOLDER holds the real files, looked for by name in the whole tree; those that are not there are skipped by name. Other
 * files are packed with ecCodes' tools for the run. Rates are millions of values per second, every point of the grid counted;
 * of an index, thousands of messages. Rounds of ours and of the reference alternate; the best of each counts. Both list the
 * messages and decode every value into a buffer that is used again. `--only` takes the cases whose title holds the text.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { parseArgs } from 'node:util';
import { type Anchor, startAnchor } from './bench-grib/anchor.ts';
import { BENCH_CASES } from './bench-grib/cases.ts';
import { type BenchFolders, fileOf } from './bench-grib/make-files.ts';
import { measure } from './bench-grib/measure.ts';
import { installReaders, type NpmReader, tryReaders } from './bench-grib/npm-readers.ts';
import { type BenchRow, formatHeading, formatRow, formatTotals } from './bench-grib/table.ts';

const DEFAULT_FOLDER = 'tests/golden/grib';

async function runCases(
  folders: BenchFolders,
  { anchor, readers, only }: { anchor: Anchor | null; readers: readonly NpmReader[]; only: string },
): Promise<BenchRow[]> {
  const rows: BenchRow[] = [];
  for (const one of BENCH_CASES.filter(({ title }) => title.includes(only))) {
    const file = fileOf(one, folders);
    if ('missing' in file) {
      console.log(`${one.title}: skipped, ${file.missing}`);
      continue;
    }
    const row = {
      title: one.title,
      file: basename(file.path),
      targetRatio: one.targetRatio,
      measures: one.measures,
      measured: await measure(one, file.path, anchor),
      readers: one.isForReaders ? tryReaders(readers, file.path, folders.scratch) : [],
    };
    rows.push(row);
    for (const line of formatRow(row)) console.log(line);
  }
  return rows;
}

function machine(): string {
  const [processor] = cpus();
  return `Node ${process.version}, ${cpus().length} × ${processor?.model.trim() ?? '?'}`;
}

/** Processes that wanted to run, last minute: above the number of processors the rates are too low, and unsteady. */
const load = (): number => Math.round((loadavg()[0] ?? 0) * 10) / 10;

interface Asked {
  readonly folder: string;
  readonly jsonPath: string | undefined;
  readonly only: string;
}

async function main({ folder, jsonPath, only }: Asked): Promise<void> {
  const loadBefore = load();
  console.log(`${machine()}, load ${loadBefore}`);
  const scratch = mkdtempSync(join(tmpdir(), 'bench-grib-'));
  try {
    const anchor = startAnchor(scratch);
    if (typeof anchor === 'string') console.log(anchor);
    const { readers, complaint } = installReaders(scratch);
    if (complaint !== null) console.log(complaint);
    console.log(`\n${formatHeading()}`);
    const beside = { anchor: typeof anchor === 'string' ? null : anchor, readers, only };
    const rows = await runCases({ given: folder, scratch }, beside);
    beside.anchor?.end();
    const loads = { loadBefore, loadAfter: load() };
    console.log(`\n${formatTotals(rows)}; load ${loads.loadAfter} at the end`);
    const document = { machine: machine(), ...loads, rows };
    if (jsonPath !== undefined) writeFileSync(jsonPath, `${JSON.stringify(document, null, 2)}\n`);
  } finally {
    rmSync(scratch, { recursive: true });
  }
}

const { values, positionals } = parseArgs({
  options: { json: { type: 'string' }, only: { type: 'string' } },
  allowPositionals: true,
});
await main({ folder: positionals[0] ?? DEFAULT_FOLDER, jsonPath: values.json, only: values.only ?? '' });
