/** What the server, the command line and decoding hold, beside Node with a server that does nothing. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findPages } from '../../bench-pages/find-pages.ts';
import { writeLargePassage } from '../../bench-pages/large-passage.ts';
import { measurePages } from '../../bench-pages/measure.ts';
import { idsIn } from '../../bench-pages/passage-ids.ts';
import { planMade } from '../../bench-pages/server-process.ts';
import { ask } from '../../bench-pages/ask.ts';
import { type BenchCase, exactCase, type Part, type PartOptions, type PartResult } from '../bench-case.ts';
import { DEMO_PATH, forecastFiles } from '../demo.ts';
import { startIdleServer } from '../idle-process.ts';
import { residentMibOf, watchPeak } from '../linux-memory.ts';
import { ended, PROJECT, startedWith } from '../timed-process.ts';

const SIZES = ['demo', 'large'] as const;
type Size = (typeof SIZES)[number];
const STATES = ['at its address', 'with its plan', 'after all pages', 'after another plan', 'at most'] as const;

const serverName = (size: Size, state: (typeof STATES)[number]): string => `server, ${size}, ${state}`;
const COMMAND_NAME = 'slatch plan of the demo, at most';
const DECODE_NAME = 'decoding 50 runs, at most';

const ROUND_COUNT = 4;
const MOST_MEMBERS = 50;

interface Held {
  readonly name: string;
  readonly mib: number;
}

/** Memory of the server and the processes it has started, by what it has done. */
async function serverHeld(size: Size, scratch: string): Promise<readonly Held[]> {
  const folder = join(scratch, size);
  mkdirSync(folder);
  const passagePath = size === 'demo' ? DEMO_PATH : writeLargePassage(DEMO_PATH, folder);
  const words = [
    'scripts/bootstrap.mjs',
    'start',
    '--port',
    '0',
    '--passage',
    passagePath,
    '--store',
    join(folder, 'store'),
  ];
  const { child, line } = await startedWith(words, /^Slatch: http/);
  const url = line.replace(/^Slatch: /, '').replace(/\/$/, '');
  const { pid = 0 } = child;
  const peak = watchPeak(pid);
  const held: Held[] = [];
  try {
    held.push({ name: serverName(size, 'at its address'), mib: heldBy(pid) });
    await planMade(url);
    held.push({ name: serverName(size, 'with its plan'), mib: heldBy(pid) });
    const pages = await findPages(url, idsIn(passagePath));
    await measurePages({ url, busyMs: () => null }, pages, { roundCount: ROUND_COUNT });
    held.push({ name: serverName(size, 'after all pages'), mib: heldBy(pid) });
    await ask(url, '/plan/again', 'POST');
    await planMade(url);
    held.push({ name: serverName(size, 'after another plan'), mib: heldBy(pid) });
    return [...held, { name: serverName(size, 'at most'), mib: peak.stop() }];
  } finally {
    peak.stop();
    await ended(child);
  }
}

function heldBy(pid: number): number {
  const mib = residentMibOf(pid);
  if (mib === null) throw new Error('this system does not tell what a process holds');
  return mib;
}

/** GNU time is not everywhere: Node tells its own peak when it ends, to a file. */
const TELL_PEAK = fileURLToPath(new URL('../tell-peak.mjs', import.meta.url));

function peakOf(words: readonly string[], scratch: string): number {
  const path = join(scratch, 'peak');
  const { status, stderr } = spawnSync(process.execPath, ['--import', TELL_PEAK, ...words], {
    cwd: PROJECT,
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
    env: { ...process.env, SLATCH_PEAK_FILE: path },
  });
  if (status !== 0) throw new Error(stderr);
  return Number(readFileSync(path, 'utf8'));
}

function decodeHeld(scratch: string): Held {
  const path = join(scratch, 'members.grib2');
  writeFileSync(path, forecastFiles(MOST_MEMBERS)[1]?.bytes ?? new Uint8Array());
  const program = fileURLToPath(new URL('../decode-process.ts', import.meta.url));
  return { name: DECODE_NAME, mib: peakOf(['--import', 'tsx', program, path], scratch) };
}

async function idleMib(): Promise<number> {
  const idle = await startIdleServer();
  try {
    await ask(idle.url, '/');
    return heldBy(idle.pid);
  } finally {
    await idle.stop();
  }
}

async function measureMemory({ isQuick, scratch }: PartOptions): Promise<readonly BenchCase[]> {
  const reference = await idleMib();
  const held: Held[] = [decodeHeld(scratch)];
  for (const size of SIZES.slice(0, isQuick ? 1 : SIZES.length)) held.push(...(await serverHeld(size, scratch)));
  if (!isQuick) held.push({ name: COMMAND_NAME, mib: peakOf(['scripts/slatch.mjs', 'plan', DEMO_PATH], scratch) });
  return held.map(({ name, mib }) => exactCase(name, 'MiB', { ours: mib, reference }));
}

export const memoryPart: Part = {
  caseNames: () => [
    DECODE_NAME,
    ...SIZES.flatMap((size) => STATES.map((state) => serverName(size, state))),
    COMMAND_NAME,
  ],
  measure: async (options): Promise<PartResult> => {
    const notes = [
      'memory: resident, of the program and the processes it starts; the reference is Node with a server that does nothing',
    ];
    if (residentMibOf(process.pid) === null)
      return {
        cases: [],
        skipped: [{ name: 'all', why: 'this system does not tell what a process holds' }],
        notes,
        figures: null,
      };
    return { cases: await measureMemory(options), skipped: [], notes, figures: null };
  },
};
