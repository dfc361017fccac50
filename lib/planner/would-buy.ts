import type { Job } from '../jobs/index.ts';
import type { ChangeKind, Purchase } from '../reasons/index.ts';
import { purchaseText, wouldBuy } from '../reasons/index.ts';
import { formatUtc, slotEpochMs } from '../time/index.ts';
import type { JobWindows } from '../windows/index.ts';
import type { WouldBuy } from './plan.ts';
import type { Preparation } from './prepare.ts';
import { windowSearch } from './prepare-windows.ts';
import { rounded } from './rounded.ts';
import { slotWording } from './slot-wording.ts';

/** What would open a window for the first block of a job that has none; empty: nothing tried does, or it has windows. */
export function wouldBuyFor(preparation: Preparation, job: Job, windows: JobWindows): WouldBuy[] {
  const [miss] = windows.nearestMisses;
  if (miss === undefined || preparation.excluded.has(job.id)) return [];
  const search = windowSearch(preparation);
  const wording = slotWording(preparation);
  const found = boughtSafely(
    job,
    wouldBuy(job, miss.blockIndex, { search, untilSlot: preparation.untilSlot, rows: job.seam }),
  );
  return found.map((purchase) => ({
    text: purchaseText(purchase, wording),
    startUtc: formatUtc(slotEpochMs(preparation.grid, purchase.startSlot)),
    lastStartUtc: formatUtc(slotEpochMs(preparation.grid, purchase.lastStartSlot)),
    handling: purchase.handlingId,
    probability: rounded(purchase.probability, 4),
  }));
}

/** Changes that cost no safety; a job with work aloft or overside is offered no others, whichever part of it lacks a window. */
const FREE_CHANGES: ReadonlySet<ChangeKind> = new Set(['handling', 'split', 'rows', 'practice']);

function boughtSafely(job: Job, purchases: readonly Purchase[]): readonly Purchase[] {
  const isExposed = job.steps.some((step) => step.place === 'aloft' || step.place === 'overside');
  return isExposed
    ? purchases.filter(({ changes }) => changes.every(({ change }) => FREE_CHANGES.has(change)))
    : purchases;
}
