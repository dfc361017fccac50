import type { SlotGrid } from '../time/index.ts';
import { slotEpochMs } from '../time/index.ts';
import type { Change } from './changes.ts';
import { hasExposed } from './changes.ts';
import { findingText, ruleWords } from './finding-text.ts';
import type { MissedStart } from './nearest-miss.ts';
import type { StartStretch } from './why-not-earlier.ts';
import type { Purchase } from './would-buy.ts';
import type { Wording } from './words.ts';
import { amountText, minutesText, ofHundred, shipTime } from './words.ts';

/** Where slots lie, and how it is said. */
export interface SlotWording extends Wording {
  readonly grid: SlotGrid;
}

/**
 * One or two sentences why a job does not start earlier, the latest reason first.
 *
 * @param stretches as `whyNotEarlier` gives them
 */
export function whyNotEarlierText(stretches: readonly StartStretch[], wording: SlotWording): string {
  const [latest, before] = stretches;
  if (latest === undefined) return 'It starts as early as it can.';
  const first = stretchText(latest, wording);
  return before === undefined ? `${first}.` : `${first}. ${stretchText(before, wording)}.`;
}

function stretchText(stretch: StartStretch, wording: SlotWording): string {
  const [from, to] = [stretch.firstStartSlot, stretch.lastStartSlot].map((slot) => startTime(slot, wording));
  const starts = from === to ? `Started ${from}` : `Started ${from} to ${to}`;
  return stretch.finding === null
    ? `${starts}: nothing stands against it by itself`
    : `${starts}: ${findingText(stretch.finding, wording)}`;
}

const startTime = (slot: number, wording: SlotWording): string => shipTime(slotEpochMs(wording.grid, slot), wording);

/** The best of the nearest starts, and what stands against it most. */
export function nearestMissText(starts: readonly MissedStart[], wording: SlotWording): string {
  const [best] = starts;
  if (best === undefined) return 'No start is possible before the forecast ends.';
  const [worst] = best.findings;
  const against = worst === undefined ? '' : `: ${findingText(worst, wording)}`;
  const when = startTime(best.startSlot, wording);
  return `Nearest ${when}, ${wording.nameOf(best.handlingId)}, inside every limit in ${ofHundred(best.probability)}${against}.`;
}

/** What would buy a window, a sentence each; of work aloft and overside also that nothing is loosened there. */
export function wouldBuyTexts(
  block: Parameters<typeof hasExposed>[0],
  purchases: readonly Purchase[],
  wording: SlotWording,
): string[] {
  const texts = purchases.map((purchase) => purchaseText(purchase, wording));
  return hasExposed(block) ? [...texts, NO_LOOSER_ALOFT] : texts;
}

/** `2.0 kn more wind over the deck (mean and gust): start Mon 1 Jun 13:40 to 15:00, hold the course, 84 of 100.` */
export function purchaseText(purchase: Purchase, wording: SlotWording): string {
  const what = purchase.changes.map((change) => changeText(change, wording)).join(' and ');
  const [from, to] = [purchase.startSlot, purchase.lastStartSlot].map((slot) => startTime(slot, wording));
  const span = from === to ? `start ${from}` : `start ${from} to ${to}`;
  const unknown =
    purchase.unknownLimits.length === 0
      ? ''
      : `, conditional on ${purchase.unknownLimits.map((limit) => ruleWords(limit)).join(', ')}`;
  const handling = purchase.changes.some(({ change }) => change === 'handling')
    ? ''
    : `${wording.nameOf(purchase.handlingId)}, `;
  return `${what}: ${span}, ${handling}${ofHundred(purchase.probability)}${unknown}.`;
}

function changeText(change: Change, wording: Wording): string {
  const much = amountText(change.amount, change.unit);
  const name = change.name === null ? '' : wording.nameOf(change.name);
  const texts: Readonly<Record<Change['change'], string>> = {
    handling: `Another handling, ${name}`,
    split: `The work in two, left safe after "${name}"`,
    rows: 'One row of stitches fewer',
    practice: `Work ${change.amount.toFixed(0)} % faster, as on a practised second try`,
    contingency: `A contingency of ${(change.amount * 100).toFixed(0)} % of the work`,
    daylight: `${minutesText(change.amount)} worked beyond the light`,
    wind: `${much} more wind over the deck accepted, mean and gust`,
    sea: `${change.amount.toFixed(2)} m more sea accepted`,
    'wanted-probability': `A wanted probability of ${much}`,
  };
  return texts[change.change];
}

const NO_LOOSER_ALOFT =
  'Limits and reserves of work aloft and overside are not loosened here: to override a no-go is the skipper’s own act, and is logged.';
