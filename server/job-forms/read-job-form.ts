import { type JobFile, jobFile, makeJob } from '../../lib/jobs/index.ts';
import { sentText } from '../presenters/job-field.ts';
import type { FormSurroundings } from '../presenters/job-fields.ts';
import { bareJob, formGroups, type JobForm, jobForm, type StepSlot } from '../presenters/job-form.ts';

/** What of a form is read here. */
export interface SentFields {
  readonly text: (name: string) => string;
  readonly all: (name: string) => readonly string[];
  readonly has: (name: string) => boolean;
}

/** A form that was sent. */
export interface SentForm {
  /** The entry its page was made from. */
  readonly baseEntry: JobFile;
  /** Its inputs with the steps that were sent, as `baseEntry` shows them. */
  readonly base: JobForm;
  /** What was entered, by the name of the input. */
  readonly values: ReadonlyMap<string, string>;
}

/**
 * Reads a form of a job. Inputs that were not sent stay as they were shown.
 *
 * @param entry of the passage as it is now; it stands in where the form does not say what its page was made from
 */
export function readJobForm(sent: SentFields, entry: JobFile, around: FormSurroundings): SentForm {
  const baseEntry = entryOf(sent.text('base')) ?? entry;
  const base = jobForm(baseEntry, slotsOf(sent, baseEntry), around);
  const values = new Map(
    formGroups(base).flatMap(({ fields, shown }) =>
      fields.map((field, index): [string, string] => [
        field.name,
        sent.has(field.name) ? sentText(field, sent.all(field.name)) : (shown[index] ?? ''),
      ]),
    ),
  );
  return { baseEntry, base, values };
}

/** An entry that makes a job, or null. */
function entryOf(text: string): JobFile | null {
  try {
    const read = jobFile.safeParse(JSON.parse(text));
    return read.success && makeJob(read.data, 'form').ok ? read.data : null;
  } catch {
    return null;
  }
}

const STEP_ID = /^[A-Za-z0-9][A-Za-z0-9_-]{0,59}$/;
const MOST_STEPS = 40;

/** Steps as they were sent, each once; null: the form says nothing of them. */
function slotsOf(sent: SentFields, baseEntry: JobFile): readonly StepSlot[] | null {
  if (!sent.has('step')) return null;
  const known = bareJob(baseEntry).steps.map(({ id }) => id);
  const ids = [...new Set(sent.all('step'))].filter((id) => STEP_ID.test(id)).slice(0, MOST_STEPS);
  return ids.flatMap((id): StepSlot[] => {
    if (known.includes(id)) return [{ id, of: null }];
    const of = sent.text(`of.${id}`);
    return sent.has(`of.${id}`) ? [{ id, of: known.includes(of) ? of : '' }] : [];
  });
}
