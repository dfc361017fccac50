import { type JobFile, makeJob } from '../../lib/jobs/index.ts';
import type { Passage, PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import type { FormSurroundings } from '../presenters/job-fields.ts';
import { BLANK_ENTRY, type JobForm } from '../presenters/job-form.ts';
import { freeJobId, readEntry, withAdded, withEntry } from './change-jobs.ts';
import { type FoundJob, libraryForm, placeInEntry, surroundingsOf } from './job-in-file.ts';
import { readJobForm, type SentFields, type SentForm } from './read-job-form.ts';
import { moveSteps } from './step-moves.ts';
import { writeJobForm } from './write-job-form.ts';

/** A job whose form is filled in: one of the passage, or one to be added. */
export interface EditedJob {
  readonly isNew: boolean;
  /** As the passage has it; of a new one, what its form begins with. */
  readonly entry: JobFile;
  /** Its place in the list of jobs. */
  readonly index: number;
  /** The passage, as its problems name it. */
  readonly where: string;
  readonly around: FormSurroundings;
  /** Inputs as the library job shows them; null: it is the user's own. */
  readonly library: JobForm | null;
}

interface Shown {
  readonly number: number;
  readonly passage: Passage;
  readonly file: PassageFile;
}

const whereOf = ({ number }: Pick<Shown, 'number'>): string => `passage ${number}`;

export function editedJob(document: Shown, { entry, index }: FoundJob): EditedJob {
  const around = surroundingsOf(document.passage, entry.id);
  return { isNew: false, entry, index, where: whereOf(document), around, library: libraryForm(entry, around) };
}

/** @param entry what its form begins with; `BLANK_ENTRY`: nothing is said yet */
export function newJob(document: Shown, entry: JobFile): EditedJob {
  const around = surroundingsOf(document.passage, '');
  const index = document.file.jobs?.length ?? 0;
  return { isNew: true, entry, index, where: whereOf(document), around, library: libraryForm(entry, around) };
}

const NOTHING_SENT: SentFields = { text: () => '', all: () => [], has: () => false };

/** The form before anything is entered; a new job begins with one empty step. */
export function untouchedForm({ entry, around }: EditedJob): SentForm {
  const form = readJobForm(NOTHING_SENT, entry, around);
  return form.base.steps.length > 0 ? form : moveSteps(form, { kind: 'add' }, around);
}

/** The file with what was entered; or every problem found in the form and the shape of what it makes. */
export function fileWithForm(file: PassageFile, sent: SentForm, edited: EditedJob): Result<PassageFile> {
  const { entry, index, where } = edited;
  const written = writtenOf(sent, edited);
  const read = readEntry(written.entry, where, index);
  const made = read.ok && written.problems.length > 0 ? makeJob(read.value, `${where}, jobs[${index}]`) : read;
  const problems: readonly Problem[] = [...written.problems, ...(made.ok ? [] : made.problems)];
  const [first, ...rest] = problems;
  if (first !== undefined) return failed(first, ...rest);
  if (!read.ok) return read;
  if (!edited.isNew) return ok(withEntry(file, entry.id, read.value));
  return ok(withAdded(file, [{ ...read.value, id: newJobId(file, sent, edited) }]));
}

/** Id a new job gets: of its name, or of the job it was. */
export const newJobId = (file: PassageFile, { values }: SentForm, { entry }: EditedJob): string =>
  freeJobId(entry.id === BLANK_ENTRY.id ? (values.get('name') ?? '') : entry.id, file);

function writtenOf(sent: SentForm, { entry, index, where, library }: EditedJob): ReturnType<typeof writeJobForm> {
  return writeJobForm({ entry, sent, library, where: `${where}, jobs[${index}]` });
}

/** An object that does not fit is several inputs: what stands in them is seen. */
const inWords = (problem: Problem): Problem =>
  /^[{[].* does not fit\.$/s.test(problem.what) ? { ...problem, what: 'These do not fit together.' } : problem;

/** Problems, each with the input it belongs to. */
export function placedProblems(
  problems: readonly Problem[],
  sent: SentForm,
  edited: EditedJob,
): readonly { readonly problem: Problem; readonly input: string | null }[] {
  const { inputAt } = writtenOf(sent, edited);
  return problems.map((problem) => {
    const place = placeInEntry(problem, edited.index);
    return { problem: inWords(problem), input: place === null ? null : inputAt(place) };
  });
}
