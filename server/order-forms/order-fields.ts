import { choice, type EntryField, field, type FieldOption } from '../entry-forms/index.ts';

/** Keys of a job's entry that are instants, in the order in which they follow one another. */
export const ORDER_INSTANTS = ['startUtc', 'notBeforeUtc', 'finishByUtc'] as const;

/** What is fixed about a job; instants are written in ship's time. */
export const orderFields = (handlings: readonly FieldOption[]): readonly EntryField[] => [
  field(['startUtc'], 'Starts exactly at', {
    kind: 'line',
    section: 'Locked',
    hint: 'Ship’s time. The plan has it then or not at all. Empty: the plan chooses.',
  }),
  choice(['lockHandling'], 'Worked only under', [{ value: '', text: 'what the plan chooses' }, ...handlings]),
  field(['notBeforeUtc'], 'Not before', {
    kind: 'line',
    section: 'Bounds',
    hint: 'Ship’s time. Empty: as soon as it fits.',
  }),
  field(['finishByUtc'], 'Finished by', {
    kind: 'line',
    hint: 'Ship’s time. Finished by then, or not planned. Empty: at any time.',
  }),
];

/** Value of the choice `job` of `FORBID_FIELDS`. */
export const EVERY_JOB = 'every';

/** Hours in which nothing is worked, in ship's time. */
export const FORBID_FIELDS: readonly EntryField[] = [
  field(['fromUtc'], 'No work from', { kind: 'line', hint: 'Ship’s time.' }),
  field(['toUtc'], 'Until', { kind: 'line', hint: 'Ship’s time.' }),
  choice(['job'], 'Whom it binds', [
    { value: '', text: 'this job only' },
    { value: EVERY_JOB, text: 'every job' },
  ]),
];
