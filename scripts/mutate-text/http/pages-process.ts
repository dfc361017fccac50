/** The pages in a process of their own, with a throw-away store. */
import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { checkStore } from '../../../server/stores/index.ts';
import { formatProblem } from '../../../lib/result/index.ts';
import { processStatus } from '../../process-status.ts';

export interface Pages {
  readonly port: number;
  /** Octets it holds now, and how often it called something its own mistake; with the last of them. */
  readonly state: () => Promise<PagesState>;
  readonly isGone: () => boolean;
  /** Processor time it has had so far [ms]. */
  readonly busyMs: () => number;
  /** What is wrong with its store and the folder beside it, or null. */
  readonly storeFault: () => Promise<string | null>;
  readonly stop: () => Promise<void>;
}

export interface PagesState {
  readonly heldOctets: number;
  readonly reported: readonly string[];
}

const CHILD = resolve(import.meta.dirname, '../../../tests/hostile/pages-child.ts');
/** What its folder holds: the passage file and the store. */
const BESIDE = ['demo-passage.json', 'store'];

export async function startPages(): Promise<Pages> {
  const child = fork(CHILD, [], { execArgv: ['--import', 'tsx', '--max-old-space-size=512'] });
  const said = await answerOf(child);
  const folder = String(said['folder']);
  return {
    port: Number(new URL(String(said['url'])).port),
    state: async () => {
      child.send('state');
      const { reported } = await answerOf(child);
      return {
        reported: Array.isArray(reported) ? reported.map(String) : [],
        heldOctets: processStatus('VmRSS', child.pid ?? 0),
      };
    },
    isGone: () => child.exitCode !== null || child.signalCode !== null,
    busyMs: () => busyMs(child.pid ?? 0),
    storeFault: () => storeFault(folder),
    stop: async () => {
      if (child.exitCode !== null || child.signalCode !== null) return;
      child.disconnect();
      await once(child, 'exit');
    },
  };
}

type Said = Readonly<Record<string, unknown>>;
const isSaid = (value: unknown): value is Said => typeof value === 'object' && value !== null;

/** The next thing a child says; throws where it ends instead. */
function answerOf(child: ChildProcess): Promise<Said> {
  return new Promise((settle, fail) => {
    const ended = (): void => fail(new Error('the server is gone'));
    child.once('exit', ended);
    child.once('message', (said: unknown) => {
      child.off('exit', ended);
      settle(isSaid(said) ? said : {});
    });
    if (child.exitCode !== null || child.signalCode !== null) ended();
  });
}

/** Of hundredths of a second, whatever the kernel counts in (proc(5): stat, fields 14 and 15). */
const MS_PER_TICK = 10;

function busyMs(pid: number): number {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8')
    .replace(/^.*\) /, '')
    .split(' ');
  return (Number(fields[11]) + Number(fields[12])) * MS_PER_TICK;
}

/** What is wrong with the store of a folder, or with what lies beside it; null: nothing. */
export async function storeFault(folder: string): Promise<string | null> {
  const strange = readdirSync(folder).find((name) => !BESIDE.includes(name));
  if (strange !== undefined) return `"${strange}" was written beside the store`;
  const report = await checkStore(join(folder, 'store'));
  const [first] = report.ok ? report.value.faults : report.problems;
  return first === undefined ? null : `the store: ${formatProblem(first)}`;
}
