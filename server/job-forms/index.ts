/** Forms of jobs: what was entered, as changes of the passage file. The only door of this folder. */
export {
  chainAsEntries,
  copyOf,
  libraryAsEntry,
  OTHERS_AFTER,
  proposalKey,
  readEntry,
  readEntryText,
  withAdded,
  withEntry,
  withMovedJob,
  withoutJob,
  withProposal,
} from './change-jobs.ts';
export {
  type EditedJob,
  editedJob,
  fileWithForm,
  newJob,
  newJobId,
  placedProblems,
  untouchedForm,
} from './edited-job.ts';
export { findJob, type FoundJob } from './job-in-file.ts';
export { type MergedForm, mergedForm } from './merge-form.ts';
export { givenBack, jobOf, type OwnFigure, ownFigures } from './own-figures.ts';
export { readJobForm, type SentFields, type SentForm } from './read-job-form.ts';
export { moveSteps, type StepMove, stepMoveOf } from './step-moves.ts';
