import type { LibraryJob } from './library-job.ts';
import { JOB_LIBRARY } from './library.table.ts';

/** Ids of the library jobs, in its order. */
export const libraryJobIds: readonly string[] = JOB_LIBRARY.map((job) => job.id);

/** A library job by its id, or null. */
export const libraryJob = (id: string): LibraryJob | null => JOB_LIBRARY.find((job) => job.id === id) ?? null;
