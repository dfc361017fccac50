export {
  sailPlace,
  withoutSail,
  withoutTear,
  withSail,
  withTear,
  withTearJobs,
  type TearJobs,
} from './change-sails.ts';
export { BATTEN_STATES, SAIL_FIELDS, TEAR_FIELDS } from './sail-fields.ts';
