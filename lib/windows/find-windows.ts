import type { Handling } from '../boat/index.ts';
import type { Block, Job } from '../jobs/index.ts';
import { blocksOf } from '../jobs/index.ts';
import type { Conditions } from '../voyage/index.ts';
import type { BlockTable, BlockWork, TableSettings } from './block-table.ts';
import { blockTable, wholeBlockMin } from './block-table.ts';
import { LIMIT_IDS } from './limit-rules.ts';
import type { LimitMargin } from './margins.ts';
import { stepMargins, tightestFirst } from './margins.ts';

/** An interval of start times from which a block's core and its contingency fit, under one handling. Slots, both ends included. */
export interface BlockWindow {
  readonly jobId: string;
  readonly blockIndex: number;
  readonly handlingId: string;
  readonly sailStateId: string;
  readonly firstStartSlot: number;
  readonly lastStartSlot: number;
  readonly bestStartSlot: number;
  /** Share of scenario weight inside every known limit, at the best start. */
  readonly probability: number;
  /** Tightest limit at the best start in the median scenario; null: the block has no known limit. */
  readonly binding: LimitMargin | null;
  readonly margins: readonly LimitMargin[];
  readonly plannedMin: number;
  readonly referenceSlots: number;
  readonly conditional: boolean;
  readonly unknownLimits: readonly string[];
}

export interface WindowSearch {
  readonly handlings: readonly Handling[];
  /** What is set when the search begins; a job that needs another state is searched in the first it names. */
  readonly sailStateId: string;
  readonly conditions: Conditions;
  readonly settings: TableSettings;
  readonly wantedProbability: number;
  /** First slot work may start in. */
  readonly fromSlot: number;
}

export interface JobWindows {
  readonly jobId: string;
  /** Unconditional ones first, then by first start. */
  readonly windows: readonly BlockWindow[];
  /** Best start of each block that has no window. */
  readonly nearestMisses: readonly BlockWindow[];
}

/** All windows of a job on the nominal track; blocks of it stand apart, since a safe point lies between them. */
export function findWindows(job: Job, search: WindowSearch): JobWindows {
  const windows: BlockWindow[] = [];
  const nearestMisses: BlockWindow[] = [];
  for (const block of blocksOf(job)) {
    const found = blockWindows(job, block, search);
    windows.push(...found.windows);
    if (found.windows.length === 0 && found.nearest !== null) nearestMisses.push(found.nearest);
  }
  windows.sort(
    (a, b) =>
      Number(a.conditional) - Number(b.conditional) ||
      a.blockIndex - b.blockIndex ||
      a.firstStartSlot - b.firstStartSlot,
  );
  return { jobId: job.id, windows, nearestMisses };
}

function blockWindows(
  job: Job,
  block: Block,
  search: WindowSearch,
): { windows: BlockWindow[]; nearest: BlockWindow | null } {
  const windows: BlockWindow[] = [];
  let nearest: BlockWindow | null = null;
  for (const work of windowWorks(job, block, search)) {
    const table = blockTable(work, search.conditions, search.settings);
    windows.push(...fairRuns(table, search).map((run) => windowAt({ job, work, table, search }, run)));
    const miss = bestStart(table, search.fromSlot);
    if (miss === null) continue;
    const candidate = windowAt({ job, work, table, search }, { firstSlot: miss, lastSlot: miss });
    if (nearest === null || candidate.probability > nearest.probability) nearest = candidate;
  }
  return { windows, nearest };
}

/** The ways a block may be worked: its handlings, in the sail state it needs. */
function windowWorks(job: Job, block: Block, search: Pick<WindowSearch, 'handlings' | 'sailStateId'>): BlockWork[] {
  const sailStateId = workingSailState(blockSailStates(job, block.index), search.sailStateId);
  return job.handlings.flatMap((id) => {
    const handling = search.handlings.find((known) => known.id === id);
    if (handling === undefined || !handling.sailStates.includes(sailStateId)) return [];
    const wholeMin = wholeBlockMin(block);
    const workMin = block.session === null ? wholeMin : Math.min(block.session.leastUsefulMin, wholeMin);
    return [{ block, handling, sailStateId, workMin, resumeMin: 0, tiredRatio: 1 }];
  });
}

/** The state a block is worked in: the present one where it will do, else the first it may be worked in. */
export function workingSailState(allowedIds: readonly string[], presentId: string): string {
  if (allowedIds.length === 0 || allowedIds.includes(presentId)) return presentId;
  return allowedIds[0] ?? presentId;
}

