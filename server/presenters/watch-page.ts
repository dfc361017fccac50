import { type Clock, clockOf } from './clock.ts';
import { planLine } from './plan-line.ts';
import type { PlanStanding } from './plan-standing.ts';
import { type StatePage, statePage } from './state-page.ts';
import { timeTexts } from './time-texts.ts';
import { viewIn } from './units/plan-texts.ts';
import { PLAIN_UNITS, type ShownUnits } from './units/shown-units.ts';
import { type Watchkeeper, watchkeeper } from './watchkeeper.ts';

export const WATCH_HREF = '/plan/watchkeeper';

export type WatchPage = StatePage | WholeWatchPage;

/** The one watchkeeper through the plan: alertness, sleep, why work takes longer. */
export interface WholeWatchPage {
  readonly kind: 'watch';
  readonly name: string;
  readonly number: string;
  readonly clock: Clock;
  readonly watchkeeper: Watchkeeper;
}

/** @param units of the reader */
export function watchPage(standing: PlanStanding, nowEpochMs: number, units: ShownUnits = PLAIN_UNITS): WatchPage {
  if (standing.kind !== 'ready') return statePage(standing, { href: WATCH_HREF, nowEpochMs });
  const view = viewIn(standing.view, units);
  const { plan, picture } = view;
  const times = timeTexts(picture.shipTimeOffsetMin, units);
  return {
    kind: 'watch',
    name: plan.passageName,
    number: planLine(plan, times),
    clock: clockOf(picture, nowEpochMs),
    watchkeeper: watchkeeper(view, times),
  };
}
