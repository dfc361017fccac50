import type { PassageView } from './plan-standing.ts';
import { epochOf } from './time-texts.ts';

type Shown = Pick<PassageView, 'plan' | 'picture'>;

/** Alertness to the end of the plan's last entry; beyond, nobody has said when the sailor sleeps, and it is unknown. */
export const plannedAlertness = (view: Shown): Float32Array => knownInPlan(view, view.picture.alertnessPoints);

/** Lapses of the unified model, as far as plannedAlertness goes. */
export const plannedLapses = (view: Shown): Float32Array => knownInPlan(view, view.picture.lapses);

function knownInPlan({ plan, picture }: Shown, values: Float32Array): Float32Array {
  const ends = plan.entries.map(({ endUtc }) => epochOf(endUtc));
  const untilEpochMs = Math.max(picture.nowEpochMs, ...ends);
  return values.map((value, i) => ((picture.slotEpochMs[i] ?? 0) <= untilEpochMs ? value : Number.NaN));
}
