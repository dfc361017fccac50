import { describe, expect, test } from 'vitest';
import type { LittleWeather } from './little-world.ts';
import { littleJob, littlePassage, littleStep, littleWeather, onlyNoGo, withBoatSpeed } from './little-world.ts';
import { planLittle } from './plan-little.ts';

// The point of planning jointly, made by hand: one lull of three and a half hours; before it 14 kn (11.7 over the deck),
// which one job stands and the other does not. Each takes two hours and one more of contingency.

const LULL = { fromH: 18, toH: 21.5 };
const windAt = (hourH: number): number => (hourH >= LULL.fromH && hourH <= LULL.toH ? 6 : 14);

/** Ten weathers: the lull comes up to an hour early or late. */
const scenarios = (shiftsH: readonly number[]): LittleWeather[] =>
  shiftsH.map((shiftH) => ({ windKn: (hourH) => windAt(hourH - shiftH), seaHeightM: () => 0.5 }));

const hardy = littleJob('hardy', [littleStep('hardy', 120, { deckWindKn: onlyNoGo(13) })], { priorityWeight: 5 });
const tender = littleJob('tender', [littleStep('tender', 120, { deckWindKn: onlyNoGo(7) })], { priorityWeight: 5 });

describe('one lull and two jobs', () => {
  test('the job that stands more wind is done before it, the lull is kept for the one that does not', () => {
    const passage = withBoatSpeed(littlePassage([tender, hardy]), 0);
    const { plan } = planLittle(passage, littleWeather(scenarios([0]), 40));
    const job = (id: string) => plan.jobs.find(({ jobId }) => jobId === id);
    expect(plan.jobs.map(({ status }) => status)).toEqual(['planned', 'planned']);
    expect(job('tender')?.startUtc).toMatch(/^2026-06-01T18:[0-3]0Z$/);
    expect(Date.parse(job('hardy')?.endUtc ?? '')).toBeLessThanOrEqual(Date.UTC(2026, 5, 1, 18, 30));
    expect(job('hardy')?.why).toContain('the lighter hours are left for that');
  });

  test('taking each first fair window in the order of the list wastes the lull, and the plan says by how much', () => {
    const easing: LittleWeather = {
      windKn: (hourH) => (hourH < 14 ? 20 : hourH < LULL.fromH ? 15 : hourH <= LULL.toH ? 6 : hourH < 25 ? 15 : 30),
      seaHeightM: () => 0.5,
    };
    // 15 kn at 10 m are 12.6 over the deck: two jobs may be worked before, in and after the lull. Five hours and twenty
    // minutes of them, each where it is first fair from 14:00 on, reach into it and leave too little.
    const waits = littleJob('waits', [littleStep('waits', 120, { deckWindKn: onlyNoGo(13) })], { priorityWeight: 5 });
    const first = littleJob('first', [littleStep('first', 200, { deckWindKn: onlyNoGo(13) })], { priorityWeight: 4 });
    const passage = withBoatSpeed(littlePassage([first, waits, tender]), 0);
    const { plan } = planLittle(passage, littleWeather([easing], 40));
    const planned = plan.jobs.filter(({ status }) => status === 'planned').map(({ jobId }) => jobId);
    expect(planned).toEqual(['first', 'waits', 'tender']);
    expect(plan.firstFair).toEqual({ allDoneProbability: 1, plannedJobIds: ['first', 'waits'] });
  });

  test('with the lull uncertain, the joint plan holds in more weathers than the first fair starts do', () => {
    // Wanted is half. The tender job's first fair start is the first that half of the weathers allow; the best is later.
    const shifts = [-1, -0.8, -0.6, -0.4, -0.2, 0, 0.2, 0.4, 0.6, 0.8];
    const short = littleJob('short', [littleStep('short', 40, { deckWindKn: onlyNoGo(7) })]);
    const passage = withBoatSpeed(littlePassage([short, hardy], { wantedProbability: 0.5 }), 0);
    const { plan } = planLittle(passage, littleWeather(scenarios(shifts), 40));
    expect(plan.firstFair?.plannedJobIds).toEqual(['short', 'hardy']);
    expect(plan.jobs.every(({ status }) => status === 'planned')).toBe(true);
    expect(plan.totals.allDoneProbability).toBe(1);
    expect(plan.firstFair?.allDoneProbability).toBeLessThan(0.7);
  });
});
