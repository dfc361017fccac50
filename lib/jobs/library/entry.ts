import type { JobFile } from '../job-file.ts';
import type { JobGroup } from '../job.ts';

type OfAPassage =
  | 'from'
  | 'priority'
  | 'after'
  | 'notBeforeUtc'
  | 'finishByUtc'
  | 'startUtc'
  | 'lockHandling'
  | 'done'
  | 'doneSteps'
  | 'doneMin'
  | 'minutes'
  | 'amounts'
  | 'limits'
  | 'session';

/** A job of the library: an entry as a passage file has it, complete, and without its place in a passage. */
export type LibraryEntry = Omit<JobFile, OfAPassage> &
  Required<Pick<JobFile, 'name' | 'sailStates' | 'handlings' | 'cautions' | 'provenance'>> & {
    readonly group: JobGroup;
    readonly steps: NonNullable<JobFile['steps']>;
  };
