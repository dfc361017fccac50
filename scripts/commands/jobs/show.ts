import { differencesText, jobCardText } from '../../../lib/brief/index.ts';
import { differencesFrom, libraryJob, libraryJobIds, type Job, unknownName } from '../../../lib/jobs/index.ts';
import { failed, ok, type Result } from '../../../lib/result/index.ts';
import { reportProblems, takeApart, WrongUse } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { readPassageFile } from '../read-passage.ts';

export const SHOW_HELP = `slatch jobs show ID [--json]
slatch jobs show PASSAGE --job ID [--json]

  A job of the library, or of a passage file, whole: steps with minutes, place, where it may be stopped, limits
  (ideal/caution/no-go), waits, materials, tools, safe points, cautions, what to look at afterwards, and whose figures
  they are. Of a job of a passage also what is not as in the library.

  slatch jobs show stitch-tear
`;

export async function showJob(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, { job: 'text', json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  const [name, ...others] = given.files;
  if (name === undefined) throw new WrongUse('no job and no passage file is named.');
  if (others.length > 0) throw new WrongUse(`one at a time; "${others.join(' ')}" is too much.`);
  const jobId = given.texts.get('job');
  const job = jobId === undefined ? ofLibrary(name) : await ofPassage(name, jobId, io);
  if (!job.ok) {
    reportProblems(io, job.problems);
    return 1;
  }
  const library = job.value.from === null ? null : libraryJob(job.value.from);
  const differences = library === null ? null : differencesFrom(library, job.value);
  const text = `${jobCardText(job.value)}${differences === null ? '' : differencesText(differences)}`;
  io.out(given.flags.has('json') ? `${JSON.stringify({ job: job.value, differences }, null, 2)}\n` : text);
  return 0;
}

function ofLibrary(id: string): Result<Job> {
  const job = libraryJob(id);
  const of = { code: 'jobs.library-unknown', kind: 'library job', name: id, known: libraryJobIds };
  return job === null ? failed(unknownName(of, id)) : ok(job);
}

async function ofPassage(file: string, jobId: string, io: CommandIo): Promise<Result<Job>> {
  const passage = await readPassageFile(file, io);
  if (!passage.ok) return passage;
  const job = passage.value.jobs.find(({ id }) => id === jobId);
  const known = passage.value.jobs.map(({ id }) => id);
  const of = { code: 'jobs.job-unknown', kind: 'job of this passage', name: jobId, known };
  return job === undefined ? failed(unknownName(of, `--job ${jobId}`)) : ok(job);
}
