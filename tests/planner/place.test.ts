import { describe, expect, test } from 'vitest';
import { WAIT_DEFAULTS } from '../../lib/jobs/index.ts';
import type { Job } from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import type { Placement } from '../../lib/planner/place.ts';
import { place } from '../../lib/planner/place.ts';
import { prepare, problemOf } from '../../lib/planner/prepare.ts';
import type { PlanningProblem } from '../../lib/planner/problem.ts';
import type { PlanState } from '../../lib/planner/state.ts';
import { startOfPlan } from '../../lib/planner/state.ts';
import type { LittleWeather } from './little-world.ts';
import {
  BASE_EPOCH_MS,
  littleJob,
  littlePassage,
  littleStep,
  littleWeather,
  onlyNoGo,
  withBoatSpeed,
} from './little-world.ts';

// Each refusal alone, and what is booked when there is none. The plan begins at 12:00 UTC, 10:00 by the sun.

const calm: LittleWeather = { windKn: () => 8, seaHeightM: () => 0.5 };
const HORIZON_H = 60;
/** Slots from the start of the plan. */
const slotAtH = (hourH: number): number => Math.round((hourH - 12) * 6);

function problemFor(
  jobs: readonly Job[],
  rest: { weather?: LittleWeather; passage?: (passage: Passage) => Passage } = {},
): PlanningProblem {
  const still = withBoatSpeed(littlePassage(jobs), 0);
  const passage = rest.passage?.(still) ?? still;
  return problemOf(
    prepare(passage, littleWeather([rest.weather ?? calm], HORIZON_H), BASE_EPOCH_MS + 12 * 3_600_000),
    1,
  );
}

type Where = readonly [unit: number, startSlot: number, handling?: number];

const put = (problem: PlanningProblem, state: PlanState, [unit, startSlot, handling = 0]: Where): Placement =>
  place(problem, state, { unit, handling, startSlot });

function placedState(placement: Placement): PlanState {
  if (!placement.ok) throw new Error(`refused: ${placement.refusal}`);
  return placement.state;
}

const refusal = (placement: Placement): string => (placement.ok ? 'none' : placement.refusal);

describe('precedence', () => {
  const problem = problemFor([
    littleJob('first', [littleStep('a', 60)]),
    littleJob('then', [littleStep('b', 60)], { after: ['first'] }),
  ]);

  test('refuses what comes before its predecessor, or while it is still worked', () => {
    expect(refusal(put(problem, startOfPlan(problem), [1, 6]))).toBe('precedence');
    const after = placedState(put(problem, startOfPlan(problem), [0, 6]));
    expect(refusal(put(problem, after, [1, 11]))).toBe('precedence');
    expect(refusal(put(problem, after, [1, 12]))).toBe('none');
  });

  test('refuses what is done already', () => {
    const after = placedState(put(problem, startOfPlan(problem), [0, 6]));
    expect(refusal(put(problem, after, [0, 20]))).toBe('precedence');
  });

  test('keeps the wait after a step, and between the jobs of one chain', () => {
    const soaked = {
      ...littleStep('soak', 60),
      waitAfter: { ...WAIT_DEFAULTS, kind: 'soak' as const, leastH: 1, likelyH: 2, mostH: 3 },
    };
    const waiting = problemFor([
      littleJob('soaking', [soaked, littleStep('turn', 30)]),
      littleJob('last', [littleStep('x', 30)], { after: ['soaking'] }),
    ]);
    const soaking = placedState(put(waiting, startOfPlan(waiting), [0, 0]));
    // Ends at slot 6; P80 of 1, 2, 3 h (beta(3, 3) on [1, 3] h) is 141 min: fifteen slots.
    expect(refusal(put(waiting, soaking, [1, 20]))).toBe('precedence');
    const turned = placedState(put(waiting, soaking, [1, 21]));
    expect(refusal(put(waiting, turned, [2, 23]))).toBe('precedence');
    expect(refusal(put(waiting, turned, [2, 24]))).toBe('none');
  });
});

