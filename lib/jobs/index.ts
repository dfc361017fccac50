export type { BackgroundWait, Job, MaterialNeed, Place, SessionRule, Step, StepLimits, WorkMinutes } from './job.ts';
