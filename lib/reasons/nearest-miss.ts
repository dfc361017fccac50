import type { Job } from '../jobs/index.ts';
import { blocksOf } from '../jobs/index.ts';
import type { WindowSearch } from '../windows/index.ts';
import { blockMargins } from '../windows/index.ts';
import type { Finding } from './finding.ts';
import type { StartJudge } from './start-judge.ts';
import { startJudge } from './start-judge.ts';
import { waysOf } from './ways.ts';

/** A start that comes near, and all that stands against it. */
export interface MissedStart {
  readonly jobId: string;
  readonly blockIndex: number;
  readonly handlingId: string;
  readonly sailStateId: string;
  readonly startSlot: number;
  /** Share of scenario weight inside every known limit. */
  readonly probability: number;
  readonly plannedMin: number;
  readonly referenceSlots: number;
  /** Limits broken in some scenario or unknown, most scenarios first. */
  readonly findings: readonly Finding[];
}

/** So many starts are told, each in a stretch of weather of its own. */
const MOST_STARTS = 3;

/**
 * The best starts of a block that has no window, on the nominal voyage: the one that holds in most scenarios first (where
 * none holds in any, the one with the least lack in standard deviations), then the best at least a reference period away.
 *
 * @param untilSlot work is over by this slot; default: the end of the forecast
 * @returns up to three; empty: no start is possible at all (no handling serves, or the forecast is too short)
 */
export function nearestMiss(
  job: Job,
  blockIndex: number,
  search: WindowSearch,
  untilSlot = search.conditions.course.grid.slotCount - 1,
): MissedStart[] {
  const block = blocksOf(job)[blockIndex];
  if (block === undefined) throw new Error('a job has no such block');
  const judges = waysOf(job, block, search).map((work) => startJudge(work, search));
  const ranked = rankedStarts(judges, search).filter((start) => endSlotOf(start, search) <= untilSlot);
  const chosen: Start[] = [];
  for (const start of ranked) {
    const isFar = chosen.every((other) => Math.abs(other.slot - start.slot) >= referenceOf(other));
    if (isFar) chosen.push(start);
    if (chosen.length === MOST_STARTS) break;
  }
  return chosen.map((start) => missedStart(blockIndex, start));
}

interface Start {
  readonly judge: StartJudge;
  readonly slot: number;
  readonly probability: number;
  /** Least room in standard deviations; only looked at where no scenario holds anywhere. */
  readonly roomSd: number;
}

const referenceOf = ({ judge, slot }: Start): number => judge.at(slot).referenceSlots[slot] ?? 0;

const endSlotOf = ({ judge, slot }: Start, search: WindowSearch): number =>
  slot + Math.ceil((judge.at(slot).plannedMin[slot] ?? 0) / search.conditions.course.grid.slotMin - 1e-6);

/** The best way at every slot, the best slot first; of equals the earlier. */
function rankedStarts(judges: readonly StartJudge[], search: WindowSearch): Start[] {
  const isHopeless = judges.every((judge) =>
    judge
      .whole()
      .weight.subarray(search.fromSlot)
      .every((weight) => weight === 0),
  );
  const { slotCount } = search.conditions.course.grid;
  const starts: Start[] = [];
  for (let slot = search.fromSlot; slot < slotCount; slot++) {
    const here = judges.flatMap((judge): Start[] => {
      if ((judge.at(slot).referenceSlots[slot] ?? 0) === 0) return [];
      return [
        { judge, slot, probability: judge.probabilityAt(slot), roomSd: isHopeless ? roomSd(judge, search, slot) : 0 },
      ];
    });
    const [best] = here.toSorted(byNearness);
    if (best !== undefined) starts.push(best);
  }
  return starts.toSorted((a, b) => byNearness(a, b) || a.slot - b.slot);
}

const byNearness = (a: Start, b: Start): number => b.probability - a.probability || b.roomSd - a.roomSd;

/** A broken limit without a forecast error (light, rain) lacks more than any that has one. */
const NO_ERROR_LACK_SD = -1000;

function roomSd(judge: StartJudge, search: WindowSearch, slot: number): number {
  const rooms = blockMargins(judge.work, search, judge.at(slot).spans[slot] ?? []).map(
    (margin) => margin.marginSd ?? (margin.margin < 0 ? NO_ERROR_LACK_SD : Infinity),
  );
  return Math.min(0, ...rooms);
}

function missedStart(blockIndex: number, { judge, slot, probability }: Start): MissedStart {
  const { work } = judge;
  const table = judge.at(slot);
  return {
    jobId: work.block.jobId,
    blockIndex,
    handlingId: work.handling.id,
    sailStateId: work.sailStateId,
    startSlot: slot,
    probability,
    plannedMin: table.plannedMin[slot] ?? 0,
    referenceSlots: table.referenceSlots[slot] ?? 0,
    findings: judge.findingsAt(slot),
  };
}
