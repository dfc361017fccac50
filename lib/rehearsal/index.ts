export type { DrawKey, DrawSettings } from './duration-scores.ts';
export { durationScores } from './duration-scores.ts';
export type {
  EntryRehearsal,
  JobRehearsal,
  LimitScan,
  Rehearsal,
  RehearsalEntry,
  RehearsalSettings,
  RehearsedStep,
} from './rehearsal.ts';
export { rehearse } from './rehearse.ts';
export { SOBOL_DIMENSION_COUNT, sobolPoints } from './sobol.ts';
