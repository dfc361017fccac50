import type { WindowsPicture } from '../../lib/planner/index.ts';
import type { MoonSpan, TimeAxis } from './strip-model.ts';

/** Slots of equal moonlight joined; hours without a moon are left out. */
export function moonSpans({ moon, slotEpochMs }: WindowsPicture, axis: TimeAxis): MoonSpan[] {
  const spans: MoonSpan[] = [];
  moon.forEach((kind, i) => {
    const fromEpochMs = slotEpochMs[i] ?? axis.toEpochMs;
    if (kind === 'down' || fromEpochMs >= axis.toEpochMs) return;
    const toEpochMs = Math.min(axis.toEpochMs, slotEpochMs[i + 1] ?? axis.toEpochMs);
    const last = spans.at(-1);
    if (last?.kind === kind && last.toEpochMs === fromEpochMs) spans[spans.length - 1] = { ...last, toEpochMs };
    else spans.push({ kind, fromEpochMs, toEpochMs });
  });
  return spans;
}
