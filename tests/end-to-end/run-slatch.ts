/** `slatch` as its users meet it: a process of its own, or its commands in this one, since starting takes seconds. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFile } from 'node:fs/promises';
import { allCommands } from '../../scripts/commands/all-commands.ts';
import { dispatch } from '../../scripts/commands/dispatch.ts';
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

/** `slatch` started from its file. */
export const slatchProcess = (...args: readonly string[]): Promise<Ran> =>
  runProgram(process.execPath, ['scripts/slatch.mjs', ...args]);

/** The same command in this process; what it writes is caught. */
export async function slatch(...args: readonly string[]): Promise<Ran> {
  const [out, err]: [string[], string[]] = [[], []];
  const code = await dispatch(allCommands, args, {
    out: (text) => void out.push(text),
    err: (text) => void err.push(text),
    readFile: (path) => readFile(path),
    nowEpochMs: () => Date.now(),
  });
  return { code, out: out.join(''), err: err.join('') };
}
