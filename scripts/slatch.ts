/** The command line: `slatch COMMAND [ARGUMENTS]`. */
import { readFile } from 'node:fs/promises';
import { alertnessCommand } from './commands/alertness.ts';
import { checkCommand } from './commands/check.ts';
import type { Command, CommandIo } from './commands/command.ts';
import { compareCommand } from './commands/compare.ts';
import { dispatch } from './commands/dispatch.ts';
import { forecastCommand } from './commands/forecast.ts';
import { planCommand } from './commands/plan.ts';
import { windowsCommand } from './commands/windows.ts';

/** In the order of the overall help. */
const commands: readonly Command[] = [
  planCommand,
  checkCommand,
  compareCommand,
  windowsCommand,
  forecastCommand,
  alertnessCommand,
];

const io: CommandIo = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  readFile: (path) => readFile(path),
  nowEpochMs: () => Date.now(),
};

// A reader that has seen enough (`| head`) is no error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

process.exitCode = await dispatch(commands, process.argv.slice(2), io);
