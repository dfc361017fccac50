import { jobListText } from '../../../lib/brief/index.ts';
import { JOB_LIBRARY } from '../../../lib/jobs/index.ts';
import { takeApart, WrongUse } from '../arguments.ts';
import type { CommandIo } from '../command.ts';

export const LIST_HELP = `slatch jobs list [--group NAME] [--json]

  The jobs of the library, in a line each: minutes that half and nine tenths of tries stay within, the strictest no-go
  limits of its steps (wind over the deck, significant wave height). --json gives every job whole.

  slatch jobs list --group sail-repair
`;

export async function listJobs(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, { group: 'text', json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  if (given.files.length > 0) throw new WrongUse(`"${given.files.join(' ')}" belongs to no option.`);
  const group = given.texts.get('group') ?? null;
  const groups = [...new Set(JOB_LIBRARY.map((job) => job.group))];
  if (group !== null && !groups.some((known) => known === group))
    throw new WrongUse(`--group ${group}: expected one of ${groups.join(', ')}.`);
  const jobs = JOB_LIBRARY.filter((job) => group === null || job.group === group);
  io.out(given.flags.has('json') ? `${JSON.stringify({ jobs }, null, 2)}\n` : jobListText(jobs));
  return 0;
}
