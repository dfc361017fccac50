import type { Command, CommandIo } from './command.ts';
import { WrongUse } from './forecast/arguments.ts';

/** One of the things a command does. */
export interface Subcommand {
  readonly help: string;
  readonly run: (args: readonly string[], io: CommandIo) => Promise<number>;
}

/** A command that is several: `slatch NAME SUBCOMMAND …`. Help, wrong use and exit codes as everywhere. */
export function withSubcommands(command: string, subcommands: Readonly<Record<string, Subcommand>>): Command {
  const helpOfAll = Object.values(subcommands)
    .map(({ help }) => help)
    .join('\n');
  const names = Object.keys(subcommands);
  const known = `${names.slice(0, -1).join(', ')} or ${names.at(-1) ?? ''}`;
  return {
    name: command,
    async run(args, io) {
      const [name = '', ...rest] = args;
      if (name === '--help' || name === '-h') return printed(io, helpOfAll);
      const subcommand = Object.hasOwn(subcommands, name) ? subcommands[name] : undefined;
      if (subcommand === undefined) {
        io.err(`slatch ${command} ${name}: expected ${known}.\n\n${helpOfAll}`);
        return 2;
      }
      if (rest.includes('--help') || rest.includes('-h')) return printed(io, subcommand.help);
      try {
        return await subcommand.run(rest, io);
      } catch (error) {
        if (!(error instanceof WrongUse)) throw error;
        io.err(`slatch ${command} ${name}: ${error.message}\n\n${subcommand.help}`);
        return 2;
      }
    },
  };
}

function printed(io: CommandIo, text: string): number {
  io.out(text);
  return 0;
}
