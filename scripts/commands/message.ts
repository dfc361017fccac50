import { KEY_HELP, printKey } from './message/key.ts';
import { printRead, READ_HELP } from './message/read.ts';
import { printWritten, WRITE_HELP } from './message/write.ts';
import { withSubcommands } from './subcommands.ts';

/** `slatch message write | read | key`. */
export const messageCommand = withSubcommands('message', {
  write: { help: WRITE_HELP, run: printWritten },
  read: { help: READ_HELP, run: printRead },
  key: { help: KEY_HELP, run: printKey },
});
