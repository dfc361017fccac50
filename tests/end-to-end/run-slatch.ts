/** `slatch` as its users meet it: a process of its own. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { projectFolder } from '../architecture/source-file.ts';

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs a program in the project's folder to its end. */
export async function runProgram(program: string, args: readonly string[]): Promise<Ran> {
  const child = spawn(program, args, { cwd: projectFolder, stdio: ['ignore', 'pipe', 'pipe'] });
  const [out, err]: [Buffer[], Buffer[]] = [[], []];
  child.stdout.on('data', (chunk: Buffer) => void out.push(chunk));
  child.stderr.on('data', (chunk: Buffer) => void err.push(chunk));
  const [code] = (await once(child, 'close')) as [number | null];
  return { code, out: Buffer.concat(out).toString('utf8'), err: Buffer.concat(err).toString('utf8') };
}

export const slatch = (...args: readonly string[]): Promise<Ran> =>
  runProgram(process.execPath, ['scripts/slatch.mjs', ...args]);
