import type { Job } from '../job.ts';
import type { JobFile } from '../job-file.ts';
import { jobOver, type JobLibrary } from '../make-job.ts';
import type { Result } from '../../result/index.ts';
import { LIBRARY_ENTRIES } from './entries.ts';

const NO_LIBRARY: JobLibrary = { ids: [], find: () => null };

/** Library jobs by their ids, in the order of the library. Its entries go through the same making as those of a passage. */
const jobs: ReadonlyMap<string, Job> = new Map(
  LIBRARY_ENTRIES.map((entry) => {
    const made = jobOver(NO_LIBRARY, entry, entry.id);
    if (!made.ok) throw new Error(`library job ${entry.id}: ${made.problems[0].what}`);
    return [entry.id, made.value];
  }),
);

/** The jobs Slatch knows: for a lone hand on an ocean yacht of 10 to 20 m, in the order of their groups. */
export const JOB_LIBRARY: readonly Job[] = [...jobs.values()];

/** Ids of the library jobs, in its order. */
export const libraryJobIds: readonly string[] = [...jobs.keys()];

/** The entry a library job is made from, or null: a start for a job of one's own. */
export const libraryEntry = (id: string): JobFile | null => LIBRARY_ENTRIES.find((entry) => entry.id === id) ?? null;

/** A library job by its id, or null. */
export const libraryJob = (id: string): Job | null => jobs.get(id) ?? null;

/** A job from its entry in a passage file, figures of the library filled in; problems as `jobOver`. */
export const makeJob = (file: JobFile, where: string): Result<Job> =>
  jobOver({ ids: libraryJobIds, find: libraryJob }, file, where);
