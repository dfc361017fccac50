/**
 * What a global ensemble forecast costs, in octets, time and memory, whole and cut to the corridor of a passage.
 *
 *     npm run global-forecast -- [--members 51] [--hours 96] [--packing simple|complex|ccsds] [--folder FOLDER] [--json FILE]
 *
 * The forecast is invented: wind, gust and wave height on a grid of 0.25° (1440 × 721), six weathers of smooth noise whose
 * spectrum falls as that of the air, packed to 1/64 m/s and 1/256 m (12 bits), and given to every member and hour in turn.
 * Real fields have more small detail over land, and less where a model is smoother: taken octets are those of this noise.
 * Then, each in a process of its own: the headers of the whole file read and fields chosen; a short passage planned from
 * the whole file; its corridor cut out; the same passage planned from the cut. Needs the disk space the first table tells.
 */
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { writePassages } from './bench-plan-many/passages.ts';
import { runMeasured } from './commands/plan-many/measured-process.ts';
import { type FieldCost, fieldCost } from './global-forecast/field-costs.ts';
import {
  baseMessages,
  fieldCountOf,
  type GlobalSize,
  globalWeathers,
  type Packing,
  PACKINGS,
  writeGlobal,
} from './global-forecast/write-global.ts';

const OUTLINE = fileURLToPath(new URL('global-forecast/outline.ts', import.meta.url));
const SLATCH = join(import.meta.dirname, 'slatch.mjs');
const TSX = ['--import', 'tsx'];
const OCTETS_OF_VALUE = 4;
const POINT_COUNT = 1440 * 721;

interface Step {
  readonly name: string;
  readonly tookS: number;
  readonly processorS: number;
  readonly peakMib: number;
}

/** Runs a program; throws when it does not end well. */
async function step(name: string, program: readonly string[]): Promise<Step> {
  const ended = await runMeasured(program);
  if (ended.code !== 0) throw new Error(`${name}: ${ended.err}`);
  const { usage, tookMs } = ended;
  const taken = {
    name,
    tookS: tookMs / 1000,
    processorS: (usage?.processorMs ?? Number.NaN) / 1000,
    peakMib: (usage?.peakOctets ?? Number.NaN) / 2 ** 20,
  };
  console.log(stepRow(taken));
  return taken;
}

const stepRow = ({ name, tookS, processorS, peakMib }: Step): string =>
  `${name.padEnd(44)} ${tookS.toFixed(1).padStart(8)} s ${processorS.toFixed(1).padStart(8)} s processor ${peakMib.toFixed(0).padStart(6)} MiB`;

function printCosts(costs: readonly FieldCost[], size: GlobalSize): void {
  const fieldCount = fieldCountOf(size);
  console.log(
    `${size.memberCount} runs, ${size.lengthH} h every 3 h, 4 quantities: ${fieldCount} fields of ${POINT_COUNT} points`,
  );
  console.log(`held decoded, whole: ${gb(fieldCount * POINT_COUNT * OCTETS_OF_VALUE)} GB of memory (counted, not run)`);
  console.log('packing  kB a field  all GB  ms a field  all decoded, min');
  for (const { packing, sizeOctets, decodeMs } of costs) {
    const allMin = (fieldCount * decodeMs) / 60_000;
    console.log(
      `${packing.padEnd(7)}  ${(sizeOctets / 1000).toFixed(0).padStart(10)}  ${gb(fieldCount * sizeOctets).padStart(6)}  ${decodeMs.toFixed(1).padStart(10)}  ${allMin.toFixed(1).padStart(16)}`,
    );
  }
}

const gb = (octets: number): string => (octets / 1e9).toFixed(2);

/** One short passage in the demo's sea, with its forecast named anew. */
function writePassage(folder: string, name: string, forecast: string): string {
  const drawn: unknown = JSON.parse(readFileSync(join(folder, 'drawn', 'passage-001.json'), 'utf8'));
  if (typeof drawn !== 'object' || drawn === null) throw new Error('a passage was written');
  const path = join(folder, `${name}.json`);
  writeFileSync(path, JSON.stringify({ ...drawn, forecasts: [forecast] }));
  return path;
}

const isPacking = (name: string): name is Packing => PACKINGS.some((packing) => packing === name);

async function measure(folder: string, size: GlobalSize, packing: Packing) {
  const weathers = globalWeathers();
  const made = PACKINGS.map((of) => ({ of, base: baseMessages(of, weathers, folder) }));
  const costs = made.flatMap(({ of, base }) => (base === null ? [] : [fieldCost(of, base)]));
  printCosts(costs, size);
  const base = made.find(({ of }) => of === packing)?.base;
  if (base === undefined || base === null) throw new Error(`${packing}: needs grib_set of ecCodes`);
  const [global, cut] = [join(folder, 'global.grib2'), join(folder, 'cut.grib2')];
  writeGlobal(global, base, size);
  console.log(`\nwritten in ${packing} packing: ${gb(statSync(global).size)} GB`);
  writePassages(join(folder, 'drawn'), 1, 1);
  const whole = writePassage(folder, 'from-whole', global);
  const fromCut = writePassage(folder, 'from-cut', cut);
  const steps = [
    await step('headers of the whole read, fields chosen', [...TSX, OUTLINE, global]),
    await step('planned from the whole', [SLATCH, 'plan', whole, '--json']),
    await step('corridor of 60 nm cut out', [SLATCH, 'forecast', 'cut', '--passage', whole, '--out', cut]),
    await step('planned from the cut', [SLATCH, 'plan', fromCut, '--json']),
  ];
  const cutOctets = statSync(cut).size;
  console.log(`the cut: ${(cutOctets / 1000).toFixed(0)} kB, 1 in ${(statSync(global).size / cutOctets).toFixed(0)}`);
  return { size, packing, costs, globalOctets: statSync(global).size, cutOctets, steps };
}

const { values } = parseArgs({
  options: {
    members: { type: 'string', default: '51' },
    hours: { type: 'string', default: '96' },
    packing: { type: 'string', default: 'simple' },
    folder: { type: 'string' },
    json: { type: 'string' },
  },
});
if (!isPacking(values.packing)) throw new Error(`--packing: ${PACKINGS.join(', ')}`);
const machine = `Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model.trim() ?? '?'}`;
console.log(`${machine}, load ${(loadavg()[0] ?? 0).toFixed(1)}`);
const folder = mkdtempSync(join(resolve(values.folder ?? tmpdir()), 'slatch-global-'));
try {
  const size = { memberCount: Number(values.members), lengthH: Number(values.hours) };
  const measured = await measure(folder, size, values.packing);
  if (values.json !== undefined) writeFileSync(values.json, `${JSON.stringify({ machine, ...measured }, null, 2)}\n`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
