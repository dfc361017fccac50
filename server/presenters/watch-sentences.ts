import { displayedKss, kssFromAlertness } from '../../lib/person/index.ts';
import { MS_PER_MIN } from '../../lib/time/index.ts';
import type { PassageView } from './plan-standing.ts';
import { plannedAlertness, plannedLapses } from './planned-alertness.ts';
import type { TimeSpan } from './strip-model.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';
import { leastText, mostText, pointsText } from './watch-amounts.ts';

/** What is known of somebody awake, slot by slot to the end of the plan. */
interface Waking extends TimeSpan {
  readonly points: number;
  readonly lapses: number;
}

/** What the drawing says, before it is drawn. */
export function watchSentences(view: PassageView, times: TimeTexts): string[] {
  const awake = wakingSlots(view);
  return [
    leastAwake(awake, times),
    tooTired(awake, view, times),
    debt(awake, view, times),
    lowHours(view, times),
  ].filter((sentence) => sentence !== '');
}

function wakingSlots(view: PassageView): Waking[] {
  const { slotEpochMs } = view.picture;
  const points = plannedAlertness(view);
  const lapses = plannedLapses(view);
  const asleep = view.plan.watch.sleeps.map(({ startUtc, endUtc }) => [epochOf(startUtc), epochOf(endUtc)] as const);
  return Array.from(slotEpochMs).flatMap((fromEpochMs, i) => {
    if (asleep.some(([from, to]) => from <= fromEpochMs && fromEpochMs < to)) return [];
    const toEpochMs = slotEpochMs[i + 1] ?? fromEpochMs + MS_PER_MIN;
    return [{ fromEpochMs, toEpochMs, points: points[i] ?? Number.NaN, lapses: lapses[i] ?? Number.NaN }];
  });
}

/** The slot in which a figure is least, of those where it is known. */
function leastBy(slots: readonly Waking[], figure: (slot: Waking) => number): Waking | null {
  const known = slots.filter((slot) => !Number.isNaN(figure(slot)));
  return known.reduce<Waking | null>(
    (least, slot) => (least === null || figure(slot) < figure(least) ? slot : least),
    null,
  );
}

function leastAwake(awake: readonly Waking[], times: TimeTexts): string {
  const least = leastBy(awake, ({ points }) => points);
  if (least === null) return 'How awake you will be is unknown.';
  const sleepiness = pointsText(displayedKss(kssFromAlertness(least.points)));
  return `You are least awake at ${times.dayTime(least.fromEpochMs)}: alertness ${pointsText(least.points)} points, sleepiness ${sleepiness} of 9.`;
}

const LISTED_SPANS = 3;

const spansText = (spans: readonly TimeSpan[], times: TimeTexts): string => {
  const shown = spans.slice(0, LISTED_SPANS).map((span) => times.span(span, 'to'));
  const moreCount = spans.length - shown.length;
  return [...shown, ...(moreCount > 0 ? [`${moreCount} more in the drawing`] : [])].join('; ');
};

const HARD_WORK = 'heavy work, work aloft and overside';

function tooTired(awake: readonly Waking[], { plan }: PassageView, times: TimeTexts): string {
  const line = plan.watch.gates.hardLeastAlertnessPoints;
  if (awake.every(({ points }) => Number.isNaN(points)))
    return `Whether you are awake enough for ${HARD_WORK} is unknown.`;
  const spans = joinedSpans(awake.filter(({ points }) => points < line));
  if (spans.length === 0)
    return `In no waking hour are you too tired for ${HARD_WORK}, below ${leastText(line)} points.`;
  return `Awake but too tired for ${HARD_WORK}, below ${leastText(line)} points: ${spansText(spans, times)}.`;
}

/** Slots that touch are one span. */
function joinedSpans(slots: readonly TimeSpan[]): TimeSpan[] {
  const spans: TimeSpan[] = [];
  for (const { fromEpochMs, toEpochMs } of slots) {
    const last = spans.at(-1);
    if (last?.toEpochMs === fromEpochMs) spans[spans.length - 1] = { ...last, toEpochMs };
    else spans.push({ fromEpochMs, toEpochMs });
  }
  return spans;
}

function lowHours({ plan }: PassageView, times: TimeTexts): string {
  const spans = plan.watch.lowHours.map(({ startUtc, endUtc }) => ({
    fromEpochMs: epochOf(startUtc),
    toEpochMs: epochOf(endUtc),
  }));
  return spans.length === 0
    ? ''
    : `Low hours, 02–06 on your body clock, when ${HARD_WORK} waits: ${spansText(spans, times)}.`;
}

function debt(awake: readonly Waking[], { plan }: PassageView, times: TimeTexts): string {
  const most = leastBy(awake, ({ lapses }) => -lapses);
  if (most === null) return 'The debt of many days is unknown.';
  const { hardMostLapses, deckMostLapses } = plan.watch.gates;
  const at = `Debt of many days: at most ${pointsText(most.lapses)} lapses, ${times.dayTime(most.fromEpochMs)}`;
  if (most.lapses > deckMostLapses)
    return `${at}; any work on deck may have ${mostText(deckMostLapses)}, so it waits then.`;
  const allowed = `${HARD_WORK} may have ${mostText(hardMostLapses)}`;
  return most.lapses > hardMostLapses ? `${at}; ${allowed}, so it waits then.` : `${at}; ${allowed}.`;
}