describe('sail state', () => {
  test('refuses a job in a state it cannot be worked in', () => {
    const problem = problemFor([littleJob('job', [littleStep('a', 60)], { sailStates: ['headsail-only'] })]);
    expect(refusal(put(problem, startOfPlan(problem), [0, 0]))).toBe('sail-state');
  });

  test('refuses a handling that does not exist in the state that is set', () => {
    const job = littleJob('job', [littleStep('a', 60)], { handlings: ['close-reach-headsail', 'hold-course'] });
    const problem = problemFor([job]);
    expect(refusal(put(problem, startOfPlan(problem), [0, 0, 0]))).toBe('sail-state');
    expect(refusal(put(problem, startOfPlan(problem), [0, 0, 1]))).toBe('none');
  });

  test('changes with a step that changes it, for what comes after', () => {
    const drop = { ...littleStep('drop', 30), sailStateAfter: 'headsail-only' };
    const problem = problemFor([
      littleJob('drop', [drop]),
      littleJob('hoist', [littleStep('hoist', 30)], {
        sailStates: ['headsail-only'],
        handlings: ['close-reach-headsail'],
      }),
    ]);
    const dropped = placedState(put(problem, startOfPlan(problem), [0, 0]));
    expect(dropped.sailStateId).toBe('headsail-only');
    expect(refusal(put(problem, dropped, [1, 5]))).toBe('none');
  });
});

describe('alertness', () => {
  const exhausted = (passage: Passage): Passage => ({
    ...passage,
    watchkeeper: {
      ...passage.watchkeeper,
      sleeps: [{ startEpochMs: BASE_EPOCH_MS - 40 * 3_600_000, endEpochMs: BASE_EPOCH_MS - 36 * 3_600_000 }],
    },
  });

  test('refuses work on deck by somebody awake for two days', () => {
    const problem = problemFor([littleJob('job', [littleStep('a', 60)])], { passage: exhausted });
    expect(refusal(put(problem, startOfPlan(problem), [0, 0]))).toBe('alertness');
  });

  test('refuses heavy work in the low hours, 02 to 06 on the body clock, and lets it begin and end outside them', () => {
    const heavy = { ...littleStep('a', 60), effort: 'heavy' as const };
    const problem = problemFor([littleJob('job', [heavy])]);
    // 30° W is two hours behind UTC: the low hours are 04 to 08 UTC.
    for (const hourH of [24 + 4.2, 24 + 6, 24 + 7.8])
      expect(refusal(put(problem, startOfPlan(problem), [0, slotAtH(hourH)]))).toBe('alertness');
    // It begins before them and ends in them.
    expect(refusal(put(problem, startOfPlan(problem), [0, slotAtH(24 + 3.5)]))).toBe('orders');
    expect(refusal(put(problem, startOfPlan(problem), [0, slotAtH(24 + 13)]))).toBe('none');
    expect(refusal(put(problem, startOfPlan(problem), [0, 0]))).toBe('none');
  });

  test('asks at the end too: what begins fit and ends spent is refused', () => {
    // Awake since 08 UTC: heavy work of ten hours from noon ends after 22 UTC; more than 16 h awake is refused.
    const long = { ...littleStep('a', 800), effort: 'heavy' as const };
    const short = { ...littleStep('b', 60), effort: 'heavy' as const };
    const problem = problemFor([littleJob('long', [long]), littleJob('short', [short])]);
    expect(refusal(put(problem, startOfPlan(problem), [1, 0]))).toBe('none');
    expect(refusal(put(problem, startOfPlan(problem), [0, 0]))).toBe('alertness');
  });
});

