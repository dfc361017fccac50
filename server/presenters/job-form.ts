import { JOB_DEFAULTS, type Job, type JobFile, makeJob, type Step, STEP_DEFAULTS } from '../../lib/jobs/index.ts';
import type { FieldGroup } from './job-field.ts';
import { allJobGroups, type FormSurroundings, type JobGroups, jobGroups } from './job-fields.ts';
import { allGroups, type StepGroups, stepGroups } from './job-step-fields.ts';

/** A step of the form, in its order. */
export interface StepSlot {
  readonly id: string;
  /** null: a step of the job. Else it is new: empty, a blank one; or made from the step of this id. */
  readonly of: string | null;
}

/** All inputs of a job. */
export interface JobForm {
  /** Without limits of its own for all steps at once: those have inputs of their own. */
  readonly job: Job;
  readonly groups: JobGroups;
  readonly steps: readonly FormPart[];
}

export interface FormPart {
  readonly slot: StepSlot;
  readonly step: Step;
  readonly groups: StepGroups;
}

/** An entry that is not in the passage yet: nothing is said. */
export const BLANK_ENTRY: JobFile = { id: 'new' };

/**
 * The form of an entry.
 *
 * @param entry one that makes a job, or `BLANK_ENTRY`
 * @param slots its steps as the form has them; null: as the job has them
 */
export function jobForm(entry: JobFile, slots: readonly StepSlot[] | null, around: FormSurroundings): JobForm {
  const job = bareJob(entry);
  const parts = slots ?? slotsOf(job);
  return {
    job,
    groups: jobGroups(job, entry, around),
    steps: parts.map((slot) => {
      const step = stepIn(job, slot);
      return {
        slot,
        step,
        groups: stepGroups(
          { step, isBlank: slot.of === '', isSeam: slot.of === null && job.seam?.stepId === slot.id },
          around.sailStates,
        ),
      };
    }),
  };
}

/** The slots a job has by itself. */
export const slotsOf = ({ steps }: Job): readonly StepSlot[] => steps.map(({ id }) => ({ id, of: null }));

/** Every group of a form, job first. */
export const formGroups = ({ groups, steps }: JobForm): readonly FieldGroup[] => [
  ...allJobGroups(groups),
  ...steps.flatMap((part) => allGroups(part.groups)),
];

/** The job with the limits each step has by itself. */
export function bareJob(whole: JobFile): Job {
  const { limits: _, ...entry } = whole;
  if (entry.id === BLANK_ENTRY.id && entry.name === undefined && entry.from === undefined)
    return { ...JOB_DEFAULTS, id: entry.id, name: '' };
  const made = makeJob(entry, 'form');
  if (!made.ok) throw new Error(made.problems[0].what);
  return made.value;
}

function stepIn(job: Job, { id, of }: StepSlot): Step {
  const step = job.steps.find((one) => one.id === (of === null ? id : of));
  if (step === undefined)
    return { ...STEP_DEFAULTS, id, name: '', place: 'deck', work: { leastMin: 0, likelyMin: 0, mostMin: 0 } };
  // Half of a step that goes by a rate: its minutes are written out.
  return of === null ? step : { ...step, id, rate: null };
}
