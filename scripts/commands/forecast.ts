import { AT_HELP, printSeries } from './forecast/at.ts';
import { GET_HELP, getForecast } from './forecast/get.ts';
import { CUT_HELP, cutFiles } from './forecast/cut.ts';
import { LIST_HELP, listFields } from './forecast/list.ts';
import { printValues, VALUES_HELP } from './forecast/values.ts';
import { withSubcommands } from './subcommands.ts';

/** `slatch forecast list | values | at | cut | get`. */
export const forecastCommand = withSubcommands('forecast', {
  list: { help: LIST_HELP, run: listFields },
  values: { help: VALUES_HELP, run: printValues },
  at: { help: AT_HELP, run: printSeries },
  cut: { help: CUT_HELP, run: cutFiles },
  get: { help: GET_HELP, run: getForecast },
});
