import { proposalsText } from '../../../lib/brief/index.ts';
import { proposalsFor } from '../../../lib/jobs/index.ts';
import { reportProblems, takeApart, WrongUse } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { readPassageFile } from '../read-passage.ts';

export const PROPOSE_HELP = `slatch jobs propose PASSAGE [--json]

  What the jobs of a passage lack: soaks and cures to begin now because a later job needs them, work that would share
  the drop of the mainsail, and jobs that need the sail down but do not stand between its drop and its hoist.

  slatch jobs propose sample-forecasts/demo-passage.json
`;

export async function printProposals(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, { json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  const [file, ...others] = given.files;
  if (file === undefined) throw new WrongUse('no passage file is given.');
  if (others.length > 0) throw new WrongUse(`one passage file at a time; "${others.join(' ')}" is too much.`);
  const passage = await readPassageFile(file, io);
  if (!passage.ok) {
    reportProblems(io, passage.problems);
    return 1;
  }
  const { jobs, boat, orders } = passage.value;
  const open = jobs.filter(({ id }) => orders.jobs.get(id)?.isDone !== true);
  const proposals = proposalsFor({ jobs: open, sailStates: boat.sailStates });
  io.out(given.flags.has('json') ? `${JSON.stringify({ proposals }, null, 2)}\n` : proposalsText(proposals));
  return 0;
}
