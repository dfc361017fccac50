import type { SlotGrid } from '../time/index.ts';
import type { PersonAtSlot, PersonFacts, SlotSleep } from './problem.ts';
import { afterSlotSleep, stayAwake } from './rest.ts';

/** What a person is followed along. */
export interface Followed {
  readonly grid: Pick<SlotGrid, 'slotMin' | 'slotCount'>;
  readonly fromSlot: number;
  readonly start: PersonAtSlot;
  readonly facts: PersonFacts;
}

/** The person at every slot from the start to the end of the grid, asleep as given and awake otherwise. */
export function personBySlot({ grid, fromSlot, start, facts }: Followed, sleeps: readonly SlotSleep[]): PersonAtSlot[] {
  const bySlot: PersonAtSlot[] = [];
  let person = start;
  let next = 0;
  for (let slot = fromSlot; slot < grid.slotCount; slot++) {
    const sleep = sleeps[next];
    if (sleep !== undefined && slot >= sleep.toSlot) {
      person = afterSlotSleep(person, facts, { sleep, slotMin: grid.slotMin });
      next += 1;
    }
    const current = sleeps[next];
    const isAsleep = current !== undefined && slot > current.fromSlot;
    bySlot.push(
      isAsleep
        ? afterSlotSleep(person, facts, { sleep: { ...current, toSlot: slot }, slotMin: grid.slotMin })
        : stayAwake(person, slot, grid.slotMin),
    );
  }
  return bySlot;
}
