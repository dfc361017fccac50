import { describe, expect, test } from 'vitest';
import { rehearse } from '../../lib/rehearsal/index.ts';
import { brokenFrom, core, never, session, settingsFor, SLOT_COUNT } from './little-plan.ts';

// Four scenarios, slots of ten minutes; worked out by hand.

describe('durations without spread: what the plan says', () => {
  test('one core of 30 min from slot 6: held where the limit breaks after its end, not at it', () => {
    const entry = core('a', { startSlot: 6, lengthMin: 30, broken: brokenFrom([6, 8, 9, 10]) });
    const { entries, jobs } = rehearse([entry], settingsFor(4));
    // Broken at 6: not begun. At 8: interrupted. At 9, its end: interrupted. At 10: held.
    expect(entries[0]).toEqual({
      jobId: 'a',
      doneInsideLimitsProbability: 0.25,
      interruptedProbability: 0.5,
      notBegunProbability: 0.25,
      lateProbability: 0,
      endMin: { p10: 90, p50: 90, p90: 90 },
    });
    expect(jobs[0]?.coreInterruptedProbability).toBe(0.5);
  });

  test('weights count, not scenarios', () => {
    const entry = core('a', { startSlot: 6, lengthMin: 30, broken: brokenFrom([8, 20]) });
    const weights = Int32Array.of(300, 700);
    expect(rehearse([entry], { ...settingsFor(2), weights }).allDoneInsideLimitsProbability).toBe(0.7);
  });

  test('two cores: what holds together is counted together', () => {
    const first = core('a', { startSlot: 0, lengthMin: 30, broken: brokenFrom([1, 60, 60, 60]) });
    const second = core('b', { startSlot: 10, lengthMin: 30, broken: brokenFrom([60, 60, 11, 11]) });
    const rehearsal = rehearse([first, second], settingsFor(4));
    expect(rehearsal.jobs.map(({ doneInsideLimitsProbability }) => doneInsideLimitsProbability)).toEqual([0.75, 0.5]);
    expect(rehearsal.allDoneInsideLimitsProbability).toBe(0.25);
    expect(rehearsal.expectedJobsDoneCount).toBe(1.25);
  });

  test('a conditional job counts by itself and in nothing else', () => {
    const first = core('a', { startSlot: 0, lengthMin: 30, broken: never(4) });
    const second = {
      ...core('b', { startSlot: 10, lengthMin: 30, broken: brokenFrom([0, 0, 60, 60]) }),
      conditional: true,
    };
    const rehearsal = rehearse([first, second], settingsFor(4));
    expect(rehearsal.jobs[1]?.doneInsideLimitsProbability).toBe(0.5);
    expect(rehearsal.allDoneInsideLimitsProbability).toBe(1);
    expect(rehearsal.expectedJobsDoneCount).toBe(1);
    expect(rehearse([second], settingsFor(4)).allDoneInsideLimitsProbability).toBeNull();
  });

  test('each step is held against its own limits', () => {
    const easy = core('a', { startSlot: 0, lengthMin: 30, broken: never(4) });
    const hard = core('a', { startSlot: 0, lengthMin: 30, broken: brokenFrom([3, 5, 6, 7]) });
    // The second step is worked from slot 3 to slot 6.
    const entry = { ...easy, steps: [...easy.steps, ...hard.steps.map((step) => ({ ...step, id: 'hard' }))] };
    expect(rehearse([entry], settingsFor(4)).entries[0]?.doneInsideLimitsProbability).toBe(0.25);
  });

  test('weather that is bad before the work and good again during it does not matter', () => {
    const entry = core('a', { startSlot: 6, lengthMin: 30, broken: [{ fromSlot: 0, toSlot: 6 }] });
    expect(rehearse([entry], settingsFor(1)).allDoneInsideLimitsProbability).toBe(1);
  });

  test('work past the last slot is unknown and not inside its limits', () => {
    // Two scenarios: what lies behind the first one's last slot in memory is the second's first.
    const at = (startSlot: number) =>
      rehearse([core('a', { startSlot, lengthMin: 30, broken: never(2) })], settingsFor(2))
        .allDoneInsideLimitsProbability;
    expect(at(SLOT_COUNT - 4)).toBe(1);
    expect(at(SLOT_COUNT - 3)).toBe(0);
    expect(at(SLOT_COUNT + 5)).toBe(0);
  });

  test('no entries: nothing is promised', () => {
    expect(rehearse([], settingsFor(4))).toMatchObject({
      allDoneInsideLimitsProbability: null,
      expectedJobsDoneCount: 0,
      jobs: [],
    });
  });
});

