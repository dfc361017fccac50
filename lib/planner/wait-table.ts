import { goesByAir, waitP80H, waitRateRatio, type BackgroundWait } from '../jobs/index.ts';
import { waitSlotsAt, type WaitSlots } from '../schedule/index.ts';

/** Air on the nominal voyage, slot by slot. */
export interface AirAlong {
  /** NaN: not known. */
  readonly airC: Float32Array;
  readonly slotMin: number;
}

/** What rounding leaves of a wait is not waited for. */
const NEGLIGIBLE_H = 1e-6;

/**
 * Slots of a background wait, counted at its P80: always the same, or by the slot it begins where it goes by the air.
 *
 * Beyond the last slot of known air it goes on as in that slot; where that is too cold it is never over.
 */
export function waitSlotsOf(wait: BackgroundWait | null, { airC, slotMin }: AirAlong): WaitSlots {
  if (wait === null) return 0;
  const neededH = waitP80H(wait);
  const slotH = slotMin / 60;
  if (!goesByAir(wait)) {
    const ratio = waitRateRatio(wait, Number.NaN);
    return ratio > 0 ? Math.ceil((neededH / ratio - NEGLIGIBLE_H) / slotH) : airC.length + 1;
  }
  const goneH = hoursGone(wait, airC, slotH);
  const lastRatio = waitRateRatio(wait, airC.at(-1) ?? Number.NaN);
  const slots = new Int32Array(airC.length + 1);
  let ready = 0;
  for (let from = 0; from < slots.length; from++) {
    const aimH = (goneH[from] ?? 0) + neededH - NEGLIGIBLE_H;
    while (ready < airC.length && (goneH[ready] ?? 0) < aimH) ready++;
    const beyondH = Math.max(0, aimH - (goneH[ready] ?? 0));
    slots[from] = ready - from + beyondSlots(beyondH, lastRatio * slotH, airC.length);
  }
  return slots;
}

/** Slot from which a wait that begins in another is over. */
export const overAt = (wait: WaitSlots, fromSlot: number): number => fromSlot + waitSlotsAt(wait, fromSlot);

/** Hours of the wait, at the temperature its hours hold at, that have gone by before each slot. */
function hoursGone(wait: BackgroundWait, airC: Float32Array, slotH: number): Float64Array {
  const goneH = new Float64Array(airC.length + 1);
  for (let slot = 0; slot < airC.length; slot++)
    goneH[slot + 1] = (goneH[slot] ?? 0) + waitRateRatio(wait, airC[slot] ?? Number.NaN) * slotH;
  return goneH;
}

/** Slots past the end of the known air; never over: more than there are. */
function beyondSlots(leftH: number, perSlotH: number, slotCount: number): number {
  if (leftH === 0) return 0;
  return perSlotH > 0 ? Math.ceil(leftH / perSlotH) : slotCount + 1;
}
