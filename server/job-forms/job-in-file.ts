import { type Job, type JobFile, libraryEntry } from '../../lib/jobs/index.ts';
import type { Passage, PassageFile } from '../../lib/passage/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import type { FormSurroundings } from '../presenters/job-fields.ts';
import { type JobForm, jobForm } from '../presenters/job-form.ts';

/** A job of the passage that is shown. */
export interface FoundJob {
  readonly entry: JobFile;
  readonly job: Job;
  /** Its place in the list. */
  readonly index: number;
}

/** null: the passage has no such job. */
export function findJob(file: PassageFile, passage: Passage, jobId: string): FoundJob | null {
  const index = (file.jobs ?? []).findIndex(({ id }) => id === jobId);
  const entry = file.jobs?.[index];
  const job = passage.jobs.find(({ id }) => id === jobId);
  return entry === undefined || job === undefined ? null : { entry, job, index };
}

/** What the form of a job chooses among. */
export const surroundingsOf = ({ jobs, boat, settings }: Passage, jobId: string): FormSurroundings => ({
  jobs: jobs.filter(({ id }) => id !== jobId).map(({ id, name }) => ({ value: id, text: name })),
  handlings: boat.handlings.map(({ id, name }) => ({ value: id, text: name })),
  sailStates: boat.sailStates.map(({ id, name }) => ({ value: id, text: name })),
  shipTimeOffsetMin: settings.shipTimeOffsetMin,
});

/** The form of the library job an entry is made from; null: it is the user's own. */
export function libraryForm({ from }: JobFile, around: FormSurroundings): JobForm | null {
  const entry = from === undefined ? null : libraryEntry(from);
  return entry === null ? null : jobForm(entry, null, around);
}

/** The place inside the entry that a problem names; null: it is about something else. */
export function placeInEntry({ where }: Problem, index: number): string | null {
  const [, number, place] = /, jobs\[(\d+)\]\.(.+)$/.exec(where) ?? [];
  return Number(number) === index && place !== undefined ? place : null;
}