describe('delays', () => {
  test('work that takes longer than planned makes what follows late, and its limits are looked at then', () => {
    const slow = { ...core('a', { startSlot: 0, lengthMin: 30, broken: never(4) }), factorRatio: 1.5 };
    const next = core('b', { startSlot: 3, lengthMin: 30, broken: brokenFrom([6, 7, 8, 60]) });
    const { entries } = rehearse([slow, next], settingsFor(4));
    // From minute 45 to 75: the instants of slots 4 to 7 count.
    expect(entries[1]).toMatchObject({ lateProbability: 1, doneInsideLimitsProbability: 0.5, endMin: { p50: 75 } });
  });

  test('a wait after the work before it is kept', () => {
    const first = core('a', { startSlot: 0, lengthMin: 35, broken: never(1) });
    const next = {
      ...core('b', { startSlot: 5, lengthMin: 10, broken: never(1) }),
      after: [{ entryIndex: 0, waitSlotsFrom: () => 6 }],
    };
    expect(rehearse([first, next], settingsFor(1)).entries[1]).toMatchObject({
      lateProbability: 1,
      endMin: { p50: 105 },
    });
  });

  test('what comes after undone work is not begun; what does not, is, once it is made safe', () => {
    const broken = { ...core('a', { startSlot: 0, lengthMin: 60, broken: brokenFrom([4]) }), makeSafeMin: 25 };
    const after = {
      ...core('b', { startSlot: 6, lengthMin: 10, broken: never(1) }),
      after: [{ entryIndex: 0, waitSlotsFrom: () => 0 }],
    };
    const free = core('c', { startSlot: 6, lengthMin: 10, broken: never(1) });
    const { entries } = rehearse([broken, after, free], settingsFor(1));
    expect(entries.map(({ notBegunProbability }) => notBegunProbability)).toEqual([0, 1, 0]);
    // Broken off at minute 40, safe at 65.
    expect(entries[2]).toMatchObject({ lateProbability: 1, endMin: { p50: 75 } });
  });
});

describe('sessions', () => {
  const first = session('sew', { startSlot: 0, lengthMin: 60, broken: brokenFrom([60, 4]) });

  test('a session that is cut leaves the rest to the next one', () => {
    const second = session('sew', { startSlot: 20, lengthMin: 60, broken: never(2) }, 5);
    const { entries, jobs } = rehearse([first, second], settingsFor(2));
    expect(entries[0]).toMatchObject({ interruptedProbability: 0.5, doneInsideLimitsProbability: 0.5 });
    // Minute 200, 5 to get it out again, 60 of its own, and 20 left over in the second scenario.
    expect(entries[1]?.endMin).toEqual({ p10: 265, p50: 265, p90: 285 });
    expect(jobs).toHaveLength(1);
    expect(jobs[0]).toMatchObject({ doneInsideLimitsProbability: 1, coreInterruptedProbability: 0 });
  });

  test('what the last session leaves over is undone', () => {
    const second = session('sew', { startSlot: 20, lengthMin: 60, broken: brokenFrom([60, 27]) });
    expect(rehearse([first, second], settingsFor(2)).jobs[0]?.doneInsideLimitsProbability).toBe(0.5);
  });

  test('a session that could not begin is made up in the next', () => {
    const missed = session('sew', { startSlot: 0, lengthMin: 60, broken: [{ fromSlot: 0, toSlot: 3 }] });
    const second = session('sew', { startSlot: 20, lengthMin: 60, broken: never(1) });
    const { entries, jobs } = rehearse([missed, second], settingsFor(1));
    expect(entries[0]?.notBegunProbability).toBe(1);
    expect(jobs[0]).toMatchObject({ doneInsideLimitsProbability: 1, endMin: { p50: 320 } });
  });
});

describe('standard errors', () => {
  test('by member, as those of the published probabilities: four members of which one fails', () => {
    const entry = core('a', { startSlot: 6, lengthMin: 30, broken: brokenFrom([60, 60, 60, 7, 60, 60, 60, 7]) });
    const memberIndex = Int32Array.of(0, 1, 2, 3, 0, 1, 2, 3);
    const rehearsal = rehearse([entry], { ...settingsFor(8), memberIndex });
    // Shares 1, 1, 1, 0: sample deviation 0.5, over √4.
    expect(rehearsal.allDoneInsideLimitsProbabilitySd).toBeCloseTo(0.25, 12);
  });

  test('without members by eight blocks of draws', () => {
    const entry = core('a', {
      startSlot: 6,
      lengthMin: 30,
      broken: brokenFrom(Array.from({ length: 16 }, (_, w) => (w < 8 ? 60 : 7))),
    });
    // Shares 1, 1, 1, 1, 0, 0, 0, 0: sample deviation √(2/7), over √8.
    expect(rehearse([entry], settingsFor(16)).allDoneInsideLimitsProbabilitySd).toBeCloseTo(Math.sqrt(2 / 7 / 8), 12);
  });
});
