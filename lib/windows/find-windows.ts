import type { Handling } from '../boat/index.ts';
import type { Block, Job } from '../jobs/index.ts';
import { blocksOf } from '../jobs/index.ts';
import type { Conditions } from '../voyage/index.ts';
import { blockTable, wholeBlockMin } from './block-table.ts';
import type { Run } from './fair-runs.ts';
import { fairRuns } from './fair-runs.ts';
import { LIMIT_IDS } from './limit-rule.ts';
import type { LimitMargin } from './margins.ts';
import { stepMargins, stepRoomSd, tightestFirst, urgencySd } from './margins.ts';
import { surestStarts, withoutDaylight } from './surest-starts.ts';
import type { BlockTable, BlockWork, SlotSpan, TableSettings } from './window-table.ts';

/** An interval of start times from which a block's core and its contingency fit, under one handling. Slots, both ends included. */
export interface BlockWindow {
  readonly jobId: string;
  readonly blockIndex: number;
  readonly handlingId: string;
  readonly sailStateId: string;
  readonly firstStartSlot: number;
  readonly lastStartSlot: number;
  readonly bestStartSlot: number;
  /** Starts that stay fair when the weather comes earlier or later than forecast; null: none does. */
  readonly surestFirstStartSlot: number | null;
  readonly surestLastStartSlot: number | null;
  /** Share of scenario weight inside every known limit, at the best start. */
  readonly probability: number;
  /** Tightest limit at the best start in the median scenario; null: the block has no known limit. */
  readonly binding: LimitMargin | null;
  /** Room of the binding limit in standard deviations of the forecast error; null: it has none. */
  readonly marginSd: number | null;
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
    const found = { job, work, search, table: blockTable(work, search.conditions, search.settings) };
    windows.push(...windowsOf(found));
    const best = nearestStart(found);
    if (best === null) continue;
    const candidate = windowAt(found, { firstSlot: best, lastSlot: best }, { bestSlot: best, surest: null });
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

/** Windows of one way to work a block, split where the set of unknown limits changes. */
function windowsOf(found: Found): BlockWindow[] {
  const { table, work, search } = found;
  const neededWeight = search.wantedProbability * totalWeight(search.settings.weights);
  const isSameUnknown = (i: number): boolean => table.unknownBits[i] === table.unknownBits[i - 1];
  const runs = fairRuns(table, { neededWeight, fromSlot: search.fromSlot }, isSameUnknown);
  if (runs.length === 0) return [];
  const lightless = withoutDaylight(work.block);
  const byWeather =
    lightless === null ? table : blockTable({ ...work, block: lightless }, search.conditions, search.settings);
  // Whether it was fair before the search begins counts: that edge is behind us.
  const weatherRuns = fairRuns(byWeather, { neededWeight, fromSlot: 0 });
  const at = { grid: search.conditions.course.grid, baseEpochMs: search.settings.baseEpochMs };
  return runs.map((run) =>
    windowAt(found, run, { bestSlot: bestOf(found, run), surest: surestStarts(run, weatherRuns, at) }),
  );
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

function windowAt(found: Found, run: Run, { bestSlot, surest }: { bestSlot: number; surest: Run | null }): BlockWindow {
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
    surestFirstStartSlot: surest?.firstSlot ?? null,
    surestLastStartSlot: surest?.lastSlot ?? null,
    probability: (table.weight[bestSlot] ?? 0) / totalWeight(search.settings.weights),
    binding: margins[0] ?? null,
    marginSd: margins[0]?.marginSd ?? null,
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
    const roomSd = blockRoomSd(work, search, table.spans[i] ?? []);
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

/** Least room of all limits of all steps, in the order of urgency. */
function blockRoomSd(work: BlockWork, search: WindowSearch, spans: readonly SlotSpan[]): number {
  const { baseEpochMs, steadyingWindRule } = search.settings;
  const worked = { ...work, conditions: search.conditions, baseEpochMs, steadyingWindRule };
  const rooms = work.block.steps.map((step, k) => {
    const span = spans[k];
    return span === undefined ? Number.MAX_SAFE_INTEGER : stepRoomSd({ ...worked, step }, span);
  });
  return Math.min(...rooms);
}

export function totalWeight(weights: Int32Array): number {
  return weights.reduce((sum, weight) => sum + weight, 0);
}
