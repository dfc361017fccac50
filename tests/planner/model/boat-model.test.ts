import { describe, expect, test } from 'vitest';
import { lagRows, QUANTUM_NM } from '../../../lib/planner/model/lag-quanta.ts';
import { lostNmSailing, sailConfigs } from '../../../lib/planner/model/sail-configs.ts';
import { POINTS_PER_LOST_NM } from '../../../lib/planner/score.ts';
import type { ScheduleProblem, WorkEntry } from '../../../lib/schedule/index.ts';
import { simulateSchedule } from '../../../lib/schedule/index.ts';
import { littleJob, littleStep } from '../little-world.ts';
import { modelOf, problemFor } from './model-world.ts';

// Six knots under full main, four under headsail alone. One job drops the main, the other is worked under two handlings.

const drop = { ...littleStep('drop', 60), sailStateAfter: 'headsail-only' };
const problem = problemFor([
  littleJob('drop', [drop], { handlings: ['hold-course', 'heave-to'], priorityWeight: 9 }),
  littleJob('then', [littleStep('then', 60)], { handlings: ['run-off', 'hold-course'] }),
]);
/** Six hours by day, everything on her course: nobody needs sleep. */
const short = problemFor(
  [littleJob('drop', [drop], { priorityWeight: 9 }), littleJob('then', [littleStep('then', 60)], { after: ['drop'] })],
  { horizonH: 18 },
);
const sails = sailConfigs(problem);
const slotCount = problem.untilSlot - problem.fromSlot;

describe('lag in quanta', () => {
  test('a row holds the weather of every lag it serves: steps of eight miles, each lag within half a step', () => {
    const { lagCount, rowOfLag, rowLagNm } = lagRows(problem, { worstNm: 60, mostLagCount: 25 });
    // Sixty miles are fifteen quanta of four, and one more at either end.
    expect(lagCount).toBe(17);
    for (const [lag, row] of rowOfLag.entries())
      expect(Math.abs(problem.lag.indexOf(rowLagNm[row] ?? -1) * 8 - lag * QUANTUM_NM)).toBeLessThanOrEqual(4);
    expect(new Set(rowLagNm.map((lagNm) => problem.lag.indexOf(lagNm))).size).toBe(rowLagNm.length);
  });

  test('never more lags than are kept, never none', () => {
    expect(lagRows(problem, { worstNm: 1e4, mostLagCount: 13 }).lagCount).toBe(13);
    expect(lagRows(problem, { worstNm: 0, mostLagCount: 13 }).lagCount).toBeGreaterThanOrEqual(1);
  });

  test('miles lost by waiting under headsail: over any span within one quantum of the true ones', () => {
    const config = sails.indexOf('headsail-only', null);
    const quantaAt = (t: number): number => sails.configs.waitQuanta[config * (slotCount + 1) + t] ?? Number.NaN;
    for (let from = 0; from < slotCount; from += 7) {
      for (let to = from; to <= slotCount; to += 11) {
        // Two knots slower, ten minutes a slot.
        const trueNm = ((to - from) / 6) * 2;
        const span = { fromSlot: problem.fromSlot + from, toSlot: problem.fromSlot + to };
        expect(lostNmSailing(problem, 'headsail-only', span)).toBeCloseTo(trueNm, 2);
        expect(Math.abs((quantaAt(to) - quantaAt(from)) * QUANTUM_NM - trueNm)).toBeLessThan(QUANTUM_NM);
      }
    }
  });

  test('quanta and what they leave add up: a plan is charged the miles it truly loses, however long it waits between', () => {
    const { schedule } = modelOf(short);
    for (const waited of [0, 1, 5, 8, 13]) {
      const entries = [workAt('drop', 3, schedule), workAt('then', 9 + waited, schedule)];
      const simulated = simulateSchedule(schedule, entries);
      if (!simulated.ok) throw new Error(`refused: ${simulated.rule}`);
      // Two knots slower from the end of the drop to the end of the plan, 36 slots; two hours on deck by day at a point a
      // minute; 0.6 points an hour and unit of priority until each job is done.
      const lostNm = ((36 - 9) / 6) * 2;
      const waiting = 0.6 * (9 * (9 / 6) + 5 * ((15 + waited) / 6));
      const points = lostNm * POINTS_PER_LOST_NM + 120 + waiting;
      expect(Math.abs(simulated.worth.costPoints - points)).toBeLessThanOrEqual(2.5);
    }
  });
});