describe('horizon and weather', () => {
  test('refuses what does not fit before the forecast ends', () => {
    const problem = problemFor([littleJob('job', [littleStep('a', 60)])]);
    const lastSlot = slotAtH(HORIZON_H);
    // Noon of the third day lies too near the end: sixty minutes and thirty more are nine slots.
    expect(problem.grid.slotCount).toBe(lastSlot + 1);
    expect(refusal(put(problem, startOfPlan(problem), [0, lastSlot - 8]))).toBe('horizon');
    expect(refusal(put(problem, startOfPlan(problem), [0, lastSlot - 9]))).toBe('none');
  });

  test('refuses a start at which no scenario holds', () => {
    const blowing: LittleWeather = { windKn: (hourH) => (hourH < 18 ? 30 : 8), seaHeightM: () => 1 };
    const problem = problemFor([littleJob('job', [littleStep('a', 60, { deckWindKn: onlyNoGo(12) })])], {
      weather: blowing,
    });
    expect(refusal(put(problem, startOfPlan(problem), [0, slotAtH(17)]))).toBe('weather');
    expect(refusal(put(problem, startOfPlan(problem), [0, slotAtH(18)]))).toBe('none');
  });
});

describe('what is booked', () => {
  test('time, and the scenarios of an unconditional job only', () => {
    const unknownSea: LittleWeather = { windKn: () => 8, seaHeightM: (hourH) => (hourH < 20 ? Number.NaN : 1) };
    const job = (id: string) => littleJob(id, [littleStep(id, 60, { seaHeightM: onlyNoGo(2) })]);
    const problem = problemFor([job('early'), job('late')], { weather: unknownSea });
    const early = placedState(put(problem, startOfPlan(problem), [0, 0]));
    expect(early.slot).toBe(6);
    expect([...early.conditional]).toEqual([1, 0]);
    const late = placedState(put(problem, early, [1, slotAtH(20)]));
    expect([...late.conditional]).toEqual([1, 0]);
    expect([...late.finishedSlot]).toEqual([6, slotAtH(21)]);
  });

  test('miles lost while hove to and while only the headsail is set', () => {
    const drop = { ...littleStep('drop', 60), sailStateAfter: 'headsail-only' };
    const job = littleJob('drop', [drop], { handlings: ['hold-course', 'run-off'] });
    const moving = (passage: Passage): Passage => ({ ...littlePassage(passage.jobs) });
    const problem = problemFor([job, littleJob('then', [littleStep('x', 60)])], {
      passage: moving,
      weather: { ...calm, windFromDegTrue: () => 270 },
    });
    // Five minutes to settle her before the wind come first. Wind astern: run off 10° off the course for an hour loses
    // 6 − 6 · cos 10° miles.
    expect(refusal(put(problem, startOfPlan(problem), [0, 0, 1]))).toBe('precedence');
    const ran = placedState(put(problem, startOfPlan(problem), [0, 1, 1]));
    expect(ran.lagNm).toBeCloseTo(6 * (1 - Math.cos((10 * Math.PI) / 180)), 3);
    // Then two hours at four knots instead of six, and one more hour of work under them.
    const then = placedState(put(problem, ran, [1, 19]));
    expect(then.lagNm - ran.lagNm).toBeCloseTo(6, 2);
  });

  test('work in sessions: the longest session, then the rest of the work after a rest', () => {
    const session = { longestMin: 90, restMin: 20, leastUsefulMin: 30, resumeMin: 5, makeSafeMin: 10 };
    const sew = { ...littleStep('sew', 200), stop: 'anywhere' as const, session };
    const problem = problemFor([littleJob('sewing', [sew])]);
    const one = placedState(put(problem, startOfPlan(problem), [0, 0]));
    expect(one.leftMin[0]).toBeCloseTo(110, 6);
    expect(one.finishedSlot[0]).toBe(-1);
    expect(refusal(put(problem, one, [0, 10]))).toBe('precedence');
    // 110 min are left: 85 beside getting it out again would leave 25, too little for a session of its own, so half.
    const two = placedState(put(problem, one, [0, 11]));
    expect(two.leftMin[0]).toBeCloseTo(55, 6);
    const three = placedState(put(problem, two, [0, (two.slot ?? 0) + 2]));
    expect(three.leftMin[0]).toBe(0);
    expect(three.finishedSlot[0]).toBe(three.slot);
  });
});
