/** A program of Node in a process of its own, and what it took. */
import { spawn } from 'node:child_process';

/** How a process ended. */
export interface MeasuredProcess {
  /** Exit code; null: it was ended from outside. */
  readonly code: number | null;
  readonly signal: string | null;
  /** Standard output. */
  readonly out: Buffer;
  /** Standard error. */
  readonly err: string;
  readonly tookMs: number;
  /** What it took; null: it could not tell any more. */
  readonly usage: ProcessUsage | null;
}

export interface ProcessUsage {
  /** Of all its threads. */
  readonly processorMs: number;
  /** Most memory held at once. */
  readonly peakOctets: number;
}

const REPORT_USAGE = new URL('report-usage.mjs', import.meta.url).href;

/**
 * Runs a program with its arguments. Aborted: the process is ended, and the answer says so.
 *
 * Rejects when no process can be started.
 */
export function runMeasured(program: readonly string[], signal?: AbortSignal): Promise<MeasuredProcess> {
  const begunMs = performance.now();
  const args = ['--import', REPORT_USAGE, ...program];
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'pipe', 'pipe'] });
  const stop = (): void => void child.kill();
  signal?.addEventListener('abort', stop, { once: true });
  if (signal?.aborted === true) stop();
  const [out, err, told] = [child.stdio[1], child.stdio[2], child.stdio[3]].map(collect);
  return new Promise((settle, fail) => {
    child.once('error', fail);
    child.once('close', (code, endSignal) => {
      signal?.removeEventListener('abort', stop);
      settle({
        code,
        signal: endSignal,
        out: Buffer.concat(out ?? []),
        err: Buffer.concat(err ?? []).toString(),
        tookMs: performance.now() - begunMs,
        usage: usageOf(Buffer.concat(told ?? []).toString()),
      });
    });
  });
}

/** The list that what comes is added to. */
function collect(stream: unknown): Buffer[] {
  const chunks: Buffer[] = [];
  if (!isStream(stream)) throw new Error('a pipe was asked for');
  stream.on('data', (chunk: Buffer) => void chunks.push(chunk));
  return chunks;
}

const isStream = (value: unknown): value is NodeJS.ReadableStream =>
  typeof value === 'object' && value !== null && 'on' in value;

function usageOf(text: string): ProcessUsage | null {
  if (text === '') return null;
  const told: unknown = JSON.parse(text);
  if (typeof told !== 'object' || told === null || !('processorMs' in told) || !('peakOctets' in told)) return null;
  const { processorMs, peakOctets } = told;
  return typeof processorMs === 'number' && typeof peakOctets === 'number' ? { processorMs, peakOctets } : null;
}
