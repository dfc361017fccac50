/** The command line: `slatch COMMAND [ARGUMENTS]`. */
import { allCommands } from './commands/all-commands.ts';
import type { CommandIo } from './commands/command.ts';
import { dispatch } from './commands/dispatch.ts';

const io: CommandIo = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  // Loaded when it is needed: help and wrong use are answered without it.
  readFile: async (path) => (await import('../server/decoding/index.ts')).readWholeFile(path),
  openForecast: async (path) => (await import('../server/decoding/index.ts')).openForecast(path, path),
  nowEpochMs: () => Date.now(),
};

// A reader that has seen enough (`| head`) is no error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

process.exitCode = await dispatch(allCommands, process.argv.slice(2), io);
