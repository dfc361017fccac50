import { exportToFile, EXPORT_HELP } from './passage/export.ts';
import { importFromFile, IMPORT_HELP } from './passage/import.ts';
import { withSubcommands } from './subcommands.ts';

/** `slatch passage`. */
export const passageCommand = withSubcommands('passage', {
  export: { help: EXPORT_HELP, run: exportToFile },
  import: { help: IMPORT_HELP, run: importFromFile },
});
