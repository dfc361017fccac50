/** All passages of a folder planned by `slatch plan-many`, in a process of its own. */
import { spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join, resolve } from 'node:path';

export interface PlannedFolder {
  readonly parallelCount: number;
  readonly tookMs: number;
  readonly passages: readonly PlannedPassage[];
}

export interface PlannedPassage {
  readonly name: string;
  /** File; null: it could not be planned. */
  readonly plan: string | null;
  readonly tookMs: number | null;
  readonly processorMs: number | null;
  readonly peakOctets: number | null;
}

const SLATCH = resolve(import.meta.dirname, '../slatch.mjs');

/** Surroundings that may not reach a plan: time zone, language, home, options of Node that move the memory about. */
const ENVIRONMENTS = {
  'as-it-is': {},
  another: {
    TZ: 'Pacific/Chatham',
    LANG: 'tr_TR.UTF-8',
    LC_ALL: 'tr_TR.UTF-8',
    HOME: '/nonexistent',
    NODE_OPTIONS: '--max-semi-space-size=4',
  },
} as const;

/**
 * Plans `folder/passages` into `folder/<outName>`.
 *
 * @returns what `--json` tells; throws when the command itself was used wrongly
 */
export async function planFolder(
  folder: string,
  of: { readonly outName: string; readonly parallelCount: number; readonly environment: keyof typeof ENVIRONMENTS },
): Promise<PlannedFolder> {
  const out = join(folder, of.outName);
  mkdirSync(out, { recursive: true });
  const args = ['plan-many', join(folder, 'passages'), '--out', out, '--parallel', String(of.parallelCount)];
  const child = spawn(process.execPath, [SLATCH, ...args, '--again', '--json'], {
    cwd: of.environment === 'another' ? out : process.cwd(),
    env: { ...process.env, ...ENVIRONMENTS[of.environment] },
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const chunks: Buffer[] = [];
  child.stdout.on('data', (chunk: Buffer) => void chunks.push(chunk));
  await new Promise((settle, fail) => void child.once('error', fail).once('close', settle));
  const told: unknown = JSON.parse(Buffer.concat(chunks).toString());
  if (!isPlannedFolder(told)) throw new Error('slatch plan-many told something else');
  return told;
}

const isPlannedFolder = (value: unknown): value is PlannedFolder =>
  typeof value === 'object' && value !== null && 'passages' in value && Array.isArray(value.passages);
