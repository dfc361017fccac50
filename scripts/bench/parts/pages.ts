/** Pages of the demo with its plan, asked by turns with a page of a server that does nothing. */
import { join } from 'node:path';
import { ask } from '../../bench-pages/ask.ts';
import { planMade, startServer } from '../../bench-pages/server-process.ts';
import { quantile } from '../../bench-plan/statistics.ts';
import { type BenchCase, caseOfRounds, type Part, type PartOptions } from '../bench-case.ts';
import { DEMO_PATH } from '../demo.ts';
import { startIdleServer } from '../idle-process.ts';

const PATHS = [
  '/',
  '/jobs',
  '/jobs/stitch',
  '/jobs/stitch/edit',
  '/jobs/stitch/hours',
  '/jobs/stitch/sheet',
  '/damage',
  '/locker',
  '/locker/cut',
  '/windows',
  '/plan',
  '/plans',
  '/forecast',
  '/log',
  '/log/new/observation',
  '/messages',
  '/document',
  '/display',
  '/no-such-page',
] as const;

const nameOf = (path: string): string => `p95 of ${path}`;

/** A round asks so often; its p95 is one figure of the page. */
const ASKED_COUNT = 20;
const ROUND_COUNT = 5;
const QUICK_ROUND_COUNT = 2;

interface Urls {
  readonly ours: string;
  readonly idle: string;
}

async function pageCase(path: string, urls: Urls, roundCount: number): Promise<BenchCase> {
  const rounds: { ours: number; reference: number }[] = [];
  // The first answer is made with code that is not compiled yet.
  await checkedMs(urls.ours, path);
  for (let round = 0; round < roundCount; round++) {
    const [ours, idle]: [number[], number[]] = [[], []];
    for (let k = 0; k < ASKED_COUNT; k++) {
      ours.push(await checkedMs(urls.ours, path));
      idle.push((await ask(urls.idle, '/')).elapsedMs);
    }
    rounds.push({ ours: quantile(ours, 0.95), reference: quantile(idle, 0.5) });
  }
  return caseOfRounds(nameOf(path), 'ms', rounds);
}

async function checkedMs(url: string, path: string): Promise<number> {
  const { status, elapsedMs } = await ask(url, path);
  if (status !== (path === '/no-such-page' ? 404 : 200)) throw new Error(`${path} answers ${status}`);
  return elapsedMs;
}

async function measurePages({ isQuick, scratch }: PartOptions): Promise<readonly BenchCase[]> {
  const server = await startServer(DEMO_PATH, join(scratch, 'store'));
  const idle = await startIdleServer();
  try {
    await planMade(server.url);
    const cases: BenchCase[] = [];
    for (const path of PATHS)
      // One page after another: they share one thread.
      cases.push(await pageCase(path, { ours: server.url, idle: idle.url }, isQuick ? QUICK_ROUND_COUNT : ROUND_COUNT));
    return cases;
  } finally {
    await Promise.all([server.stop(), idle.stop()]);
  }
}

export const pagesPart: Part = {
  caseNames: () => PATHS.map(nameOf),
  measure: async (options) => ({
    cases: await measurePages(options),
    skipped: [],
    notes: [
      `pages: p95 of ${ASKED_COUNT} requests in a round; the reference is the median of a page of 14 kB from a server that does nothing`,
    ],
    figures: null,
  }),
};
