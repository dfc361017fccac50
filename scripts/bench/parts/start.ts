/** From nothing to something: the server and the command line, beside the start of Node itself. */
import { join } from 'node:path';
import { ask } from '../../bench-pages/ask.ts';
import { planMade } from '../../bench-pages/server-process.ts';
import { type BenchCase, caseOfRounds, type Pair, type Part, type PartOptions } from '../bench-case.ts';
import { DEMO_PATH } from '../demo.ts';
import { ended, startedWith, wholeRunMs } from '../timed-process.ts';

const SERVER_NAMES = {
  address: 'server, until its address',
  page: 'server, until the first page',
  plan: 'server, until the plan',
};
const COMMANDS = {
  'slatch --help': ['scripts/slatch.mjs', '--help'],
  'slatch jobs ready of the demo': ['scripts/slatch.mjs', 'jobs', 'ready', DEMO_PATH],
  'slatch windows of the demo': ['scripts/slatch.mjs', 'windows', DEMO_PATH],
} as const;

const ROUND_COUNT = 5;
const QUICK_ROUND_COUNT = 2;
/** A plan takes half a minute. */
const PLAN_ROUND_COUNT = 2;

const nodeStartMs = (): number => wholeRunMs(['-e', '0']);

interface ServerRound {
  readonly addressMs: number;
  readonly pageMs: number;
  /** null: not waited for. */
  readonly planMs: number | null;
}

/** With a store that is not there yet, as at the very first start. */
async function serverRound(storeFolder: string, waitsForPlan: boolean): Promise<ServerRound> {
  const words = ['scripts/bootstrap.mjs', 'start', '--port', '0', '--passage', DEMO_PATH, '--store', storeFolder];
  const { child, line, begunMs, atMs } = await startedWith(words, /^Slatch: http/);
  try {
    const url = line.replace(/^Slatch: /, '').replace(/\/$/, '');
    const { status } = await ask(url, '/');
    if (status !== 200) throw new Error(`the first page answers ${status}`);
    const pageMs = performance.now() - begunMs;
    if (waitsForPlan) await planMade(url);
    return { addressMs: atMs, pageMs, planMs: waitsForPlan ? performance.now() - begunMs : null };
  } finally {
    await ended(child);
  }
}

async function serverCases({ isQuick, scratch }: PartOptions): Promise<readonly BenchCase[]> {
  const pairs: Record<keyof typeof SERVER_NAMES, Pair[]> = { address: [], page: [], plan: [] };
  for (let round = 0; round < (isQuick ? QUICK_ROUND_COUNT : ROUND_COUNT); round++) {
    const reference = nodeStartMs();
    const waitsForPlan = !isQuick && round < PLAN_ROUND_COUNT;
    const found = await serverRound(join(scratch, `store-${round}`), waitsForPlan);
    pairs.address.push({ ours: found.addressMs, reference });
    pairs.page.push({ ours: found.pageMs, reference });
    if (found.planMs !== null) pairs.plan.push({ ours: found.planMs, reference });
  }
  return (['address', 'page', 'plan'] as const)
    .filter((key) => pairs[key].length > 0)
    .map((key) => caseOfRounds(SERVER_NAMES[key], 'ms', pairs[key]));
}

function commandCase(name: string, words: readonly string[], roundCount: number): BenchCase {
  const pairs = Array.from({ length: roundCount }, () => {
    const reference = nodeStartMs();
    return { ours: wholeRunMs(words), reference };
  });
  return caseOfRounds(name, 'ms', pairs);
}

export const startPart: Part = {
  caseNames: () => [...Object.values(SERVER_NAMES), ...Object.keys(COMMANDS)],
  measure: async (options) => {
    const roundCount = options.isQuick ? QUICK_ROUND_COUNT : ROUND_COUNT;
    // Files are in the cache of the system and tsx has its own filled: what is timed is a start like yesterday's.
    wholeRunMs(COMMANDS['slatch --help']);
    return {
      cases: [
        ...(await serverCases(options)),
        ...Object.entries(COMMANDS).map(([name, words]) => commandCase(name, words, roundCount)),
      ],
      skipped: [],
      notes: ['start: the reference is node -e 0, from its start to its end'],
      figures: null,
    };
  },
};
