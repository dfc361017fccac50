import { readLog, type LogRead } from '../../../lib/log/index.ts';
import { failed, formatProblem, ok, type Problem, type Result } from '../../../lib/result/index.ts';
import { reportProblems } from '../arguments.ts';
import type { CommandIo } from '../command.ts';

/** A log file as it was read. */
export interface LogFile extends LogRead {
  /** Octets up to the last whole line; what follows was torn. */
  readonly wholeOctetCount: number;
  /** The last line counts, but lacks its line end. */
  readonly isEndMissing: boolean;
}

const LINE_END_OCTET = 0x0a;

/**
 * A log file: all that can be read of it. A torn last line may end inside a character, the lines before may not.
 *
 * @returns `file.unreadable` when it cannot be read, `file.not-utf-8` when whole lines are not UTF-8
 */
export async function readLogFile(file: string, io: CommandIo): Promise<Result<LogFile>> {
  const octets = await io.readFile(file).catch((error: unknown) => error);
  if (!(octets instanceof Uint8Array)) return failed(unreadable(file, octets));
  const headOctetCount = octets.lastIndexOf(LINE_END_OCTET) + 1;
  const head = decoded(octets.subarray(0, headOctetCount));
  if (head === null) return failed(notUtf8(file));
  const tail = new TextDecoder().decode(octets.subarray(headOctetCount));
  const read = readLog(head + tail, file);
  return ok({
    ...read,
    wholeOctetCount: read.torn === null ? octets.length : headOctetCount,
    isEndMissing: read.torn === null && octets.length > headOctetCount,
  });
}

/** Whether a file is not there, going by what reading it said. */
export async function isAbsent(file: string, io: CommandIo): Promise<boolean> {
  try {
    await io.readFile(file);
    return false;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'ENOENT';
  }
}

/** Says what is wrong with lines of the log and what was torn; whether there is anything wrong with whole lines. */
export function reportLog({ problems, torn }: LogRead, io: CommandIo): boolean {
  reportProblems(io, problems);
  if (torn !== null) io.err(`${formatProblem(torn.problem)}\n`);
  return problems.length > 0;
}

function decoded(octets: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(octets);
  } catch {
    return null;
  }
}

const unreadable = (file: string, error: unknown): Problem => ({
  code: 'file.unreadable',
  where: file,
  what: `It cannot be read: ${error instanceof Error ? error.message : String(error)}.`,
  expected: 'a log file',
  remedy: 'Check the name and the folder.',
});

const notUtf8 = (file: string): Problem => ({
  code: 'file.not-utf-8',
  where: file,
  what: 'The log is not written in UTF-8.',
  expected: 'JSON Lines in UTF-8',
  remedy: 'Take the file as slatch log add wrote it.',
});
