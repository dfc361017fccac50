import { AT_HELP, printSeries } from './forecast/at.ts';
import { LIST_HELP, listFields } from './forecast/list.ts';
import { printValues, VALUES_HELP } from './forecast/values.ts';
import { withSubcommands } from './subcommands.ts';

/** `slatch forecast list | values | at`. */
export const forecastCommand = withSubcommands('forecast', {
  list: { help: LIST_HELP, run: listFields },
  values: { help: VALUES_HELP, run: printValues },
  at: { help: AT_HELP, run: printSeries },
});
