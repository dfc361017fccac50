import { libraryEntry, libraryJobIds, unknownName } from '../../../lib/jobs/index.ts';
import { reportProblems, takeApart, WrongUse } from '../arguments.ts';
import type { CommandIo } from '../command.ts';

export const COPY_HELP = `slatch jobs copy LIBRARY-ID [--id ID]

  A library job as an entry for the "jobs" of a passage file, with all of its steps and figures to be changed. With
  "from" alone the same job is had without them; whatever is changed is shown by: slatch jobs show PASSAGE --job ID

  slatch jobs copy batten-swap --id batten-3
`;

export async function copyJob(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, { id: 'text' });
  if (typeof given === 'string') throw new WrongUse(given);
  const [libraryId, ...others] = given.files;
  if (libraryId === undefined) throw new WrongUse('no library job is named.');
  if (others.length > 0) throw new WrongUse(`one at a time; "${others.join(' ')}" is too much.`);
  const entry = libraryEntry(libraryId);
  if (entry === null) {
    const of = { code: 'jobs.library-unknown', kind: 'library job', name: libraryId, known: libraryJobIds };
    reportProblems(io, [unknownName(of, libraryId)]);
    return 1;
  }
  io.out(`${JSON.stringify({ ...entry, id: given.texts.get('id') ?? libraryId, from: libraryId }, null, 2)}\n`);
  return 0;
}
