import type { Job } from '../jobs/index.ts';
import type { BlockWindow, WindowSearch } from '../windows/index.ts';
import { findWindows } from '../windows/index.ts';
import type { Change, Changed, Rows, Searched } from './changes.ts';
import {
  fewerRows,
  lessContingency,
  lowerWanted,
  moreDaylight,
  moreSea,
  moreWind,
  otherHandlings,
  practised,
  splits,
} from './changes.ts';
import { blockAsJob } from './ways.ts';

/** Changes that together open a window for a block that has none, and that window. */
export interface Purchase {
  readonly changes: readonly Change[];
  readonly startSlot: number;
  readonly lastStartSlot: number;
  readonly bestStartSlot: number;
  readonly handlingId: string;
  /** At the best start, under the change. */
  readonly probability: number;
  /** Limits the forecast does not hold there. */
  readonly unknownLimits: readonly string[];
}

export interface PurchaseSearch {
  readonly search: WindowSearch;
  /** Work is over by this slot. */
  readonly untilSlot: number;
  /** Rows of the job's seam; null: none, or not known. */
  readonly rows: Rows | null;
}

/**
 * What would open a window for a block that has none: every change is searched anew, and only those that do are told.
 *
 * In this order: what costs no safety (another handling, each that serves; the work in two; a row fewer; a practised
 * second try), then what costs reserve or comfort (contingency 0.3, daylight, wind, sea), last the wanted probability
 * (0.5 at least). Of one kind only the smallest change. 2 kn together with 30 min of daylight is tried only when nothing
 * helps alone. Limits and reserves of work aloft and overside are never loosened.
 */
export function wouldBuy(job: Job, blockIndex: number, of: PurchaseSearch): Purchase[] {
  const alone = blockAsJob(job, blockIndex);
  if (alone === null) throw new Error('a job has no such block');
  const searched = { job: alone, search: of.search };
  const buys = (changed: Changed): Purchase[] => purchase([changed.change], firstWindow(changed, of.untilSlot));
  const smallest = (candidates: readonly Changed[]): Purchase[] => {
    for (const candidate of candidates) {
      const [found] = buys(candidate);
      if (found !== undefined) return [found];
    }
    return [];
  };
  const single = [
    ...otherHandlings(searched).flatMap(buys),
    ...smallestSplit(searched, of.untilSlot),
    ...smallest(fewerRows(searched, of.rows)),
    ...smallest(practised(searched)),
    ...smallest(lessContingency(searched)),
    ...smallest([15, 30, 60].flatMap((lengthMin) => moreDaylight(searched, lengthMin))),
    ...smallest([1, 2, 3].flatMap((moreKn) => moreWind(searched, moreKn))),
    ...smallest([0.25, 0.5].flatMap((moreM) => moreSea(searched, moreM))),
    ...smallest(lowerWanted(searched)),
  ];
  return single.length > 0 ? single : windAndDaylight(searched, of.untilSlot);
}

function windAndDaylight(searched: Searched, untilSlot: number): Purchase[] {
  return moreWind(searched, 2).flatMap((windy) =>
    moreDaylight(windy, 30).flatMap((both) => purchase([windy.change, both.change], firstWindow(both, untilSlot))),
  );
}

/** The first split both parts of which have a window, the second's after the first is over. */
function smallestSplit(searched: Searched, untilSlot: number): Purchase[] {
  for (const split of splits(searched)) {
    const [first, second] = [0, 1].map((part) => {
      const job = blockAsJob(split.job, part);
      return job === null ? [] : windowsOf({ job, search: split.search }, untilSlot);
    });
    const opens = first?.find((window) =>
      second?.some((later) => later.lastStartSlot >= window.firstStartSlot + slotsOf(window, searched.search)),
    );
    if (opens !== undefined) return purchase([split.change], opens);
  }
  return [];
}

const slotsOf = (window: BlockWindow, search: WindowSearch): number =>
  Math.ceil(window.plannedMin / search.conditions.course.grid.slotMin);

const firstWindow = (searched: Searched, untilSlot: number): BlockWindow | undefined =>
  windowsOf(searched, untilSlot)[0];

/** Windows early enough for the work to be over in time, unconditional ones first. */
function windowsOf({ job, search }: Searched, untilSlot: number): BlockWindow[] {
  return findWindows(job, search).windows.filter(
    (window) => window.firstStartSlot + slotsOf(window, search) <= untilSlot,
  );
}

function purchase(changes: readonly Change[], window: BlockWindow | undefined): Purchase[] {
  if (window === undefined) return [];
  return [
    {
      changes,
      startSlot: window.firstStartSlot,
      lastStartSlot: window.lastStartSlot,
      bestStartSlot: window.bestStartSlot,
      handlingId: window.handlingId,
      probability: window.probability,
      unknownLimits: window.unknownLimits,
    },
  ];
}
