import type { PersonAtSlot, PersonFacts, SlotSleep, Unit } from './problem.ts';
import { afterSlotSleep, bufferSlotsFor, spendGap, stayAwake } from './rest.ts';
import type { Placed } from './state.ts';

/** A watchkeeper's way through a plan. */
export interface Timeline {
  /** In the order of the entries. */
  readonly atStarts: readonly PersonAtSlot[];
  readonly atEnds: readonly PersonAtSlot[];
  readonly atEnd: PersonAtSlot;
  /** Every sleep of the plan, in order. */
  readonly sleeps: readonly SlotSleep[];
}

export interface TimelineOf {
  readonly start: PersonAtSlot;
  readonly facts: PersonFacts;
  readonly slotMin: number;
  /** In order of time. */
  readonly placed: readonly Pick<Placed, 'startSlot' | 'endSlot' | 'settleSlots' | 'unit'>[];
  readonly units: readonly Pick<Unit, 'gate'>[];
  /** Sleep the plan counts on; free hours are slept in besides, by the policy of `rest.ts`. */
  readonly plannedSleeps: readonly SlotSleep[];
  readonly lookoutSlots: number;
  readonly toSlot: number;
}

type Item =
  /** Up and about from `fromSlot`, at work in [beginSlot, toSlot). */
  | {
      readonly kind: 'work';
      readonly fromSlot: number;
      readonly beginSlot: number;
      readonly toSlot: number;
      readonly bufferSlots: number;
      readonly isHard: boolean;
    }
  | { readonly kind: 'sleep'; readonly fromSlot: number; readonly toSlot: number }
  | { readonly kind: 'end'; readonly fromSlot: number };

/** Lives through a plan: sleeps as planned, works as planned, and rests in the free hours between when tired. */
export function timelineOf(of: TimelineOf): Timeline {
  const atStarts: PersonAtSlot[] = [];
  const atEnds: PersonAtSlot[] = [];
  let person = of.start;
  const items = itemsOf(of);
  for (const [index, item] of items.entries()) {
    const next = items.slice(index).find(({ kind }) => kind === 'work');
    person = spendGap(person, of.facts, {
      toSlot: item.fromSlot,
      bufferSlots: item.kind === 'work' ? item.bufferSlots : item.kind === 'sleep' ? of.lookoutSlots : 0,
      slotMin: of.slotMin,
      isHardWorkNext: next?.kind === 'work' && next.isHard,
    });
    if (item.kind === 'work') {
      atStarts.push(stayAwake(person, item.beginSlot, of.slotMin));
      person = stayAwake(person, item.toSlot, of.slotMin);
      atEnds.push(person);
    } else if (item.kind === 'sleep') {
      const woken = afterSlotSleep(person, of.facts, { sleep: item, slotMin: of.slotMin });
      person = stayAwake(woken, item.toSlot + of.lookoutSlots, of.slotMin);
    }
  }
  return { atStarts, atEnds, atEnd: person, sleeps: sleepsFrom(person, of.start.slot) };
}

function itemsOf(of: TimelineOf): Item[] {
  const work: Item[] = of.placed.map((entry) => ({
    kind: 'work',
    fromSlot: entry.startSlot - entry.settleSlots,
    beginSlot: entry.startSlot,
    toSlot: entry.endSlot,
    bufferSlots: bufferSlotsFor(of.units[entry.unit]?.gate.inertiaMultiplierRatio ?? 0, of.slotMin),
    isHard: of.units[entry.unit]?.gate.noLowHours === true,
  }));
  const sleeps: Item[] = of.plannedSleeps.map(({ fromSlot, toSlot }) => ({ kind: 'sleep', fromSlot, toSlot }));
  const ordered = [...work, ...sleeps].toSorted((a, b) => a.fromSlot - b.fromSlot);
  return [...ordered, { kind: 'end', fromSlot: Math.max(of.toSlot, of.placed.at(-1)?.endSlot ?? 0) }];
}

function sleepsFrom(person: PersonAtSlot, fromSlot: number): SlotSleep[] {
  const sleeps: SlotSleep[] = [];
  for (let item = person.sleeps; item !== null && item.sleep.fromSlot >= fromSlot; item = item.earlier)
    sleeps.push(item.sleep);
  return sleeps.toReversed();
}
