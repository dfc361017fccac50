import type { ForecastFile } from '../../../lib/forecast/index.ts';
import { formatProblem, type Problem } from '../../../lib/result/index.ts';
import type { CommandIo } from '../command.ts';

/** Reads files; those that cannot be read become problems. */
export async function readFiles(
  io: CommandIo,
  names: readonly string[],
): Promise<{ files: readonly ForecastFile[]; problems: readonly Problem[] }> {
  const files: ForecastFile[] = [];
  const problems: Problem[] = [];
  for (const name of names) {
    try {
      files.push({ name, bytes: await io.readFile(name) });
    } catch (error) {
      problems.push(unreadable(name, error));
    }
  }
  return { files, problems };
}

function unreadable(name: string, error: unknown): Problem {
  const reason = error instanceof Error ? error.message : String(error);
  return {
    code: 'forecast.file-unreadable',
    where: name,
    what: `The file cannot be read: ${reason.replace(/\.$/, '')}.`,
    expected: 'a GRIB file that may be read',
    remedy: 'Check the name and the folder.',
  };
}

/** One line per problem on standard error. */
export function reportProblems(io: CommandIo, problems: readonly Problem[]): void {
  for (const problem of problems) io.err(`${formatProblem(problem)}\n`);
}
