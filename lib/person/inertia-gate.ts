import { GATES } from './gates.table.ts';

/**
 * Minutes after waking in which no heavy, aloft or overside work is begun.
 *
 * By length of the sleep (time in the bunk), because published inertia after short naps is far shorter than the W term
 * of the three-process model says; longest after sleep that ends between 00 and 06 on the body clock.
 */
export function inertiaGateMin(sleep: { lastSleepMin: number; wokeTodH: number }): number {
  if (sleep.wokeTodH < GATES.lowHoursTo.value) return GATES.inertiaAfterLong.value;
  if (sleep.lastSleepMin <= 10) return GATES.inertiaAfter10.value;
  if (sleep.lastSleepMin <= 30) return GATES.inertiaAfter30.value;
  return sleep.lastSleepMin <= 90 ? GATES.inertiaAfter90.value : GATES.inertiaAfterLong.value;
}
