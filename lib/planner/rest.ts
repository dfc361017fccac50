import { afterAsleep, afterAwake, asleepS, kssFromAlertness, type Homeostasis } from '../person/index.ts';
import type { PersonAtSlot, PersonFacts, SleepList, SlotSleep } from './problem.ts';

/** When a gap is slept in: our defaults, no source. */
const SLEEP_FROM_KSS = 5.4;
const RESTED_S = 13.3;
const USUAL_NIGHT_H = 8;
const SLEEPY_AT_NIGHT_BELOW_S = 12.6;
const LEAST_SLEEP_MIN = 20;
/** Before heavy work, work aloft or overside, sleep is put by from here on, whatever the hour. */
const HARD_WORK_NEXT_BELOW_S = 10.5;
/** Second-best hours for sleep, after the night (body clock). */
const SIESTA_FROM_H = 13;
const SIESTA_TO_H = 16;
export const LOOKOUT_MIN = 10;
/** After work: stow, eat, look round. */
const WIND_DOWN_MIN = 20;
/** Catching up is allowed this far beyond the wanted sleep in any 24 h. */
const CATCH_UP_H = 4;

/** Awake before any work, and before work that the inertia gate bars (times the gate's own multiplier). */
const LEAST_AWAKE_MIN = 20;
const LONGEST_INERTIA_MIN = 45;

/** Minutes to be awake before work, of the inertia the last sleep leaves and what the work's gate multiplies it by. */
export function leastAwakeMin(inertiaMin: number, inertiaMultiplierRatio: number): number {
  return Math.max(LEAST_AWAKE_MIN, inertiaMin * inertiaMultiplierRatio);
}

/** Slots to be awake before work whose gate multiplies inertia by so much (0: no inertia gate). */
export function bufferSlotsFor(inertiaMultiplierRatio: number, slotMin: number): number {
  return Math.ceil(Math.max(LEAST_AWAKE_MIN, LONGEST_INERTIA_MIN * inertiaMultiplierRatio) / slotMin);
}

/** A gap between two pieces of work. */
export interface Gap {
  readonly toSlot: number;
  /** Awake before the next work for at least so long. */
  readonly bufferSlots: number;
  readonly slotMin: number;
  /** Heavy work, or work aloft or overside, comes after it. */
  readonly isHardWorkNext: boolean;
}

/**
 * Spends a gap: sleeps when tired, in the usual night, when sleep is owed and before hard work, in blocks no longer than
 * the traffic allows, with a look round after each, and is awake in time for the next work.
 *
 * @returns the person, awake, at the end of the gap
 */
export function spendGap(person: PersonAtSlot, facts: PersonFacts, gap: Gap): PersonAtSlot {
  let now = person;
  let slot = person.slot + (person.slot > person.awakeSinceSlot ? slots(WIND_DOWN_MIN, gap) : 0);
  while (slot < gap.toSlot) {
    const length = sleepSlots({ ...stayAwake(now, slot, gap.slotMin), slot: now.slot }, facts, { ...gap, slot });
    if (length === 0) {
      slot += 1;
      continue;
    }
    now = afterSlotSleep(now, facts, { sleep: { fromSlot: slot, toSlot: slot + length }, slotMin: gap.slotMin });
    slot = now.slot + slots(LOOKOUT_MIN, gap);
  }
  return stayAwake(now, gap.toSlot, gap.slotMin);
}

/** The person after being awake until a slot. */
export function stayAwake(person: PersonAtSlot, toSlot: number, slotMin: number): PersonAtSlot {
  const { s, unified } = awakeAt(person, toSlot, { slotMin });
  return { ...person, s, unified, slot: toSlot };
}

const slots = (lengthMin: number, gap: { slotMin: number }): number => Math.ceil(lengthMin / gap.slotMin);

function awakeAt(person: PersonAtSlot, slot: number, gap: { slotMin: number }): Homeostasis {
  return slot <= person.slot ? person : afterAwake(person, ((slot - person.slot) * gap.slotMin) / 60);
}

