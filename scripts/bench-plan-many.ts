/**
 * Plans many different passages one by one and side by side, and compares the plans octet by octet.
 *
 *     npm run bench:plan-many -- [--passages 200] [--parallel N] [--seed 1] [--keep FOLDER] [--json FILE]
 *
 * The passages are drawn from the seed in the weather of the demo and written as files; each is planned by
 * `slatch plan-many` as anybody would. The second time the processes run side by side, at another clock and language, in
 * another folder and with other options of Node, none of which may reach a plan. Prints plans a minute both ways, and
 * processor time and memory of a plan. Exit code 1 when a plan is missing or an octet differs.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, cpus, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { type Figures, figuresOf, figuresText } from './bench-plan-many/figures.ts';
import { writePassages } from './bench-plan-many/passages.ts';
import { planFolder, type PlannedFolder } from './bench-plan-many/plan-folder.ts';

/** Names of passages whose plans are not there twice with the same octets. */
function differing(oneByOne: PlannedFolder, sideBySide: PlannedFolder): string[] {
  const others = new Map(sideBySide.passages.map(({ name, plan }) => [name, plan]));
  return oneByOne.passages
    .filter(({ name, plan }) => {
      const other = others.get(name) ?? null;
      return plan === null || other === null || !readFileSync(plan).equals(readFileSync(other));
    })
    .map(({ name }) => name);
}

const { values } = parseArgs({
  options: {
    passages: { type: 'string', default: '200' },
    parallel: { type: 'string', default: String(availableParallelism()) },
    seed: { type: 'string', default: '1' },
    keep: { type: 'string' },
    json: { type: 'string' },
  },
});
const load = (): string => (loadavg()[0] ?? 0).toFixed(1);
const machine = `Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model.trim() ?? '?'}`;
console.log(`${machine}, load ${load()}`);
const folder = values.keep === undefined ? mkdtempSync(join(tmpdir(), 'slatch-plan-many-')) : resolve(values.keep);
try {
  writePassages(join(folder, 'passages'), Number(values.passages), Number(values.seed));
  const oneByOne = await planFolder(folder, { outName: 'one-by-one', parallelCount: 1, environment: 'as-it-is' });
  const parallelCount = Number(values.parallel);
  const sideBySide = await planFolder(folder, { outName: 'side-by-side', parallelCount, environment: 'another' });
  const figures: readonly Figures[] = [oneByOne, sideBySide].map(figuresOf);
  console.log(figuresText(figures));
  const unlike = differing(oneByOne, sideBySide);
  const count = oneByOne.passages.length;
  console.log(
    unlike.length === 0
      ? `all ${count} plans are the same both ways, octet by octet`
      : `${unlike.length} of ${count} plans differ or are missing: ${unlike.join(', ')}`,
  );
  console.log(`load ${load()} at the end`);
  if (values.json !== undefined)
    writeFileSync(values.json, `${JSON.stringify({ machine, figures, unlike }, null, 2)}\n`);
  if (unlike.length > 0) process.exitCode = 1;
} finally {
  if (values.keep === undefined) rmSync(folder, { recursive: true, force: true });
}
