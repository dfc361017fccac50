import { describe, expect, test } from 'vitest';
import { asleepS, awakeS, gateFindings, gateFor } from '../../../lib/person/index.ts';
import { gateStateAt } from '../../../lib/planner/place.ts';
import type { PersonAtSlot } from '../../../lib/planner/problem.ts';
import { afterSlotSleep, stayAwake } from '../../../lib/planner/rest.ts';
import { littleJob, littleStep } from '../little-world.ts';
import { modelOf, problemFor } from './model-world.ts';

// The search's numbers of the person against the person room itself, slot by slot.

const problem = problemFor(
  [
    littleJob('aloft', [{ ...littleStep('aloft', 30), place: 'aloft' as const }]),
    littleJob('heavy', [{ ...littleStep('heavy', 30), effort: 'heavy' as const }]),
    littleJob('below', [{ ...littleStep('below', 30), place: 'below' as const }]),
  ],
  { horizonH: 60 },
);
const { schedule } = modelOf(problem);
const { rest } = schedule;
if (rest === null) throw new Error('the worker tires');
const slotMin = problem.grid.slotMin;

describe('the rest model', () => {
  test('awake and asleep, S runs as the three-process model of the person room has it', () => {
    // Slot length and sleep efficiency are those of the little passage: ten minutes, 0.85.
    for (const s of [7, 10.5, 14]) {
      for (let slots = 0; slots <= schedule.slotCount; slots += 13) {
        expect(rest.awakeS(s, slots)).toBeCloseTo(awakeS({ s, elapsedH: slots / 6 }), 9);
        expect(rest.asleepS(s, slots)).toBeCloseTo(asleepS({ s, elapsedH: (slots / 6) * 0.85 }), 9);
      }
    }
  });

  test('through a day of naps and work it keeps the same S and alertness at every slot', () => {
    const sleeps = [
      { fromSlot: 20, toSlot: 29 },
      { fromSlot: 60, toSlot: 78 },
      { fromSlot: 90, toSlot: 92 },
    ];
    let person: PersonAtSlot = problem.start;
    let s = rest.startS;
    let at = 0;
    for (const sleep of sleeps) {
      for (let slot = at; slot <= sleep.fromSlot; slot++) {
        const alert = stayAwake(person, slot, slotMin).s + (problem.person.rhythm[slot] ?? 0);
        expect(rest.awakeS(s, slot - at) + (rest.rhythmPoints[slot] ?? 0)).toBeCloseTo(alert, 9);
      }
      s = rest.asleepS(rest.awakeS(s, sleep.fromSlot - at), sleep.toSlot - sleep.fromSlot);
      person = afterSlotSleep(person, problem.person, { sleep, slotMin });
      at = sleep.toSlot;
      expect(s).toBeCloseTo(person.s, 9);
    }
  });

  test('work may begin as soon as the inertia gate opens, at every waking slot and after every length of sleep', () => {
    const aloft = gateFor({ place: 'aloft', effort: 'light' });
    const inertiaClass = schedule.tasks[problem.units.findIndex(({ job }) => job.id === 'aloft')]?.choices[0]?.gate;
    const table = rest.inertiaSlots[inertiaClass?.inertiaClass ?? -1];
    for (const [index, slots] of rest.sleepSlots.entries()) {
      for (let woke = slots; woke < schedule.slotCount - 12; woke += 5) {
        const sleep = { fromSlot: woke - slots, toSlot: woke };
        const person = afterSlotSleep(problem.start, problem.person, { sleep, slotMin });
        const closed = (awakeSlots: number): boolean =>
          gateFindings(gateStateAt(problem, stayAwake(person, woke + awakeSlots, slotMin)), aloft).some(
            ({ rule }) => rule === 'inertia',
          );
        const first = table?.[index * (schedule.slotCount + 1) + woke] ?? Number.NaN;
        expect(closed(first)).toBe(false);
        // Twenty minutes awake before any work, whatever the gate says.
        expect(first === 2 || closed(first - 1)).toBe(true);
        expect(first).toBeGreaterThanOrEqual(2);
      }
    }
  });

  test.each([
    ['aloft', gateFor({ place: 'aloft', effort: 'light' })],
    ['heavy', gateFor({ place: 'deck', effort: 'heavy' })],
  ] as const)('rules on past sleep (%s): asked as the gates ask them', (jobId, gate) => {
    const choice = schedule.tasks[problem.units.findIndex(({ job }) => job.id === jobId)]?.choices[0];
    if (choice === undefined) throw new Error('the job can be worked');
    const refusals = new Set<boolean>();
    for (let slot = 0; slot < schedule.slotCount; slot += 9) {
      const person = stayAwake(problem.start, slot, slotMin);
      const refused = gateFindings(gateStateAt(problem, person), gate).some(({ rule }) =>
        ['lapses', 'sleep-24h', 'sleep-48h', 'awake-beyond-sleep'].includes(rule),
      );
      refusals.add(refused);
      expect(rest.refusesHistory?.(choice, { beginSlot: slot, endSlot: slot }, [])).toBe(refused);
    }
    // Rested at first; nobody has slept within a day of the end: then it is refused.
    expect([...refusals]).toEqual([false, true]);
  });

  test('heavy work that ends with too many lapses: refused, though it begins with few', () => {
    const choice = schedule.tasks[problem.units.findIndex(({ job }) => job.id === 'heavy')]?.choices[0];
    if (choice === undefined) throw new Error('the job can be worked');
    const last = schedule.slotCount - 1;
    expect(rest.refusesHistory?.(choice, { beginSlot: 0, endSlot: 6 }, [])).toBe(false);
    expect(rest.refusesHistory?.(choice, { beginSlot: 0, endSlot: last }, [])).toBe(true);
    const slept = [{ fromSlot: last - 60, toSlot: last - 12 }];
    expect(rest.refusesHistory?.(choice, { beginSlot: last - 6, endSlot: last }, slept)).toBe(false);
  });
});
