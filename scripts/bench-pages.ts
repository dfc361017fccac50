/**
 * How long the server takes for every page, and how much it sends.
 *
 *     npm run bench:pages -- [--sizes demo,large] [--rounds 40] [--clock wall|processor] [--assert] [--json FILE]
 *
 * demo   the demo as `npm start` opens it
 * large  30 jobs in the weather of 51 runs, invented, written for the run
 *
 * The server runs in a process of its own on a store under the system's folder for temporary files. Pages are found by
 * following links, two of each kind; the first request of each is `cold` and counts no more. Times are those of the reader,
 * from the first octet sent to the last one read; `× 404` is the ratio to the page that says there is none, in the same
 * run, by which machines can be compared. Every page is asked for again while another plan is being made, as long as that
 * takes: on a machine with few processors the two share them, and no bound is set.
 *
 * Bounds: p95 below 100 ms for the demo and 300 ms for the large passage; the first page below 200 kB with everything it
 * loads. With `--assert` one that is broken ends the run with code 1. `busy` is what the thread that answers had of a
 * processor; on a busy machine `--clock processor` holds that against the bounds.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { ask } from './bench-pages/ask.ts';
import { findPages } from './bench-pages/find-pages.ts';
import { type FirstPage, firstPage } from './bench-pages/first-page.ts';
import { writeLargePassage } from './bench-pages/large-passage.ts';
import { type MeasuredPage, measurePages } from './bench-pages/measure.ts';
import { idsIn } from './bench-pages/passage-ids.ts';
import { isMaking, planMade, type RunningServer, startServer } from './bench-pages/server-process.ts';
import { pageRow, pagesHeading } from './bench-pages/table.ts';

const SIZES = { demo: { p95Ms: 100 }, large: { p95Ms: 300 } } as const;
type SizeName = keyof typeof SIZES;
const FIRST_PAGE_OCTETS = 200_000;
const REFERENCE_PATH = '/no-such-page';

interface MeasuredSize {
  readonly size: SizeName;
  readonly planMs: number;
  /** Memory of the server with the plan, and after all pages and another plan [MiB]. */
  readonly residentMib: readonly (number | null)[];
  readonly atRest: readonly MeasuredPage[];
  readonly whilePlanning: readonly MeasuredPage[];
  /** null: no browser. */
  readonly firstPage: FirstPage | null;
}

async function measureSize(size: SizeName, folder: string, roundCount: number): Promise<MeasuredSize> {
  mkdirSync(folder);
  const demoPath = resolve(import.meta.dirname, '../sample-forecasts/demo-passage.json');
  const passagePath = size === 'demo' ? demoPath : writeLargePassage(demoPath, folder);
  const server = await startServer(passagePath, join(folder, 'store'));
  try {
    const planMs = await planMade(server.url);
    console.log(`\n${size}: plan after ${(planMs / 1000).toFixed(0)} s\n${pagesHeading()}`);
    return { size, planMs, ...(await measureServer(server, idsIn(passagePath), roundCount)) };
  } finally {
    await server.stop();
  }
}

async function measureServer(
  server: RunningServer,
  names: ReadonlySet<string>,
  roundCount: number,
): Promise<Omit<MeasuredSize, 'size' | 'planMs'>> {
  const { url, residentMib } = server;
  const before = residentMib();
  const pages = await findPages(url, names);
  const found = await measurePages(server, pages, { roundCount });
  printPages(found);
  await ask(url, '/plan/again', 'POST');
  const whilePlanning = await measurePages(server, pages, { roundCount, goesOn: () => isMaking(url) });
  await planMade(url);
  console.log('\nwhile another plan is made');
  printPages(whilePlanning);
  // With two plans there are pages that compare them.
  const late = await findPages(url, names, new Set(pages.map(({ shape }) => shape)));
  const more = await measurePages(server, late, { roundCount });
  if (more.length > 0) console.log('\nwith two plans');
  printPages(more, found);
  const first = await firstPage(url);
  console.log(first === null ? '\nfirst page: skipped, chromium is not installed' : `\n${firstPageLine(first)}`);
  const after = residentMib();
  console.log(`memory of the server: ${before ?? '?'} MiB with the plan, ${after ?? '?'} MiB at the end`);
  return { residentMib: [before, after], atRest: [...found, ...more], whilePlanning, firstPage: first };
}

function printPages(pages: readonly MeasuredPage[], reference = pages): void {
  const referenceMs = reference.find(({ path }) => path === REFERENCE_PATH)?.medianMs ?? Number.NaN;
  for (const page of pages.filter(({ count }) => count > 0).toSorted((a, b) => b.p95Ms - a.p95Ms))
    console.log(pageRow(page, referenceMs));
}

const firstPageLine = ({ requestCount, sentOctets, elapsedMs }: FirstPage): string =>
  `first page: ${requestCount} requests, ${(sentOctets / 1000).toFixed(0)} kB, loaded after ${elapsedMs.toFixed(0)} ms`;

/** Sentences about every bound that is broken. */
function broken({ size, atRest, firstPage: first }: MeasuredSize, clock: ClockName): readonly string[] {
  const { p95Ms: mostMs } = SIZES[size];
  const slow = atRest
    .map(({ path, p95Ms, busyMs }) => ({ path, ms: clock === 'wall' ? p95Ms : busyMs.p95 }))
    .filter(({ ms }) => !(ms < mostMs))
    .map(({ path, ms }) => `${size}: ${path} has a p95 of ${ms.toFixed(0)} ms, ${mostMs} ms are allowed`);
  if (first === null || first.sentOctets < FIRST_PAGE_OCTETS) return slow;
  return [...slow, `${size}: the first page takes ${first.sentOctets} octets, ${FIRST_PAGE_OCTETS} are allowed`];
}

type ClockName = 'wall' | 'processor';
const isSize = (name: string): name is SizeName => name in SIZES;

const { values } = parseArgs({
  options: {
    sizes: { type: 'string', default: 'demo,large' },
    rounds: { type: 'string', default: '40' },
    clock: { type: 'string', default: 'wall' },
    assert: { type: 'boolean', default: false },
    json: { type: 'string' },
  },
});
const machine = `Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model.trim() ?? '?'}`;
const load = (): string => (loadavg()[0] ?? 0).toFixed(1);
console.log(`${machine}, load ${load()}`);
const folder = mkdtempSync(join(tmpdir(), 'slatch-bench-pages-'));
const measured: MeasuredSize[] = [];
try {
  for (const size of values.sizes.split(',').filter(isSize))
    // One server at a time.
    // oxlint-disable-next-line no-await-in-loop
    measured.push(await measureSize(size, join(folder, size), Number(values.rounds)));
} finally {
  rmSync(folder, { recursive: true, force: true });
}
const complaints = measured.flatMap((one) => broken(one, values.clock === 'processor' ? 'processor' : 'wall'));
console.log(`\nload ${load()} at the end`);
console.log(complaints.length === 0 ? 'every bound is kept' : complaints.join('\n'));
if (values.json !== undefined) writeFileSync(values.json, `${JSON.stringify({ machine, measured }, null, 2)}\n`);
if (values.assert && complaints.length > 0) process.exitCode = 1;
