/** The ecCodes C library as a process that is asked for one round after another. */
import { type ChildProcessByStdio, spawn, spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { createInterface, type Interface } from 'node:readline';
import type { Readable, Writable } from 'node:stream';
import { fileURLToPath } from 'node:url';

/** One round of the reference over a file. */
export interface AnchorRound {
  readonly fieldCount: number;
  readonly unreadableCount: number;
  readonly valueCount: number;
  /** To find the messages and read their headers [s]. */
  readonly headerS: number;
  /** All together [s]. */
  readonly totalS: number;
}

export interface Anchor {
  /** `hasMultiFields`: messages of several fields, which the library reads in another way. */
  readonly round: (path: string, hasMultiFields: boolean) => Promise<AnchorRound>;
  readonly end: () => void;
}

const SOURCE = fileURLToPath(new URL('eccodes-anchor.c', import.meta.url));
const COMPILER = 'gcc';

/** Compiles and starts it; a text says why it cannot be. */
export function startAnchor(scratch: string): Anchor | string {
  const program = join(scratch, 'eccodes-anchor');
  const run = spawnSync(COMPILER, ['-O2', '-o', program, SOURCE, '-leccodes'], { encoding: 'utf8' });
  if (run.status !== 0) {
    return `no ecCodes C library to compare with (gcc and libeccodes-dev are needed): ${run.error?.message ?? run.stderr.trim().split('\n')[0]}`;
  }
  const child = spawn(program, { stdio: ['pipe', 'pipe', 'ignore'] });
  const lines = createInterface({ input: child.stdout });
  return {
    round: (path, hasMultiFields) => askFor(`${hasMultiFields ? 'multi' : 'single'} ${path}`, child, lines),
    end: () => child.stdin.end(),
  };
}

async function askFor(
  question: string,
  child: ChildProcessByStdio<Writable, Readable, null>,
  lines: Interface,
): Promise<AnchorRound> {
  const answer = new Promise<string>((resolve, reject) => {
    lines.once('line', resolve);
    child.once('exit', () => reject(new Error(`the reference ended at: ${question}`)));
  });
  child.stdin.write(`${question}\n`);
  const numbers = (await answer).split(' ').map(Number);
  child.removeAllListeners('exit');
  const [fieldCount = 0, unreadableCount = 0, valueCount = 0, headerS = 0, totalS = 0] = numbers;
  return { fieldCount, unreadableCount, valueCount, headerS, totalS };
}
