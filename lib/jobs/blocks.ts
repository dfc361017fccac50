import type { BackgroundWait, Job, SessionRule, Step } from './job.ts';
import { durationQuantiles, pertDuration, sumDuration } from './pert.ts';

/** Steps worked in one go: up to a safe point, a background wait or the end of the job. */
export interface Block {
  readonly jobId: string;
  /** 0-based place in the job. */
  readonly index: number;
  readonly steps: readonly [Step, ...Step[]];
  /**
   * How the work is divided where every step can be stopped anywhere: the strictest rule of its steps, else the default.
   * Null: an unbroken core, worked in one go.
   */
  readonly session: SessionRule | null;
  /** Background wait after it; null: none. */
  readonly waitAfter: BackgroundWait | null;
  /** What is set once the block is done; null: as before. */
  readonly sailStateAfter: string | null;
  /** Needles, oil and cloth it takes, all steps together. */
  readonly materials: Step['materials'];
}

/** Minutes of a block at library pace: mean, spread, and what half, four fifths and nine tenths of tries stay within. */
export interface BlockMinutes {
  readonly meanMin: number;
  readonly sdMin: number;
  readonly p50Min: number;
  readonly p80Min: number;
  readonly p90Min: number;
}

/** Sessions where a job does not say otherwise; engineering choice, no source. */
export const DEFAULT_SESSION: SessionRule = {
  longestMin: 90,
  restMin: 20,
  leastUsefulMin: 30,
  resumeMin: 5,
  makeSafeMin: 10,
};

/** The blocks of a job, in order; every step is in exactly one. */
export function blocksOf(job: Job): readonly Block[] {
  const blocks: Block[] = [];
  let open: Step[] = [];
  for (const [index, step] of job.steps.entries()) {
    open.push(step);
    const ends = step.safePointAfter || step.waitAfter !== null || index === job.steps.length - 1;
    const [first, ...rest] = open;
    if (!ends || first === undefined) continue;
    blocks.push(blockFrom(job.id, blocks.length, [first, ...rest]));
    open = [];
  }
  return blocks;
}

function blockFrom(jobId: string, index: number, steps: Block['steps']): Block {
  return {
    jobId,
    index,
    steps,
    session: steps.every((step) => step.stop === 'anywhere') ? strictestSession(steps) : null,
    waitAfter: steps.at(-1)?.waitAfter ?? null,
    sailStateAfter: steps.findLast((step) => step.sailStateAfter !== null)?.sailStateAfter ?? null,
    materials: steps.flatMap((step) => step.materials),
  };
}

/** Where steps of one block have different session rules: the shortest session, the longest rest. */
function strictestSession(steps: readonly Step[]): SessionRule {
  const rules = steps.flatMap((step) => (step.session === null ? [] : [step.session]));
  const [first, ...rest] = rules;
  if (first === undefined) return DEFAULT_SESSION;
  return rest.reduce(
    (strictest, rule) => ({
      longestMin: Math.min(strictest.longestMin, rule.longestMin),
      restMin: Math.max(strictest.restMin, rule.restMin),
      leastUsefulMin: Math.max(strictest.leastUsefulMin, rule.leastUsefulMin),
      resumeMin: Math.max(strictest.resumeMin, rule.resumeMin),
      makeSafeMin: Math.max(strictest.makeSafeMin, rule.makeSafeMin),
    }),
    first,
  );
}

/** Minutes of a block: PERT steps correlated 0.5; see `sumDuration` and `durationQuantiles` for what is approximated. */
export function blockMinutes(block: Pick<Block, 'steps'>): BlockMinutes {
  const duration = sumDuration(block.steps.map((step) => pertDuration(step.work)));
  return { meanMin: duration.meanMin, sdMin: duration.sdMin, ...durationQuantiles(duration) };
}
