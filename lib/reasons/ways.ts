import type { Block, Job } from '../jobs/index.ts';
import { blocksOf } from '../jobs/index.ts';
import type { BlockWork, WindowSearch } from '../windows/index.ts';
import { blockSailStates, wholeBlockMin, workingSailState } from '../windows/index.ts';

/** The ways a block may be worked on the nominal voyage, as the window search works it: one for each handling. */
export function waysOf(job: Job, block: Block, search: Pick<WindowSearch, 'handlings' | 'sailStateId'>): BlockWork[] {
  const sailStateId = workingSailState(blockSailStates(job, block.index), search.sailStateId);
  const wholeMin = wholeBlockMin(block);
  const workMin = block.session === null ? wholeMin : Math.min(block.session.leastUsefulMin, wholeMin);
  return job.handlings.flatMap((id) => {
    const handling = search.handlings.find((known) => known.id === id);
    if (handling === undefined || !handling.sailStates.includes(sailStateId)) return [];
    return [{ block, handling, sailStateId, workMin, resumeMin: 0, tiredRatio: 1 }];
  });
}

/** A block as a job of its own, in the sail state its job would be in by then. */
export function blockAsJob(job: Job, blockIndex: number): Job | null {
  const block = blocksOf(job)[blockIndex];
  return block === undefined ? null : { ...job, steps: block.steps, sailStates: blockSailStates(job, blockIndex) };
}
