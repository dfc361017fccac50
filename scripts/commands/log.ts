import { ADD_HELP, addEntry } from './log/add.ts';
import { CSV_HELP, printCsv } from './log/csv.ts';
import { LIST_HELP, listEntries } from './log/list.ts';
import { MATCH_HELP, printMatch } from './log/match.ts';
import { printState, STATE_HELP } from './log/state.ts';
import { withSubcommands } from './subcommands.ts';

/** `slatch log add | list | state | match | csv`. */
export const logCommand = withSubcommands('log', {
  add: { help: ADD_HELP, run: addEntry },
  list: { help: LIST_HELP, run: listEntries },
  state: { help: STATE_HELP, run: printState },
  match: { help: MATCH_HELP, run: printMatch },
  csv: { help: CSV_HELP, run: printCsv },
});
