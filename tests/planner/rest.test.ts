import { describe, expect, test } from 'vitest';
import { prepare } from '../../lib/planner/prepare.ts';
import type { PersonAtSlot, PersonFacts, SlotSleep } from '../../lib/planner/problem.ts';
import { bufferSlotsFor, sleptSlots, spendGap, stayAwake } from '../../lib/planner/rest.ts';
import { BASE_EPOCH_MS, littleJob, littlePassage, littleStep, littleWeather, withBoatSpeed } from './little-world.ts';

// A well-slept person at 30° W, where the sun is two hours behind UTC; usual sleep at 22, that is 24 UTC.

const SLOT_MIN = 10;
function personIn(settings: Parameters<typeof littlePassage>[1] = {}): { start: PersonAtSlot; facts: PersonFacts } {
  const passage = withBoatSpeed(littlePassage([littleJob('x', [littleStep('x', 60)])], settings), 0);
  const { start, person } = prepare(
    passage,
    littleWeather([{ windKn: () => 8, seaHeightM: () => 1 }], 100),
    BASE_EPOCH_MS + 12 * 3_600_000,
  );
  return { start, facts: person };
}
/** Slot of an hour after the forecast's base time; the plan begins at 12. */
const slotAtH = (hourH: number): number => Math.round((hourH - 12) * 6);

function sleepsOf(person: PersonAtSlot): SlotSleep[] {
  const list: SlotSleep[] = [];
  for (let item = person.sleeps; item !== null; item = item.earlier)
    if (item.sleep.fromSlot >= 0) list.push(item.sleep);
  return list.toReversed();
}

const spend = (
  toH: number,
  rest: { bufferSlots?: number; isHardWorkNext?: boolean; settings?: Parameters<typeof littlePassage>[1] } = {},
) => {
  const { start, facts } = personIn(rest.settings);
  return spendGap(start, facts, {
    toSlot: slotAtH(toH),
    bufferSlots: rest.bufferSlots ?? 2,
    slotMin: SLOT_MIN,
    isHardWorkNext: rest.isHardWorkNext ?? false,
  });
};

describe('a gap before work', () => {
  test('is not slept in by a rested person by day', () => {
    expect(sleepsOf(spend(20))).toEqual([]);
    expect(spend(20)).toMatchObject({ slot: slotAtH(20) });
  });

  test('is slept in during the usual night', () => {
    const sleeps = sleepsOf(spend(36));
    expect(sleeps.length).toBeGreaterThanOrEqual(2);
    // Most of it between 22 and 06 by the sun: 24 and 32 UTC.
    const inNight = sleeps.reduce(
      (sum, { fromSlot, toSlot }) => sum + Math.max(0, Math.min(toSlot, slotAtH(32)) - Math.max(fromSlot, slotAtH(24))),
      0,
    );
    const all = sleeps.reduce((sum, { fromSlot, toSlot }) => sum + toSlot - fromSlot, 0);
    expect(inNight / all).toBeGreaterThan(0.7);
  });

  test('gives about the wanted sleep in a whole day', () => {
    const slept = sleepsOf(spend(36)).reduce((sum, { fromSlot, toSlot }) => sum + toSlot - fromSlot, 0) / 6;
    expect(slept).toBeGreaterThanOrEqual(5);
    expect(slept).toBeLessThanOrEqual(10);
  });

  test.each([20, 30, 60, 90, 180])('never in one go longer than the traffic allows (%i min)', (longestSleepMin) => {
    const sleeps = sleepsOf(spend(60, { settings: { longestSleepMin } }));
    expect(sleeps.length).toBeGreaterThan(0);
    for (const { fromSlot, toSlot } of sleeps)
      expect((toSlot - fromSlot) * SLOT_MIN).toBeLessThanOrEqual(longestSleepMin);
  });

  test('leaves a look round after every sleep, and sleeps never overlap', () => {
    const sleeps = sleepsOf(spend(60, { settings: { longestSleepMin: 60 } }));
    for (const { fromSlot, toSlot } of sleeps) expect(toSlot).toBeGreaterThan(fromSlot);
    expect(sleeps.length).toBeGreaterThan(2);
    for (const [k, next] of sleeps.slice(1).entries()) {
      expect(next.fromSlot).toBeGreaterThanOrEqual((sleeps[k]?.toSlot ?? 0) + 1);
    }
  });

  test.each([2, 5, 9])('ends awake: never slept into the last %i slots', (bufferSlots) => {
    for (let hourH = 24; hourH < 40; hourH += 0.5) {
      const person = spend(hourH, { bufferSlots });
      for (const { toSlot } of sleepsOf(person)) expect(toSlot).toBeLessThanOrEqual(slotAtH(hourH) - bufferSlots);
      expect(person.slot).toBe(slotAtH(hourH));
    }
  });
});

describe('time awake before work', () => {
  // Inertia gate 45 min after long sleep, doubled aloft (design page §5.6); any work waits 20 min.
  test.each([
    { name: 'any work', multiplier: 0, slots: 2 },
    { name: 'heavy or overside work', multiplier: 1, slots: 5 },
    { name: 'work aloft', multiplier: 2, slots: 9 },
  ])('$name: $slots slots', ({ multiplier, slots }) => expect(bufferSlotsFor(multiplier, SLOT_MIN)).toBe(slots));
});

describe('the person', () => {
  test('staying awake is further from sleep and lower in S by the published decay', () => {
    const { start } = personIn();
    const later = stayAwake(start, 60, SLOT_MIN);
    // S' = (S − 2.4) e^(−0.0353 · 10 h) + 2.4 (Åkerstedt & Folkard, lower asymptote 2.4).
    expect(later.s).toBeCloseTo((start.s - 2.4) * Math.exp(-0.353) + 2.4, 6);
    expect(later.awakeSinceSlot).toBe(start.awakeSinceSlot);
  });

  test('sleep restores: after a night S is higher than after a night awake', () => {
    const { start } = personIn();
    expect(spend(34).s).toBeGreaterThan(stayAwake(start, slotAtH(34), SLOT_MIN).s + 2);
  });

  test('remembers the sleeps of the days before: eight hours a night until 08 UTC', () => {
    const { start } = personIn();
    expect(sleptSlots(start.sleeps, slotAtH(12 - 24), slotAtH(12))).toBe(48);
    expect(start.awakeSinceSlot).toBe(slotAtH(8));
    // Four hours of the night before last lie in the last 32 h … of which none in the last 24.
    expect(sleptSlots(start.sleeps, slotAtH(12 - 32), slotAtH(12))).toBe(48 + 24);
  });
});
