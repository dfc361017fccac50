import { afterAsleep, afterAwake, kssFromAlertness } from '../person/index.ts';
import type { UtcInterval } from '../time/index.ts';
import { MS_PER_MIN } from '../time/index.ts';
import type { Preparation } from './prepare.ts';
import type { PersonAtSlot } from './problem.ts';

/**
 * The person, awake, at the start of a slot, after exactly the sleeps given since the plan began. Sleeps need not lie on
 * slots; one that is still going on is broken off.
 */
export function ownPersonAt(preparation: Preparation, sleeps: readonly UtcInterval[], slot: number): PersonAtSlot {
  const { grid, fromSlot } = preparation;
  const slotAt = (epochMs: number): number => (epochMs - grid.firstEpochMs) / (grid.slotMin * MS_PER_MIN);
  let person = preparation.start;
  for (const sleep of sleeps.toSorted((a, b) => a.startEpochMs - b.startEpochMs)) {
    const beginSlot = Math.max(fromSlot, person.slot, slotAt(sleep.startEpochMs));
    const wokeSlot = Math.min(slot, slotAt(sleep.endEpochMs));
    if (wokeSlot > beginSlot) person = afterOwnSleep(preparation, person, { fromSlot: beginSlot, toSlot: wokeSlot });
  }
  return awakeUntil(preparation, person, slot);
}

/** The person after staying awake until a slot. */
export function awakeUntil(preparation: Preparation, person: PersonAtSlot, slot: number): PersonAtSlot {
  const elapsedH = (Math.max(0, slot - person.slot) * preparation.grid.slotMin) / 60;
  return { ...person, ...afterAwake(person, elapsedH), slot: Math.max(slot, person.slot) };
}

/** Mean sleepiness at the person's slot. */
export const ownKss = (preparation: Preparation, person: PersonAtSlot): number =>
  kssFromAlertness(person.s + (preparation.person.rhythm[knownSlot(preparation, person.slot)] ?? 0));

/** The body clock is known to the end of the forecast. */
const knownSlot = (preparation: Preparation, slot: number): number =>
  Math.min(preparation.grid.slotCount - 1, Math.max(0, Math.floor(slot)));

function afterOwnSleep(
  preparation: Preparation,
  person: PersonAtSlot,
  sleep: { fromSlot: number; toSlot: number },
): PersonAtSlot {
  const { grid, person: facts } = preparation;
  const before = awakeUntil(preparation, person, sleep.fromSlot);
  const lengthMin = (sleep.toSlot - sleep.fromSlot) * grid.slotMin;
  const elapsedH = (lengthMin / 60) * facts.watchkeeper.sleepEfficiencyRatio;
  const known = knownSlot(preparation, sleep.toSlot);
  return {
    slot: sleep.toSlot,
    ...afterAsleep(before, elapsedH),
    awakeSinceSlot: sleep.toSlot,
    lastSleepMin: lengthMin,
    wokeTodH: ((facts.todH[known] ?? 0) + ((sleep.toSlot - known) * grid.slotMin) / 60) % 24,
    sleeps: { sleep, earlier: person.sleeps },
  };
}
