import type { WaitSlots } from './problem.ts';
import { i32 } from './typed-reads.ts';

/** Slots of a wait that begins at an instant; after the last one told, as at the last. */
export const waitSlotsAt = (wait: WaitSlots, atSlot: number): number =>
  typeof wait === 'number' ? wait : i32(wait, Math.min(atSlot, wait.length - 1));

/** Whether it is a wait at all. */
export const isWait = (wait: WaitSlots): boolean =>
  typeof wait === 'number' ? wait > 0 : wait.some((slots) => slots > 0);

/** Whether a wait that begins at one instant is over by another. */
export const isWaitOver = (wait: WaitSlots, { fromSlot, atSlot }: { fromSlot: number; atSlot: number }): boolean =>
  atSlot >= fromSlot + waitSlotsAt(wait, fromSlot);

/** Latest instant, none after `latestSlot`, from which a wait is over by `bySlot`; −1: none. */
export function latestWaitStart(wait: WaitSlots, bySlot: number, latestSlot: number): number {
  if (typeof wait === 'number') return Math.min(latestSlot, bySlot - wait);
  let slot = latestSlot;
  while (slot >= 0 && slot + waitSlotsAt(wait, slot) > bySlot) slot--;
  return slot;
}
