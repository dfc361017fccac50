import type { PassageView } from './plan-standing.ts';
import { epochOf } from './time-texts.ts';

/** Alertness to the end of the plan's last entry; beyond, nobody has said when the sailor sleeps, and it is unknown. */
export function plannedAlertness({ plan, picture }: Pick<PassageView, 'plan' | 'picture'>): Float32Array {
  const ends = plan.entries.map(({ endUtc }) => epochOf(endUtc));
  const untilEpochMs = Math.max(picture.nowEpochMs, ...ends);
  return picture.alertnessPoints.map((points, i) =>
    (picture.slotEpochMs[i] ?? 0) <= untilEpochMs ? points : Number.NaN,
  );
}