/** Sail states a block may be worked in; empty: any. Once the job itself has changed what is set, that is its state. */
export function blockSailStates(job: Job, blockIndex: number): readonly string[] {
  const changes = blocksOf(job)
    .slice(0, blockIndex)
    .flatMap((block) => block.sailStateAfter ?? []);
  const last = changes.at(-1);
  return last === undefined ? job.sailStates : [last];
}

interface Run {
  readonly firstSlot: number;
  readonly lastSlot: number;
}

/** Runs of start slots that are fair, split where the set of unknown limits changes. */
function fairRuns(table: BlockTable, search: WindowSearch): Run[] {
  const neededWeight = search.wantedProbability * totalWeight(search.settings.weights);
  const isFair = (i: number): boolean =>
    (table.referenceSlots[i] ?? 0) > 0 && (table.weight[i] ?? 0) >= neededWeight - 1e-6 && (table.weight[i] ?? 0) > 0;
  const runs: Run[] = [];
  for (let i = search.fromSlot; i < table.weight.length; i++) {
    if (!isFair(i)) continue;
    const last = runs.at(-1);
    const joins = last?.lastSlot === i - 1 && table.unknownBits[i] === table.unknownBits[i - 1];
    if (last && joins) runs[runs.length - 1] = { firstSlot: last.firstSlot, lastSlot: i };
    else runs.push({ firstSlot: i, lastSlot: i });
  }
  return runs;
}

/** Earliest start of greatest weight from a slot on; null when none can be started at all. */
function bestStart(table: BlockTable, fromSlot: number): number | null {
  let best: number | null = null;
  for (let i = fromSlot; i < table.weight.length; i++) {
    if ((table.referenceSlots[i] ?? 0) === 0) continue;
    if (best === null || (table.weight[i] ?? 0) > (table.weight[best] ?? 0)) best = i;
  }
  return best;
}

interface Found {
  readonly job: Job;
  readonly work: BlockWork;
  readonly table: BlockTable;
  readonly search: WindowSearch;
}

function windowAt(found: Found, run: Run): BlockWindow {
  const { table, work, search } = found;
  const best = bestOf(found, run);
  const margins = blockMargins(work, search, { startSlot: best, referenceSlots: table.referenceSlots[best] ?? 0 });
  const unknownBits = table.unknownBits[best] ?? 0;
  return {
    jobId: found.job.id,
    blockIndex: work.block.index,
    handlingId: work.handling.id,
    sailStateId: work.sailStateId,
    firstStartSlot: run.firstSlot,
    lastStartSlot: run.lastSlot,
    bestStartSlot: best,
    probability: (table.weight[best] ?? 0) / totalWeight(search.settings.weights),
    binding: margins[0] ?? null,
    margins,
    plannedMin: table.plannedMin[best] ?? 0,
    referenceSlots: table.referenceSlots[best] ?? 0,
    conditional: unknownBits !== 0,
    unknownLimits: LIMIT_IDS.filter((_, bit) => ((unknownBits >>> bit) & 1) === 1),
  };
}

/** Of the starts with the greatest weight in a run, the one with the most room. */
function bestOf(found: Found, run: Run): number {
  const { table, work, search } = found;
  let greatest = 0;
  for (let i = run.firstSlot; i <= run.lastSlot; i++) greatest = Math.max(greatest, table.weight[i] ?? 0);
  let best = run.firstSlot;
  let bestRoomSd = -Infinity;
  for (let i = run.firstSlot; i <= run.lastSlot; i++) {
    if ((table.weight[i] ?? 0) < greatest) continue;
    const roomSd =
      blockMargins(work, search, { startSlot: i, referenceSlots: table.referenceSlots[i] ?? 0 })[0]?.marginSd ??
      Infinity;
    if (roomSd > bestRoomSd + 1e-9) [best, bestRoomSd] = [i, roomSd];
  }
  return best;
}

/** Margins over the whole reference period of a block, the tightest of each limit over its steps. */
export function blockMargins(
  work: Pick<BlockWork, 'block' | 'handling' | 'sailStateId'>,
  search: Pick<WindowSearch, 'conditions' | 'settings'>,
  period: { startSlot: number; referenceSlots: number },
): LimitMargin[] {
  const { baseEpochMs, steadyingWindRule } = search.settings;
  const all = work.block.steps.flatMap((step) =>
    stepMargins(
      { ...work, step, conditions: search.conditions, baseEpochMs, steadyingWindRule },
      { fromSlot: period.startSlot, toSlot: period.startSlot + period.referenceSlots },
    ),
  );
  const tightest = new Map<string, LimitMargin>();
  for (const margin of all.toSorted(tightestFirst)) if (!tightest.has(margin.limit)) tightest.set(margin.limit, margin);
  return [...tightest.values()];
}

export function totalWeight(weights: Int32Array): number {
  return weights.reduce((sum, weight) => sum + weight, 0);
}
