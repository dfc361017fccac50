export type { BackgroundWait, Job, MaterialNeed, Place, SessionRule, Step, StepLimits, WorkMinutes } from './job.ts';
export { blockMinutes, blocksOf, DEFAULT_SESSION, type Block, type BlockMinutes } from './blocks.ts';
export { durationQuantiles, pertDuration, STEP_CORRELATION_RATIO, sumDuration, type Duration } from './pert.ts';
export { precedenceProblems, type Ordered } from './precedence.ts';
export { NO_LIMITS, STEP_DEFAULTS, type LibraryJob } from './library-job.ts';
export { libraryJob, libraryJobIds } from './library.ts';
export { JOB_LIBRARY } from './library.table.ts';
