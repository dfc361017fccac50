/** What commands share for taking their arguments apart. */
import { formatProblem, type Problem } from '../../lib/result/index.ts';
import { parseUtc } from '../../lib/time/index.ts';
import type { Command, CommandIo } from './command.ts';
import { type TakenApart, WrongUse } from './forecast/arguments.ts';

export { numberOption, takeApart, type OptionKinds, type TakenApart, WrongUse } from './forecast/arguments.ts';

/** An instant given as text, or null; text that is none is wrong use. */
export function instantOption(given: TakenApart, name: string): number | null {
  const text = given.texts.get(name);
  if (text === undefined) return null;
  const instant = parseUtc(text, `--${name}`);
  if (!instant.ok) throw new WrongUse(formatProblem(instant.problems[0]));
  return instant.value;
}

/** Writes problems to standard error, one a line. */
export function reportProblems(io: CommandIo, problems: readonly Problem[]): void {
  for (const problem of problems) io.err(`${formatProblem(problem)}\n`);
}

/** A command whose `--help` prints its help and whose wrong use prints the reason, its help, and is exit code 2. */
export function command(of: Command & { readonly help: string }): Command {
  return {
    name: of.name,
    async run(args, io) {
      if (args.includes('--help') || args.includes('-h')) {
        io.out(of.help);
        return 0;
      }
      try {
        return await of.run(args, io);
      } catch (error) {
        if (!(error instanceof WrongUse)) throw error;
        io.err(`slatch ${of.name}: ${error.message}\n\n${of.help}`);
        return 2;
      }
    },
  };
}
