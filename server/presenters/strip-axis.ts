import type { Plan, PlanPicture } from '../../lib/planner/index.ts';
import { MS_PER_H, MS_PER_MIN } from '../../lib/time/index.ts';
import type { LightSpan, TimeAxis, TimeSpan } from './strip-model.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';

const LEAST_SPAN_H = 72;
/** Paper before now, so that the line of now stands clear of the lanes' names. */
const BEFORE_NOW_H = 1;
const AFTER_LAST_H = 6;

/**
 * The hours shown: from an hour before now to the last thing planned, or whatever else must be seen, three days at least,
 * never past the forecast.
 */
export function timeAxis(
  plan: Plan,
  picture: PlanPicture,
  times: TimeTexts,
  alsoShownEpochMs = picture.nowEpochMs,
): TimeAxis {
  const fromEpochMs = Math.floor(picture.nowEpochMs / MS_PER_H - BEFORE_NOW_H) * MS_PER_H;
  const toEpochMs = lastShownEpochMs(plan, picture, alsoShownEpochMs);
  const offsetMs = picture.shipTimeOffsetMin * MS_PER_MIN;
  const everyH = tickEveryH((toEpochMs - fromEpochMs) / MS_PER_H);
  const midnights = multiples({ fromEpochMs, toEpochMs }, 24 * MS_PER_H, offsetMs);
  const edges = [fromEpochMs, ...midnights, toEpochMs];
  return {
    fromEpochMs,
    toEpochMs,
    nowEpochMs: picture.nowEpochMs,
    nowText: `now ${times.time(picture.nowEpochMs)}`,
    midnights,
    ticks: multiples({ fromEpochMs, toEpochMs }, everyH * MS_PER_H, offsetMs).map((atEpochMs) => ({
      atEpochMs,
      text: times.time(atEpochMs).slice(0, 2),
    })),
    days: edges.slice(1).map((end, i) => {
      const start = edges[i] ?? fromEpochMs;
      return { fromEpochMs: start, toEpochMs: end, text: times.day(start) };
    }),
  };
}

function lastShownEpochMs(plan: Plan, picture: PlanPicture, alsoShownEpochMs: number): number {
  const forecastEnd = picture.slotEpochMs.at(-1) ?? picture.nowEpochMs;
  const worked = plan.entries.filter((entry) => entry.kind === 'work');
  const lastWork = Math.max(picture.nowEpochMs, alsoShownEpochMs, ...worked.map((entry) => epochOf(entry.endUtc)));
  const wanted = Math.max(picture.nowEpochMs + LEAST_SPAN_H * MS_PER_H, lastWork + AFTER_LAST_H * MS_PER_H);
  return Math.max(picture.nowEpochMs + MS_PER_H, Math.min(forecastEnd, Math.ceil(wanted / MS_PER_H) * MS_PER_H));
}

function tickEveryH(spanH: number): number {
  if (spanH <= 108) return 6;
  return spanH <= 216 ? 12 : 24;
}

/** Multiples of a step on the ship's clock, strictly inside a span. */
function multiples(span: TimeSpan, stepMs: number, offsetMs: number): number[] {
  const first = (Math.floor((span.fromEpochMs + offsetMs) / stepMs) + 1) * stepMs - offsetMs;
  const count = Math.max(0, Math.ceil((span.toEpochMs - first) / stepMs));
  return Array.from({ length: count }, (_, i) => first + i * stepMs);
}

const lightTexts = { day: 'day', civil: '', nautical: '', night: 'night' } as const;

/** Slots of equal light joined. */
export function lightSpans(picture: Pick<PlanPicture, 'light' | 'slotEpochMs'>, axis: TimeAxis): LightSpan[] {
  const spans: LightSpan[] = [];
  picture.light.forEach((kind, i) => {
    const fromEpochMs = picture.slotEpochMs[i] ?? axis.toEpochMs;
    const toEpochMs = Math.min(axis.toEpochMs, picture.slotEpochMs[i + 1] ?? axis.toEpochMs);
    const last = spans.at(-1);
    if (last?.kind === kind) spans[spans.length - 1] = { ...last, toEpochMs };
    else if (fromEpochMs < toEpochMs) spans.push({ kind, text: lightTexts[kind], fromEpochMs, toEpochMs });
  });
  return spans.map((span) => ({ ...span, toEpochMs: Math.min(span.toEpochMs, axis.toEpochMs) }));
}