/** A choice of a job that is begun fresh under full main or headsail, on her course, at an instant. */
function workAt(jobId: string, beginSlot: number, schedule: ScheduleProblem): WorkEntry {
  const task = short.units.findIndex(({ job }) => job.id === jobId);
  const choice = schedule.tasks[task]?.choices.findIndex(
    ({ changeSlots, table }) =>
      (table.durationSlots[beginSlot] ?? 0) === 6 &&
      (changeSlots[sailConfigs(short).indexOf(jobId === 'drop' ? 'full-main' : 'headsail-only', null)] ?? -1) === 0,
  );
  if (choice === undefined || choice < 0) throw new Error('the job can be begun there');
  const lag = jobId === 'drop' ? 0 : quantaUnderHeadsail(schedule, 9, beginSlot);
  return { kind: 'work', task, choice, startSlot: beginSlot, beginSlot, endSlot: beginSlot + 6, lag, finishes: true };
}

function quantaUnderHeadsail({ configs, slotCount: count }: ScheduleProblem, from: number, to: number): number {
  const base = sailConfigs(short).indexOf('headsail-only', null) * (count + 1);
  return (configs.waitQuanta[base + to] ?? 0) - (configs.waitQuanta[base + from] ?? 0);
}

describe('configs of the boat', () => {
  const handling = (id: string) => {
    const found = problem.units.flatMap((unit) => unit.handlings).find((candidate) => candidate.id === id);
    if (found === undefined) throw new Error('the handling is one of the problem');
    return found;
  };

  test('two sail states, each with three handlings and none', () => {
    expect(sails.sailStateIds).toEqual(['full-main', 'headsail-only']);
    expect(sails.configs.count).toBe(8);
    expect(sails.configs.start).toBe(sails.indexOf('full-main', null));
  });

  test('to settle takes slots only where the handling changes, and nothing is worked in another sail state', () => {
    // Heave to settles in 15 min, two slots of ten; run off in 5, one.
    for (const { id, slots } of [
      { id: 'heave-to', slots: 2 },
      { id: 'run-off', slots: 1 },
      { id: 'hold-course', slots: 0 },
    ]) {
      const change = sails.changeSlots('full-main', handling(id));
      for (const before of [null, 'heave-to', 'run-off', 'hold-course'])
        expect(change[sails.indexOf('full-main', before)]).toBe(before === id ? 0 : slots);
      expect(change[sails.indexOf('headsail-only', null)]).toBe(-1);
    }
  });

  test('a slot of waiting undoes the handling, not the sails', () => {
    for (const state of sails.sailStateIds) {
      for (const id of [null, 'heave-to', 'run-off'])
        expect(sails.configs.afterWait[sails.indexOf(state, id)]).toBe(sails.indexOf(state, null));
    }
  });

  test('a choice that drops the main ends under headsail, hove to no longer: that needs a main', () => {
    const { schedule, meanings } = modelOf(problem);
    for (const choice of schedule.tasks.flatMap((task) => task.choices)) {
      const meaning = meanings.get(choice);
      if (meaning?.unit.job.id !== 'drop') continue;
      const kept = meaning.work.handling.id === 'heave-to' ? null : meaning.work.handling.id;
      expect(choice.configFinished).toBe(sails.indexOf('headsail-only', kept));
      expect(choice.configAfter).toBe(sails.indexOf(meaning.work.sailStateId, meaning.work.handling.id));
    }
  });
});
