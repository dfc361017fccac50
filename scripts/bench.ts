/**
 * Speed, size and memory of everything, as ratios to a reference measured in the same run.
 *
 *     npm run bench -- [--parts grib,plan,windows,messages,pages,start,memory] [--quick] [--assert]
 *                      [--json FILE] [--write-ratios]
 *
 * grib      decoding beside the ecCodes C library, every packing of both editions; the readers on npm that can read them
 * plan      the whole plan by jobs, scenarios and hours, beside work that never changes; how it grows
 * windows   window tables and lists beside a plain evaluation
 * messages  octets of plans, digests and reports beside the same in JSON, packed by gzip
 * pages     p95 of the pages of the demo beside a server that does nothing
 * start     from nothing to the address, the first page, the plan; commands; beside Node's own start
 * memory    of the server, of the command line and of decoding, beside Node's own
 *
 * Parts run one after another, each in a process of its own. A ratio that has grown by more than a quarter of the one kept
 * in `scripts/bench/ratios.json` is named, and the run ends with code 1; where the rounds of the run lie further apart than
 * that it is called unsteady, and only `--assert` minds. `--write-ratios` keeps what was measured: on a machine that has
 * nothing else to do. `--quick` takes fewer cases and rounds.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { arch, cpus, loadavg, platform, tmpdir, totalmem } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { isPartName, PART_NAMES, type PartName, type PartResult } from './bench/bench-case.ts';
import { compareCase, type ComparedCase, complaintsOf } from './bench/compare.ts';
import { readRatios, writeRatios } from './bench/ratios-file.ts';
import { benchHeading, benchRow } from './bench/table.ts';

interface Asked {
  readonly parts: readonly PartName[];
  readonly isQuick: boolean;
}

interface RunPart {
  readonly part: PartName;
  readonly tookS: number;
  /** Processes that wanted to run, last minute: before and after. */
  readonly loads: readonly [number, number];
  /** null: it ended with a mistake, which it has printed. */
  readonly result: PartResult | null;
}

const load = (): number => Math.round((loadavg()[0] ?? 0) * 10) / 10;

function runPart(part: PartName, isQuick: boolean, folder: string): RunPart {
  const scratch = join(folder, part);
  mkdirSync(scratch);
  const jsonPath = join(folder, `${part}.json`);
  const program = fileURLToPath(new URL('bench/part-process.ts', import.meta.url));
  const words = ['--expose-gc', '--import', 'tsx', program, part, scratch, jsonPath, ...(isQuick ? ['--quick'] : [])];
  const loadBefore = load();
  const begunMs = performance.now();
  const { status } = spawnSync(process.execPath, words, {
    cwd: join(import.meta.dirname, '..'),
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  const tookS = (performance.now() - begunMs) / 1000;
  console.log(`${part}: ${tookS.toFixed(0)} s, load ${loadBefore} to ${load()}${status === 0 ? '' : '; it failed'}`);
  const result: unknown = status === 0 ? JSON.parse(readFileSync(jsonPath, 'utf8')) : null;
  return { part, tookS, loads: [loadBefore, load()], result: isResult(result) ? result : null };
}

/** Our own process wrote it, so the rest is as it should be. */
const isResult = (value: unknown): value is PartResult =>
  typeof value === 'object' && value !== null && 'cases' in value && 'notes' in value;

function runAll({ parts, isQuick }: Asked): readonly RunPart[] {
  const folder = mkdtempSync(join(tmpdir(), 'slatch-bench-'));
  try {
    return parts.map((part) => runPart(part, isQuick, folder));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function printAll(runs: readonly RunPart[], compared: readonly ComparedCase[]): void {
  console.log(`\n${benchHeading()}`);
  for (const one of compared) console.log(benchRow(one));
  const notes = runs.flatMap(({ result }) => result?.notes ?? []);
  const skipped = runs.flatMap(({ part, result }) =>
    (result?.skipped ?? []).map(({ name, why }) => `${part}, ${name}: not measured, ${why}`),
  );
  for (const line of [...notes, ...skipped]) console.log(line);
}

const machine = {
  processor: cpus()[0]?.model.trim() ?? 'unknown',
  processorCount: cpus().length,
  memoryMib: Math.round(totalmem() / 2 ** 20),
  system: `${platform()} ${arch()}`,
  versions: process.versions,
};

const { values } = parseArgs({
  options: {
    parts: { type: 'string', default: PART_NAMES.join(',') },
    quick: { type: 'boolean', default: false },
    assert: { type: 'boolean', default: false },
    json: { type: 'string' },
    'write-ratios': { type: 'boolean', default: false },
  },
});
const names = values.parts.split(',');
const unknown = names.filter((name) => !isPartName(name));
if (unknown.length > 0) {
  console.error(`There is no part ${unknown.join(', ')}. Take from: ${PART_NAMES.join(', ')}.`);
  process.exitCode = 2;
} else await run(names.filter(isPartName));

async function run(parts: readonly PartName[]): Promise<void> {
  const { ratios: kept } = readRatios();
  const begunAtUtc = new Date().toISOString();
  console.log(`Node ${process.version}, ${machine.processorCount} × ${machine.processor}, load ${load()}`);
  const runs = runAll({ parts, isQuick: values.quick });
  const compared = runs.flatMap(({ part, result }) => (result?.cases ?? []).map((one) => compareCase(part, one, kept)));
  printAll(runs, compared);
  const failed = runs.flatMap(({ part, result }) => (result === null ? [`${part}: failed`] : []));
  const minded = values.assert ? compared.filter(({ verdict }) => verdict === 'unsteady' || verdict === 'new') : [];
  const complaints = [
    ...failed,
    ...complaintsOf(compared),
    ...minded.map(({ part, measured, verdict }) => `${part}, ${measured.name}: ${verdict}`),
  ];
  console.log(complaints.length === 0 ? '\nnothing has become worse' : `\n${complaints.join('\n')}`);
  if (values.json !== undefined) {
    const document = { begunAtUtc, machine, isQuick: values.quick, parts: runs, compared };
    writeFileSync(values.json, `${JSON.stringify(document, null, 2)}\n`);
  }
  if (values['write-ratios']) await keepRatios(runs);
  if (values['write-ratios'] ? failed.length > 0 : complaints.length > 0) process.exitCode = 1;
}

async function keepRatios(runs: readonly RunPart[]): Promise<void> {
  // The parts bring the whole program with them: only who writes waits for that.
  const { PARTS } = await import('./bench/parts.ts');
  const unmeasured = writeRatios(new Map(runs.map(({ part, result }) => [part, result?.cases ?? []])), {
    // Another run may have kept its own meanwhile.
    kept: readRatios().ratios,
    caseNames: (part) => PARTS[part].caseNames(),
    nowEpochMs: Date.now(),
  });
  for (const [part, cases] of Object.entries(unmeasured))
    console.log(`no ratio is kept of ${part}: ${cases.join('; ')}`);
}
