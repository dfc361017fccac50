import { didYouMean } from '../../lib/result/index.ts';
import type { CommandIo, ListedCommand } from './command.ts';

/** Runs the command named first; without one, or with `--help`, says which there are. */
export async function dispatch(
  commands: readonly ListedCommand[],
  args: readonly string[],
  io: CommandIo,
): Promise<number> {
  const [name, ...rest] = args;
  if (name === '--help' || name === '-h' || name === 'help') {
    io.out(helpOf(commands));
    return 0;
  }
  const found = commands.find((command) => command.name === name);
  if (found !== undefined) return found.run(rest, io);
  io.err(name === undefined ? helpOf(commands) : `${unknownCommand(commands, name)}\n\n${helpOf(commands)}`);
  return 2;
}

function unknownCommand(commands: readonly ListedCommand[], name: string): string {
  const near = didYouMean(
    name,
    commands.map((command) => command.name),
  );
  return `slatch: there is no command "${name}".${near === null ? '' : ` Did you mean "${near}"?`}`;
}

function helpOf(commands: readonly ListedCommand[]): string {
  const width = Math.max(...commands.map(({ name }) => name.length));
  return [
    'slatch COMMAND [ARGUMENTS]',
    '',
    ...commands.map(({ name, summary }) => `  ${name.padEnd(width)}  ${summary}`),
    '',
    'slatch COMMAND --help says more. Exit code 0: done; 1: a problem in the input; 2: wrong use.',
    '',
  ].join('\n');
}
