export type {
  BackgroundWait,
  CheckAfter,
  Job,
  JobGroup,
  JobSeam,
  MaterialNeed,
  Place,
  SessionRule,
  Step,
  StepLimits,
  WorkMinutes,
  WorkRate,
} from './job.ts';
export { blockMinutes, blocksOf, DEFAULT_SESSION, type Block, type BlockMinutes } from './blocks.ts';
export { normalQuantile } from './normal.ts';
export { pertDrawMin, pertQuantileMin } from './pert-draw.ts';
export { durationQuantiles, pertDuration, sumDuration, type Duration } from './pert.ts';
export { goesByAir, waitP80H, waitRateRatio } from './waits.ts';
export { freeId } from './free-id.ts';
export { stopNumbersOf, type StopNumbers } from './stop-numbers.ts';
export { precedenceProblems, type Ordered } from './precedence.ts';
export { JOB_DEFAULTS, NO_LIMITS, STEP_DEFAULTS, WAIT_DEFAULTS } from './defaults.ts';
export { JOB_LIBRARY, libraryEntry, libraryJob, libraryJobIds, makeJob } from './library/library.ts';
export { COMMON_PRACTICE, OUR_DEFAULT, OWN_FIGURE, provenanceOf } from './provenance.ts';
export { jobFile, type JobFile } from './job-file.ts';
export { missing, unknownName } from './unknown-name.ts';
export { type Chain, type ChainLink } from './chains/chain.ts';
export { chainJobs, chainOf, type ChainChoice } from './chains/chain-jobs.ts';
export { CHAINS } from './chains/chains.table.ts';
export { differencesFrom, type Difference } from './differences.ts';
export { proposalsFor, type ProposalInput } from './proposals/propose.ts';
export { sailDropOf, type SailDrop } from './proposals/sail-drop.ts';
export { type Proposal } from './proposals/proposal.ts';
export { readinessOf, type JobReadiness, type ReadinessInput, type ReadinessStatus } from './readiness/readiness.ts';
export type { ReadinessFinding } from './readiness/finding.ts';
export { readinessWords, type ReadinessWords } from './readiness/readiness-text.ts';
export { toolsLeft } from './readiness/needs.ts';
export { SUBSTITUTES, type Substitute } from './readiness/substitutes.table.ts';
export { damageJobs, type DamageJobsChoice } from './damage-jobs.ts';
export { materialsLeft } from './readiness/needs.ts';
