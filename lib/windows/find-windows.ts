import type { Handling } from '../boat/index.ts';
import type { Block, Job } from '../jobs/index.ts';
import { blocksOf } from '../jobs/index.ts';
import type { Conditions } from '../voyage/index.ts';
import type { BlockTable, BlockWork, SlotSpan, TableSettings } from './block-table.ts';
import { blockTable, wholeBlockMin } from './block-table.ts';
import { LIMIT_IDS } from './limit-rules.ts';
import type { LimitMargin } from './margins.ts';
import { stepMargins, tightestFirst, urgencySd } from './margins.ts';

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
    const best = nearestStart({ job, work, table, search });
    if (best === null) continue;
    const candidate = windowAt({ job, work, table, search }, { firstSlot: best, lastSlot: best }, best);
    if (nearest === null || isNearer(candidate, nearest)) nearest = candidate;
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

/** The earliest start that holds in most scenarios; where none holds in any, the one least short; null: none possible. */
function nearestStart(found: Found): number | null {
  const { table, search } = found;
  const first = table.referenceSlots.findIndex((slots, i) => i >= search.fromSlot && slots > 0);
  if (first < 0) return null;
  const lastSlot = table.weight.length - 1;
  const greatest = table.weight.subarray(search.fromSlot).reduce((most, weight) => Math.max(most, weight), 0);
  if (greatest === 0) return bestOf(found, { firstSlot: first, lastSlot });
  return table.weight.findIndex((weight, i) => i >= search.fromSlot && weight === greatest);
}

/** Fair in more scenarios, or at least less short of its limits. */
function isNearer(a: BlockWindow, b: BlockWindow): boolean {
  if (a.probability !== b.probability) return a.probability > b.probability;
  const roomSd = ({ binding }: BlockWindow): number => (binding === null ? 0 : urgencySd(binding));
  return roomSd(a) > roomSd(b);
}

interface Found {
  readonly job: Job;
  readonly work: BlockWork;
  readonly table: BlockTable;
  readonly search: WindowSearch;
}

function windowAt(found: Found, run: Run, bestSlot: number = bestOf(found, run)): BlockWindow {
  const { table, work, search } = found;
  const margins = blockMargins(work, search, table.spans[bestSlot] ?? []);
  const unknownBits = table.unknownBits[bestSlot] ?? 0;
  return {
    jobId: found.job.id,
    blockIndex: work.block.index,
    handlingId: work.handling.id,
    sailStateId: work.sailStateId,
    firstStartSlot: run.firstSlot,
    lastStartSlot: run.lastSlot,
    bestStartSlot: bestSlot,
    probability: (table.weight[bestSlot] ?? 0) / totalWeight(search.settings.weights),
    binding: margins[0] ?? null,
    margins,
    plannedMin: table.plannedMin[bestSlot] ?? 0,
    referenceSlots: table.referenceSlots[bestSlot] ?? 0,
    conditional: unknownBits !== 0,
    unknownLimits: LIMIT_IDS.filter((_, bit) => ((unknownBits >>> bit) & 1) === 1),
  };
}

/** Of the starts with the greatest weight in a run, the one with the most room (the least lack, where there is none). */
function bestOf({ table, work, search }: Found, run: Run): number {
  const isOpen = (i: number): boolean => (table.referenceSlots[i] ?? 0) > 0;
  let greatest = 0;
  for (let i = run.firstSlot; i <= run.lastSlot; i++) greatest = Math.max(greatest, table.weight[i] ?? 0);
  let best = run.firstSlot;
  let mostRoomSd = -Infinity;
  for (let i = run.firstSlot; i <= run.lastSlot; i++) {
    if (!isOpen(i) || (table.weight[i] ?? 0) < greatest) continue;
    const [tightest] = blockMargins(work, search, table.spans[i] ?? []);
    const roomSd = tightest === undefined ? Number.MAX_SAFE_INTEGER : urgencySd(tightest);
    if (roomSd > mostRoomSd + 1e-9 || !isOpen(best)) [best, mostRoomSd] = [i, roomSd];
  }
  return best;
}

/**
 * Margins of a block over the slots each of its steps must hold, the tightest of each limit.
 *
 * @param spans one per step, as in a block table
 */
export function blockMargins(
  work: Pick<BlockWork, 'block' | 'handling' | 'sailStateId'>,
  search: Pick<WindowSearch, 'conditions' | 'settings'>,
  spans: readonly SlotSpan[],
): LimitMargin[] {
  const { baseEpochMs, steadyingWindRule } = search.settings;
  const worked = { ...work, conditions: search.conditions, baseEpochMs, steadyingWindRule };
  const all = work.block.steps.flatMap((step, k) => {
    const span = spans[k];
    return span === undefined ? [] : stepMargins({ ...worked, step }, span);
  });
  const tightest = new Map<string, LimitMargin>();
  for (const margin of all.toSorted(tightestFirst)) if (!tightest.has(margin.limit)) tightest.set(margin.limit, margin);
  return [...tightest.values()];
}

export function totalWeight(weights: Int32Array): number {
  return weights.reduce((sum, weight) => sum + weight, 0);
}
