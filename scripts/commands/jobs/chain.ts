import { chainJobs, chainOf, CHAINS, type Chain } from '../../../lib/jobs/index.ts';
import { reportProblems, takeApart, WrongUse } from '../arguments.ts';
import type { CommandIo } from '../command.ts';

export const CHAIN_HELP = `slatch jobs chain [ID] [--only LINK,LINK…] [--prefix TEXT] [--json]

  Jobs that belong together, in an order that works. Without ID: the chains there are. With ID: its jobs as entries for
  the "jobs" of a passage file; --only keeps the links named and those without which there is no chain, --prefix goes
  before every id.

  slatch jobs chain one-drop --only stitch,battens,bench
`;

export async function printChain(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, { only: 'text', prefix: 'text', json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  const [id, ...others] = given.files;
  if (others.length > 0) throw new WrongUse(`one chain at a time; "${others.join(' ')}" is too much.`);
  if (id === undefined) {
    io.out(
      given.flags.has('json') ? `${JSON.stringify({ chains: CHAINS }, null, 2)}\n` : CHAINS.map(chainText).join('\n'),
    );
    return 0;
  }
  const chain = chainOf(id);
  const only = given.texts.get('only')?.split(',') ?? null;
  const jobs = chain.ok ? chainJobs(chain.value, { only, prefix: given.texts.get('prefix') ?? '' }) : chain;
  if (!jobs.ok) {
    reportProblems(io, jobs.problems);
    return 1;
  }
  io.out(`${JSON.stringify({ jobs: jobs.value }, null, 2)}\n`);
  return 0;
}

const chainText = ({ id, name, what, links }: Chain): string =>
  `${id}: ${name}\n  ${what}\n${links
    .map((link) => `  ${link.isCore ? '*' : '-'} ${link.id} (${link.from}): ${link.why}\n`)
    .join('')}`;
