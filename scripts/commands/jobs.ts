import { CHAIN_HELP, printChain } from './jobs/chain.ts';
import { COPY_HELP, copyJob } from './jobs/copy.ts';
import { printReadiness, READY_HELP } from './jobs-ready.ts';
import { LIST_HELP, listJobs } from './jobs/list.ts';
import { printProposals, PROPOSE_HELP } from './jobs/propose.ts';
import { SHOW_HELP, showJob } from './jobs/show.ts';
import { withSubcommands } from './subcommands.ts';

/** `slatch jobs list | show | copy | chain | propose | ready`. */
export const jobsCommand = withSubcommands('jobs', {
  list: { help: LIST_HELP, run: listJobs },
  show: { help: SHOW_HELP, run: showJob },
  copy: { help: COPY_HELP, run: copyJob },
  chain: { help: CHAIN_HELP, run: printChain },
  propose: { help: PROPOSE_HELP, run: printProposals },
  ready: { help: READY_HELP, run: printReadiness },
});
