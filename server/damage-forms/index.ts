export {
  reportOf,
  sailPlace,
  TEARS_THERE,
  withoutSail,
  withoutTear,
  withSail,
  withTear,
  type Place,
  type TearPlace,
} from './change-sails.ts';
export { battenFields, battenTexts, SAIL_FIELDS, TEAR_FIELDS } from './sail-fields.ts';
export { jobsMade, tearEntries, withTearJobs, type TearEntries, type TearJobs } from './tear-jobs.ts';
