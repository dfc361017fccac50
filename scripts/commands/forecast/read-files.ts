import type { ForecastFile, HeldFile } from '../../../lib/forecast/index.ts';
import { formatProblem, type Problem, shownText } from '../../../lib/result/index.ts';
import { fileProblem } from '../../../server/decoding/index.ts';
import type { CommandIo } from '../command.ts';

/** Reads files; those that cannot be read become problems. */
export const readFiles = (io: CommandIo, names: readonly string[]): Promise<Read<HeldFile>> =>
  readEach(names, async (name) => ({ name, bytes: await io.readFile(name) }));

/** The same of files that need not be held, where they are long. */
export const openFiles = (io: CommandIo, names: readonly string[]): Promise<Read<ForecastFile>> =>
  readEach(names, async (name) => (await io.openForecast?.(name)) ?? { name, bytes: await io.readFile(name) });

interface Read<File> {
  readonly files: readonly File[];
  readonly problems: readonly Problem[];
}

/** A name is repeated in every line about its file. */
const MOST_NAME_CHARACTERS = 300;

async function readEach<File extends { readonly name: string }>(
  names: readonly string[],
  read: (name: string) => Promise<File>,
): Promise<Read<File>> {
  const files: File[] = [];
  const problems: Problem[] = [];
  for (const name of names) {
    try {
      // One after the other: each may be long.
      // oxlint-disable-next-line no-await-in-loop
      files.push({ ...(await read(name)), name: shownText(name, MOST_NAME_CHARACTERS) });
    } catch (error) {
      problems.push(unreadable(name, error));
    }
  }
  return { files, problems };
}

const unreadable = (name: string, error: unknown): Problem => ({
  ...fileProblem(error, { where: shownText(name, MOST_NAME_CHARACTERS), remedy: 'Check the name and the folder.' }),
  code: 'forecast.file-unreadable',
});

/** One line per problem on standard error. */
export function reportProblems(io: CommandIo, problems: readonly Problem[]): void {
  for (const problem of problems) io.err(`${formatProblem(problem)}\n`);
}
