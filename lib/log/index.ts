export type { JobEventFile, LogEntryFile, NumberedEntry, ObservationFile, SleepFile, StatementFile } from './entry.ts';
export { logEntryFile } from './entry.ts';
export { formatLogEntry, readLogEntry } from './read-entry.ts';
export { parseLog, readLog, type LogRead, type TornLine } from './read-log.ts';
export { effectiveEntries, instantOf, logRows, type EffectiveEntry, type LogRow } from './effective.ts';
export { appendProblems, logProblems, type Appending } from './entry-problems.ts';
export { trueWindOf, type ObservedWind } from './true-wind.ts';
export type { FinishedStep, JobState } from './job-state.ts';
export { jobStates, type JobStateOptions } from './job-states.ts';
export { jobStateWords } from './job-state-words.ts';
export { mergedSleeps, type MergedSleeps } from './sleeps.ts';
export type { LogNote } from './log-note.ts';
export { passageAfterLog, type AfterLogOptions, type PassageAfterLog } from './passage-after-log.ts';
export { entryWords } from './entry-words.ts';
export { logCsv } from './log-csv.ts';
export {
  adjustByLog,
  type Agreement,
  type BarometerOffset,
  type ComparedForecast,
  type ForecastMatch,
  matchForecast,
  type MatchOptions,
  matchText,
  type QuantityMatch,
  seenByLog,
  seenOfLog,
  type SeenOfLog,
  type SeenQuantity,
  type SeenTiming,
  type SeenWeather,
} from './match/index.ts';
export type { LeftOut, MeasureOptions, WorkMeasure } from './pace/measures.ts';
export type { OwnPace, OwnPaceOptions } from './pace/own-paces.ts';
export type { PlanWithFactors } from './pace/planned-factors.ts';
export { weighedAfterLog, type WeighedAfterLog } from './weighed-after-log.ts';
