import { describe, expect, test } from 'vitest';
import { probabilityOf } from '../../lib/planner/report.ts';
import type { LittleWeather } from './little-world.ts';
import { littleJob, littlePassage, littleStep, littleWeather, onlyNoGo, withBoatSpeed } from './little-world.ts';
import { planLittle, QUICK } from './plan-little.ts';

// Wind that rises through the limit at another hour in each of ten weathers, 14:00 to 18:30; contingency nil but for the
// least, which is set to 0: the weather must hold for the work alone.

const scenarios = Array.from({ length: 10 }, (_, w): LittleWeather => ({
  windKn: (hourH) => (hourH <= 14 + w / 2 ? 8 : 20),
  seaHeightM: () => 0.5,
}));
const planOf = (work: { leastMin: number; likelyMin: number; mostMin: number }) => {
  const step = { ...littleStep('a', work.likelyMin, { deckWindKn: onlyNoGo(12) }), work };
  const settings = { wantedProbability: 0.5, contingencyShare: 0, contingencyLeastMin: 0, deckHeightM: 10 };
  return planLittle(withBoatSpeed(littlePassage([littleJob('a', [step])], settings), 0), littleWeather(scenarios, 24), {
    solve: QUICK,
  });
};

describe('a plan rehearsed', () => {
  test('steps that take just their time: done inside limits as often as the plan says it holds', () => {
    const { solution, plan } = planOf({ leastMin: 150, likelyMin: 150, mostMin: 150 });
    const { jointMask } = solution.report;
    const stated = jointMask === null ? null : probabilityOf(jointMask, solution.report).probability;
    // Begun at 12:00 it ends at 14:30: nine of ten.
    expect(stated).toBeCloseTo(0.9, 6);
    expect(solution.rehearsal?.allDoneInsideLimitsProbability).toBeCloseTo(0.9, 6);
    expect(plan.jobs[0]?.doneInsideLimitsProbability).toBeCloseTo(0.9, 4);
    expect(plan.totals.expectedJobsDone).toBeCloseTo(0.9, 2);
    // In the tenth it is caught in the middle.
    expect(plan.jobs[0]?.coreInterruptedProbability).toBeCloseTo(0.1, 4);
  });

  test('steps that often take longer are done inside limits less often than the plan says it holds', () => {
    const { plan } = planOf({ leastMin: 140, likelyMin: 150, mostMin: 330 });
    const [job] = plan.jobs;
    expect(job?.doneInsideLimitsProbability).toBeLessThan(job?.probability ?? 0);
    expect(job?.doneInsideLimitsProbability).toBeGreaterThan(0.3);
  });
});