/** Length of the sleep that begins now; 0: stays awake. */
function sleepSlots(person: PersonAtSlot, facts: PersonFacts, at: Gap & { slot: number }): number {
  const roomSlots = at.toSlot - at.bufferSlots - at.slot;
  if (roomSlots < slots(LEAST_SLEEP_MIN, at) || !wantsSleep(person, facts, at)) return 0;
  const mostSlots = Math.min(roomSlots, facts.longestSleepSlots);
  const slotH = (at.slotMin / 60) * facts.watchkeeper.sleepEfficiencyRatio;
  let length = slots(LEAST_SLEEP_MIN, at);
  while (length < mostSlots && asleepS({ s: person.s, elapsedH: length * slotH }) < RESTED_S) length += 1;
  return length;
}

function wantsSleep(person: PersonAtSlot, facts: PersonFacts, at: Gap & { slot: number }): boolean {
  const dayStart = at.slot - (24 * 60) / at.slotMin;
  const { wantedSleepHPer24H, leastSleepHPer24H, sleepEfficiencyRatio } = facts.watchkeeper;
  const inBunkH = (sleptSlots(person.sleeps, dayStart, at.slot) * at.slotMin) / 60;
  if (inBunkH >= wantedSleepHPer24H + CATCH_UP_H || person.s >= RESTED_S) return false;
  const sleptH = inBunkH * sleepEfficiencyRatio;
  if (sleptH < leastSleepHPer24H || (at.isHardWorkNext && person.s < HARD_WORK_NEXT_BELOW_S)) return true;
  const todH = facts.todH[at.slot] ?? 0;
  if (sleptH < wantedSleepHPer24H && todH >= SIESTA_FROM_H && todH < SIESTA_TO_H) return true;
  if (kssFromAlertness(person.s + (facts.rhythm[at.slot] ?? 0)) >= SLEEP_FROM_KSS) return true;
  const sinceUsualH = (todH - facts.watchkeeper.usualSleepSolarH + 24) % 24;
  return sinceUsualH < USUAL_NIGHT_H && person.s < SLEEPY_AT_NIGHT_BELOW_S;
}

/** Slots slept between two slots, of the sleeps known. */
export function sleptSlots(sleeps: SleepList | null, fromSlot: number, toSlot: number): number {
  let sum = 0;
  for (let item = sleeps; item !== null && item.sleep.toSlot > fromSlot; item = item.earlier) {
    sum += Math.max(0, Math.min(toSlot, item.sleep.toSlot) - Math.max(fromSlot, item.sleep.fromSlot));
  }
  return sum;
}

/** The person at the end of the last of some sleeps, awake between them. */
export function personAfterSleeps(
  start: PersonAtSlot,
  facts: PersonFacts,
  sleeps: readonly SlotSleep[],
  slotMin: number,
): PersonAtSlot {
  let person = start;
  for (const sleep of sleeps) person = afterSlotSleep(person, facts, { sleep, slotMin });
  return person;
}

/** The person at the end of a sleep. */
export function afterSlotSleep(
  person: PersonAtSlot,
  facts: PersonFacts,
  of: { sleep: SlotSleep; slotMin: number },
): PersonAtSlot {
  const { sleep } = of;
  const lengthMin = (sleep.toSlot - sleep.fromSlot) * of.slotMin;
  const asleepH = (lengthMin / 60) * facts.watchkeeper.sleepEfficiencyRatio;
  const { s, unified } = afterAsleep(awakeAt(person, sleep.fromSlot, of), asleepH);
  return {
    slot: sleep.toSlot,
    s,
    unified,
    awakeSinceSlot: sleep.toSlot,
    lastSleepMin: lengthMin,
    wokeTodH: facts.todH[sleep.toSlot] ?? 0,
    sleeps: { sleep, earlier: person.sleeps },
  };
}
