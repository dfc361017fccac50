import { describe, expect, test } from 'vitest';
import type { Job } from '../../lib/jobs/index.ts';
import { probabilityOf } from '../../lib/planner/report.ts';
import { LOCKER_ITEM_DEFAULTS } from '../../lib/stock/index.ts';
import type { LittleWeather } from './little-world.ts';
import { littleJob, littlePassage, littleStep, littleWeather, onlyNoGo, withBoatSpeed } from './little-world.ts';
import { planLittle } from './plan-little.ts';

// The chosen plan sailed with true positions. Six knots under full main, four under headsail alone, ten-minute slots.

const calm: LittleWeather = { windKn: () => 12, windFromDegTrue: () => 180, seaHeightM: () => 0.5 };
const planOf = (jobs: readonly Job[], scenarios: readonly LittleWeather[] = [calm]) =>
  planLittle(littlePassage(jobs, { wantedProbability: 0.5 }), littleWeather(scenarios, 48));

describe('the plan as it is sailed', () => {
  test('loses what the search reckoned, where no handling leaves the track', () => {
    const drop = { ...littleStep('drop', 60), sailStateAfter: 'headsail-only' };
    const { solution } = planOf([
      littleJob('drop', [drop]),
      littleJob('then', [littleStep('then', 60)], { after: ['drop'] }),
    ]);
    const [dropped, last] = solution.report.entries.map(({ placed }) => placed);
    expect(last?.sailStateId).toBe('headsail-only');
    // From the drop to the end of the work after it, an hour at least, at four knots instead of six.
    const slowH = ((last?.endSlot ?? 0) - (dropped?.endSlot ?? 0)) / 6;
    expect(slowH).toBeGreaterThanOrEqual(1);
    expect(solution.report.lostNm).toBeCloseTo(slowH * 2, 1);
    expect(solution.state.lagNm).toBeCloseTo(slowH * 2, 1);
  });

  test.each([
    { name: 'a core', stop: 'at-end' as const, minutes: 60 },
    { name: 'work in sessions', stop: 'anywhere' as const, minutes: 150 },
  ])('sails on under what is set once $name has changed it', ({ stop, minutes }) => {
    const step = { ...littleStep('change', minutes), stop, sailStateAfter: 'headsail-only' };
    const { solution } = planOf([littleJob('change', [step])]);
    const { course, entries } = solution.report;
    const endSlot = entries.at(-1)?.placed.endSlot ?? 0;
    expect((course.alongNm[endSlot + 6] ?? 0) - (course.alongNm[endSlot] ?? 0)).toBeCloseTo(4, 3);
    expect(course.alongNm[endSlot]).toBeCloseTo(endSlot, 3);
  });

  test('judges each entry where the boat then is', () => {
    const { solution } = planOf([littleJob('a', [littleStep('a', 60, { deckWindKn: onlyNoGo(14) })])]);
    const [entry] = solution.report.entries;
    expect(entry?.conditions.course.lon[0]).toBeCloseTo(
      solution.report.course.lon[entry?.placed.startSlot ?? 0] ?? 0,
      9,
    );
  });
});

describe('probability of a set', () => {
  test('is its share of the weight', () => {
    const of = { weights: Int32Array.of(1, 2, 3, 4), memberIndex: Int32Array.of(0, 1, 2, 3) };
    expect(probabilityOf(Uint32Array.of(0b1010), of).probability).toBeCloseTo(0.6, 12);
  });

  test('has the standard error of the members, not of their draws', () => {
    // Two members of four draws each, one inside in all of them, one in none: shares 1 and 0, mean 1/2, sd 1/√2, error
    // of the mean (1/√2)/√2 = 1/2. Eight draws taken for independent would claim √(1/4 · 8/7 / 8) = 0.19.
    const weights = new Int32Array(8).fill(1);
    const two = { weights, memberIndex: Int32Array.of(0, 0, 0, 0, 1, 1, 1, 1) };
    expect(probabilityOf(Uint32Array.of(0b1111), two)).toEqual({ probability: 0.5, probabilitySd: 0.5 });
    const eight = { weights, memberIndex: Int32Array.of(0, 1, 2, 3, 4, 5, 6, 7) };
    expect(probabilityOf(Uint32Array.of(0b1111), eight).probabilitySd).toBeCloseTo(Math.sqrt((0.25 * 8) / 7 / 8), 9);
  });
});

describe('jobs no weather can help', () => {
  const needs = (id: string, priorityWeight: number): Job =>
    littleJob(id, [{ ...littleStep(id, 30), materials: [{ item: 'twine', amount: 6, unit: 'm' }] }], {
      priorityWeight,
    });
  const planWith = (jobs: readonly Job[]) => {
    const passage = withBoatSpeed(littlePassage(jobs), 0);
    return planLittle(
      {
        ...passage,
        locker: { items: [{ ...LOCKER_ITEM_DEFAULTS, item: 'twine', unit: 'm', onBoardAmount: 10, keepAmount: 2 }] },
      },
      littleWeather([calm], 40),
    ).plan;
  };
  const plannedIds = (jobs: readonly Job[]): string[] =>
    planWith(jobs)
      .jobs.filter(({ status }) => status === 'planned')
      .map(({ jobId }) => jobId);

  test('the weightier job gets the parts; the other is short by what is missing above the reserve', () => {
    expect(plannedIds([needs('less', 3), needs('more', 7)])).toEqual(['more']);
    const less = planWith([needs('less', 3), needs('more', 7)]).jobs.find(({ jobId }) => jobId === 'less');
    expect(less?.nearestMiss?.reason).toBe('materials');
    // Eight are to be had above the reserve, twelve are needed.
    expect(less?.nearestMiss?.text).toContain('short by 4 m');
  });

  test('of two of like weight it does not depend on the order of the list', () => {
    expect(plannedIds([needs('b', 5), needs('a', 5)])).toEqual(plannedIds([needs('a', 5), needs('b', 5)]));
  });

  test('what comes after such a job is left out with it', () => {
    const after = littleJob('after', [littleStep('after', 30)], { after: ['less'] });
    const plan = planWith([needs('less', 3), needs('more', 7), after]);
    expect(plan.jobs.find(({ jobId }) => jobId === 'after')?.nearestMiss?.reason).toBe('precedence');
  });
});
