import { withSubcommands } from './subcommands.ts';
import { backUp, BACKUP_HELP } from './store/backup.ts';
import { check, CHECK_HELP } from './store/check.ts';
import { restore, RESTORE_HELP } from './store/restore.ts';

/** `slatch store`. */
export const storeCommand = withSubcommands('store', {
  backup: { help: BACKUP_HELP, run: backUp },
  restore: { help: RESTORE_HELP, run: restore },
  check: { help: CHECK_HELP, run: check },
});
