import type { Command, CommandIo } from './command.ts';
import { WrongUse } from './forecast/arguments.ts';
import { AT_HELP, printSeries } from './forecast/at.ts';
import { LIST_HELP, listFields } from './forecast/list.ts';
import { printValues, VALUES_HELP } from './forecast/values.ts';

interface Subcommand {
  readonly help: string;
  readonly run: (args: readonly string[], io: CommandIo) => Promise<number>;
}

const subcommands: Readonly<Record<string, Subcommand>> = {
  list: { help: LIST_HELP, run: listFields },
  values: { help: VALUES_HELP, run: printValues },
  at: { help: AT_HELP, run: printSeries },
};

const helpOfAll = Object.values(subcommands)
  .map(({ help }) => help)
  .join('\n');

/** `slatch forecast list | values | at`. */
export const forecastCommand: Command = {
  name: 'forecast',
  async run(args, io) {
    const [name = '', ...rest] = args;
    if (name === '--help' || name === '-h') return printed(io, helpOfAll);
    const subcommand = Object.hasOwn(subcommands, name) ? subcommands[name] : undefined;
    if (subcommand === undefined) {
      io.err(`slatch forecast ${name}: expected list, values or at.\n\n${helpOfAll}`);
      return 2;
    }
    if (rest.includes('--help') || rest.includes('-h')) return printed(io, subcommand.help);
    try {
      return await subcommand.run(rest, io);
    } catch (error) {
      if (!(error instanceof WrongUse)) throw error;
      io.err(`slatch forecast ${name}: ${error.message}\n\n${subcommand.help}`);
      return 2;
    }
  },
};

function printed(io: CommandIo, text: string): number {
  io.out(text);
  return 0;
}
