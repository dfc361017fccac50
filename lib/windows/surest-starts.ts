import type { Block } from '../jobs/index.ts';
import type { SlotGrid } from '../time/index.ts';
import { MS_PER_H, slotEpochMs } from '../time/index.ts';
import { CONFIDENCE_SD, sigmaTimeH } from '../weather/index.ts';
import type { Run } from './fair-runs.ts';

/**
 * How far the interval of start times is cut for the error of the forecast's timing, in its standard deviations: more at
 * the end, because storms come earlier than forecast rather than later (Froude, Bengtsson & Hodges 2007, Monthly Weather
 * Review 135). The sizes are ours: 80 and 90 %, one-sided.
 */
const CUT_AT_FIRST_SD = CONFIDENCE_SD.p80;
const CUT_AT_LAST_SD = CONFIDENCE_SD.p90;

/**
 * The part of a run of starts that stays fair when the weather comes earlier or later than forecast; null: nothing is
 * left.
 *
 * Weather shifts, daylight does not: an edge that the light sets is cut only as far as the weather behind it is near.
 *
 * @param weatherRuns runs of starts that would be fair if it were always light; one of them holds the run
 */
export function surestStarts(
  run: Run,
  weatherRuns: readonly Run[],
  at: { readonly grid: SlotGrid; readonly baseEpochMs: number },
): Run | null {
  const weather = weatherRuns.find(({ firstSlot, lastSlot }) => firstSlot <= run.firstSlot && run.lastSlot <= lastSlot);
  if (weather === undefined) throw new Error('a run of starts is fair by day and not without regard to light');
  const sigmaSlots = (slotIndex: number): number => {
    const leadH = (slotEpochMs(at.grid, slotIndex) - at.baseEpochMs) / MS_PER_H;
    return (sigmaTimeH(Math.max(0, leadH)) * 60) / at.grid.slotMin;
  };
  const firstSlot = Math.ceil(weather.firstSlot + CUT_AT_FIRST_SD * sigmaSlots(weather.firstSlot));
  const lastSlot = Math.floor(weather.lastSlot - CUT_AT_LAST_SD * sigmaSlots(weather.lastSlot));
  const surest = { firstSlot: Math.max(run.firstSlot, firstSlot), lastSlot: Math.min(run.lastSlot, lastSlot) };
  return surest.firstSlot <= surest.lastSlot ? surest : null;
}

/** The block as it would be if light were no matter; null: it is not. */
export function withoutDaylight(block: Block): Block | null {
  if (block.steps.every((step) => step.limits.daylight !== 'required')) return null;
  const lightless = (step: Block['steps'][number]) => ({
    ...step,
    limits: { ...step.limits, daylight: 'not-needed' as const },
  });
  const [first, ...rest] = block.steps;
  return { ...block, steps: [lightless(first), ...rest.map(lightless)] };
}
