import { durationScores } from './duration-scores.ts';
import { pertDrawMin } from '../jobs/index.ts';
import type { LimitScan, RehearsalEntry, RehearsalSettings } from './rehearsal.ts';

/** How an entry ended in one draw. */
export const OUTCOMES = ['done', 'interrupted', 'not-begun'] as const;
const [DONE, INTERRUPTED, NOT_BEGUN] = [0, 1, 2] as const;

/** What became of one entry, draw by draw. */
export interface EntryDraws {
  /** Index into OUTCOMES. */
  readonly outcome: Uint8Array;
  /** 1: begun after its planned start. */
  readonly late: Uint8Array;
  /** Minutes from slot 0 to the end of its work; NaN unless it is done. */
  readonly endMin: Float64Array;
}

/** Entries whose work is one: the sessions of one block. A core is alone. */
interface Work {
  /** Work to be done in each entry, step by step: minutes per draw. */
  readonly minutes: readonly Float64Array[];
  /** Index of the block among the blocks. */
  readonly blockIndex: number;
  readonly entry: RehearsalEntry;
}

/**
 * Carries the entries out once per draw, in their order.
 *
 * An entry begins at its planned start, or when the one before it and all it comes after are over, if that is later.
 * Limits are looked at at the slot instants from the last one before it begins to the last one before it ends. A core
 * that meets a broken one stays undone; a session stops there and leaves the rest to the next session of its block. What
 * comes after undone work is not begun.
 */
export function runDraws(entries: readonly RehearsalEntry[], settings: RehearsalSettings): EntryDraws[] {
  const drawCount = settings.weights.length;
  const works = worksOf(entries, settings);
  const draws = entries.map(() => ({
    outcome: new Uint8Array(drawCount).fill(NOT_BEGUN),
    late: new Uint8Array(drawCount),
    endMin: new Float64Array(drawCount).fill(Number.NaN),
  }));
  for (let w = 0; w < drawCount; w++) runDraw(works, { settings, draws, w });
  return draws;
}

/** Blocks are told apart by job and steps; the number of a session counts the entries of its block before it. */
function worksOf(entries: readonly RehearsalEntry[], settings: RehearsalSettings): Work[] {
  const scores = durationScores({ ...settings, drawCount: settings.weights.length });
  const blocks = new Map<string, { index: number; sessionCount: number }>();
  return entries.map((entry) => {
    const name = JSON.stringify([entry.jobId, ...entry.steps.map(({ id }) => id)]);
    const block = blocks.get(name) ?? { index: blocks.size, sessionCount: 0 };
    const sessionNumber = block.sessionCount;
    blocks.set(name, { ...block, sessionCount: sessionNumber + 1 });
    const minutes = entry.steps.map(({ id, work }) =>
      scores({ jobId: entry.jobId, stepId: id, sessionNumber }).map(
        (scoreSd) => pertDrawMin(work, scoreSd) * entry.factorRatio,
      ),
    );
    return { minutes, blockIndex: block.index, entry };
  });
}

interface Draw {
  readonly settings: RehearsalSettings;
  readonly draws: readonly EntryDraws[];
  /** Draw and scenario. */
  readonly w: number;
}

function runDraw(works: readonly Work[], draw: Draw): void {
  const { settings, draws, w } = draw;
  let freeMin = 0;
  // Minutes each block's sessions have left over so far, step by step.
  const left = new Map<number, readonly number[]>();
  for (const [k, work] of works.entries()) {
    const { entry } = work;
    const readyMin = readyAtMin(entry, draw);
    const beginMin = Math.max(entry.startSlot * settings.slotMin, freeMin, readyMin ?? Infinity);
    const wanted = work.minutes.map((perDraw, step) => (perDraw[w] ?? 0) + (left.get(work.blockIndex)?.[step] ?? 0));
    const went = readyMin === null ? null : workThrough(entry, { settings, w, beginMin, wanted });
    left.set(work.blockIndex, went === null ? wanted : went.leftMin);
    const own = draws[k];
    if (went === null || own === undefined) continue;
    own.outcome[w] = went.isDone ? DONE : INTERRUPTED;
    own.late[w] = beginMin > entry.startSlot * settings.slotMin + 1e-6 ? 1 : 0;
    if (went.isDone) own.endMin[w] = went.endMin;
    freeMin = went.isDone ? went.endMin : went.endMin + entry.makeSafeMin;
  }
}

/** Minutes from slot 0 until all that must come before is finished and waited for; null: some of it is not. */
function readyAtMin(entry: RehearsalEntry, { settings, draws, w }: Draw): number | null {
  let readyMin = 0;
  for (const { entryIndex, waitSlotsFrom } of entry.after) {
    const endMin = draws[entryIndex]?.endMin[w] ?? Number.NaN;
    if (Number.isNaN(endMin)) return null;
    const waitSlots = waitSlotsFrom(Math.ceil(endMin / settings.slotMin));
    readyMin = Math.max(readyMin, endMin + waitSlots * settings.slotMin);
  }
  return readyMin;
}

interface Went {
  readonly isDone: boolean;
  readonly endMin: number;
  /** What is left of each step. */
  readonly leftMin: readonly number[];
}

/** Works the steps one after the other; null: a limit is broken when the first should begin. */
function workThrough(
  entry: RehearsalEntry,
  at: {
    readonly settings: RehearsalSettings;
    readonly w: number;
    readonly beginMin: number;
    readonly wanted: readonly number[];
  },
): Went | null {
  const { slotMin } = at.settings;
  const leftMin = [...at.wanted];
  let fromMin = at.beginMin;
  for (const [k, step] of entry.steps.entries()) {
    const workFromMin = k === 0 ? fromMin + entry.resumeMin : fromMin;
    const toMin = workFromMin + (at.wanted[k] ?? 0);
    const brokenSlot = nextBrokenSlot(step.scan, at, slotAt(fromMin, slotMin));
    if (brokenSlot <= slotAt(toMin, slotMin)) {
      const stopMin = Math.max(fromMin, brokenSlot * slotMin);
      if (k === 0 && brokenSlot <= slotAt(at.beginMin, slotMin)) return null;
      leftMin[k] = Math.min(at.wanted[k] ?? 0, toMin - stopMin);
      return { isDone: false, endMin: stopMin, leftMin };
    }
    leftMin[k] = 0;
    fromMin = toMin;
  }
  return { isDone: true, endMin: fromMin, leftMin };
}

/** The slot instant at or before. */
const slotAt = (min: number, slotMin: number): number => Math.floor(min / slotMin + 1e-9);

function nextBrokenSlot(
  scan: LimitScan,
  of: { readonly settings: RehearsalSettings; readonly w: number },
  fromSlot: number,
): number {
  const { slotCount } = of.settings;
  if (fromSlot >= slotCount) return fromSlot;
  const i = fromSlot - scan.firstSlot;
  if (i < 0 || i >= scan.slotCount) return fromSlot;
  return Math.min(slotCount, scan.firstSlot + (scan.nextBroken[of.w * scan.slotCount + i] ?? 0));
}
