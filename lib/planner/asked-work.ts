import type { Block, Job } from '../jobs/index.ts';
import { blocksOf } from '../jobs/index.ts';
import type { Problem, Result } from '../result/index.ts';
import { didYouMean, failed, ok } from '../result/index.ts';
import type { BlockWork, SparseTable } from '../windows/index.ts';
import { blockSailStates, sparseTable, wholeBlockMin, workingSailState } from '../windows/index.ts';
import type { Preparation } from './prepare.ts';
import { tableSettings } from './prepare.ts';

/** One block of a job under one handling. */
export interface AskedBlock {
  readonly jobId: string;
  /** 0-based place of the block in the job. */
  readonly blockIndex: number;
  readonly handlingId: string;
}

/** The block asked for, as windows are searched for it: on the nominal track, boat settled, worker fresh. */
export interface AskedWork {
  readonly job: Job;
  readonly block: Block;
  readonly work: BlockWork;
  /** Judged against the limits as they stand; start slots are judged when first asked for. */
  readonly table: SparseTable;
}

const kept = new WeakMap<Preparation, Map<string, SparseTable>>();

/**
 * Finds what was asked for in a passage.
 *
 * @returns `windows.job-unknown`, `windows.block-unknown`, `windows.handling-unknown` or `windows.handling-without-sail`
 */
export function askedWork(preparation: Preparation, asked: AskedBlock): Result<AskedWork> {
  const { passage } = preparation;
  const job = passage.jobs.find(({ id }) => id === asked.jobId);
  if (job === undefined) return failed(unknownJob(asked.jobId, passage.jobs));
  const blocks = blocksOf(job);
  const block = blocks[asked.blockIndex];
  if (block === undefined) return failed(unknownBlock(asked.blockIndex, job, blocks.length));
  const handling = passage.boat.handlings.find(({ id }) => id === asked.handlingId);
  if (handling === undefined || !job.handlings.includes(asked.handlingId)) {
    return failed(unknownHandling(asked.handlingId, job));
  }
  const sailStateId = workingSailState(blockSailStates(job, block.index), passage.start.sailStateId);
  if (!handling.sailStates.includes(sailStateId)) {
    return failed(withoutSail(handling, sailStateId));
  }
  const wholeMin = wholeBlockMin(block);
  const workMin = block.session === null ? wholeMin : Math.min(block.session.leastUsefulMin, wholeMin);
  const work: BlockWork = { block, handling, sailStateId, workMin, resumeMin: 0, tiredRatio: 1 };
  return ok({ job, block, work, table: tableOf(preparation, asked, work) });
}

function tableOf(preparation: Preparation, asked: AskedBlock, work: BlockWork): SparseTable {
  const tables = kept.get(preparation) ?? new Map<string, SparseTable>();
  kept.set(preparation, tables);
  const key = JSON.stringify([asked.jobId, asked.blockIndex, asked.handlingId]);
  const table =
    tables.get(key) ??
    sparseTable(work, preparation.lag.conditionsAt(0), tableSettings(preparation.passage, preparation.weather, 1));
  tables.set(key, table);
  return table;
}

function unknownJob(jobId: string, jobs: readonly Job[]): Problem {
  const ids = jobs.map(({ id }) => id);
  const near = didYouMean(jobId, ids);
  return {
    code: 'windows.job-unknown',
    where: 'job',
    what: `The passage has no job "${jobId}".`,
    expected: ids.length === 0 ? 'a job of the passage, which has none' : `one of ${ids.join(', ')}`,
    remedy: near === null ? 'Choose a job from the list.' : `Did you mean "${near}"?`,
  };
}

const unknownBlock = (blockIndex: number, job: Job, blockCount: number): Problem => ({
  code: 'windows.block-unknown',
  where: 'part',
  what: `"${job.name}" has no part ${blockIndex + 1}.`,
  expected: blockCount === 1 ? 'part 1' : `a part from 1 to ${blockCount}`,
  remedy: 'Choose a part from the list.',
});

function unknownHandling(handlingId: string, job: Job): Problem {
  const near = didYouMean(handlingId, job.handlings);
  return {
    code: 'windows.handling-unknown',
    where: 'handling',
    what: `"${job.name}" is not worked under a handling "${handlingId}".`,
    expected: `one of ${job.handlings.join(', ')}`,
    remedy: near === null ? 'Choose a handling from the list.' : `Did you mean "${near}"?`,
  };
}

const withoutSail = (handling: { name: string; sailStates: readonly string[] }, sailStateId: string): Problem => ({
  code: 'windows.handling-without-sail',
  where: 'handling',
  what: `"${handling.name}" does not exist with the sail this part is worked under (${sailStateId}).`,
  expected: `one of the sails ${handling.sailStates.join(', ')}`,
  remedy: 'Choose another handling.',
});
