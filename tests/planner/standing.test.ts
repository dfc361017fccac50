import { describe, expect, test } from 'vitest';
import type { Plan } from '../../lib/planner/index.ts';
import type { Report } from '../../lib/planner/report.ts';
import { pairedDifference } from '../../lib/planner/standing.ts';
import type { LittleWeather } from './little-world.ts';
import { littleJob, littlePassage, littleStep, littleWeather, onlyNoGo, withBoatSpeed } from './little-world.ts';
import { atHour, withOrders } from './orders.ts';
import { planLittle } from './plan-little.ts';

// Re-planning: the standing plan begins its job at hour 16, because it was not to begin before. The order is then lifted.

const calm: LittleWeather = { windKn: () => 8, seaHeightM: () => 0.5 };
const job = (id: string) => littleJob(id, [littleStep(id, 60, { deckWindKn: onlyNoGo(12) })]);
const passage = (ids: readonly string[], wantedProbability = 0.5) =>
  withBoatSpeed(littlePassage(ids.map(job), { wantedProbability, deckHeightM: 10 }), 0);
const HORIZON_H = 24;

const standing = planLittle(
  withOrders(passage(['a']), { a: { notBeforeEpochMs: atHour(16) } }),
  littleWeather([calm], HORIZON_H),
).plan;
const again = (scenarios: readonly LittleWeather[], ids: readonly string[] = ['a'], wantedProbability = 0.5): Plan =>
  planLittle(passage(ids, wantedProbability), littleWeather(scenarios, HORIZON_H), { standing }).plan;
const startOf = (plan: Plan): string | null | undefined => plan.jobs.find(({ jobId }) => jobId === 'a')?.startUtc;

/** Strong wind from 16:00 to 18:00 in some of so many weathers. */
const broken = (count: number, of: number): LittleWeather[] =>
  Array.from({ length: of }, (_, w) => ({
    windKn: (hourH: number) => (w < count && hourH >= 16 && hourH <= 18 ? 25 : 8),
    seaHeightM: () => 0.5,
  }));

describe('a standing plan', () => {
  test('is the plan without it that begins at once', () => {
    expect(startOf(standing)).toBe('2026-06-01T16:00Z');
    const free = planLittle(passage(['a']), littleWeather([calm], HORIZON_H)).plan;
    expect(free.standing).toBeNull();
    expect(startOf(free)).toBe('2026-06-01T12:00Z');
  });

  test('is kept where the new one is no better in what it does or how surely', () => {
    const plan = again([calm]);
    expect(plan.standing?.kept).toBe(true);
    expect(startOf(plan)).toBe('2026-06-01T16:00Z');
  });

  test('is kept though another was found: what the search proved of that one is not said of it', () => {
    expect(again([calm]).solver).toMatchObject({ optimal: false, gap: null, costGapShare: null });
  });

  test('is found again as it is: what the search proved holds for it', () => {
    const first = planLittle(passage(['a']), littleWeather([calm], HORIZON_H)).plan;
    const { plan } = planLittle(passage(['a']), littleWeather([calm], HORIZON_H), { standing: first });
    expect(plan.entries).toEqual(first.entries);
    expect([first.solver.optimal, plan.solver.optimal]).toEqual([true, true]);
  });

  test('is replaced when its weather has broken', () => {
    const plan = again(broken(1, 1));
    expect(plan.standing?.kept).toBe(false);
    expect(startOf(plan)).not.toBe('2026-06-01T16:00Z');
    expect(plan.jobs[0]?.status).toBe('planned');
  });

  test('is replaced when on fresh scenarios it has fallen below the wanted probability, and the figure is told', () => {
    const fresh = littleWeather(broken(3, 10), HORIZON_H);
    const searched = littleWeather(broken(0, 10), HORIZON_H);
    const { plan } = planLittle(passage(['a'], 0.8), searched, { standing, reporting: fresh });
    expect(plan.standing?.kept).toBe(false);
    expect(plan.standing?.text).toContain('70 of 100');
  });

  test('is replaced when it has fallen below it on the scenarios searched, too', () => {
    const plan = again(broken(3, 10), ['a'], 0.8);
    expect(plan.standing?.kept).toBe(false);
    expect(plan.standing?.text).toContain('70 of 100');
  });

  test('is replaced when the new one gets more done', () => {
    const plan = again([calm], ['a', 'b']);
    expect(plan.standing).toEqual({
      kept: false,
      text: 'The new plan gets more done than the standing one.',
      overdue: [],
    });
  });

  // Of n weathers one in five breaks it: difference d = 0.2, standard error √(d(1 − d)/(n − 1)): 0.133 for 10, 0.064 for 40.
  test.each([
    { of: 10, kept: true, why: '20 points are less than two standard errors of 13' },
    { of: 40, kept: false, why: '20 points are more than two standard errors of 6' },
  ])('$of weathers, a fifth of them broken: kept is $kept, because $why', ({ of, kept }) => {
    expect(again(broken(of / 5, of)).standing?.kept).toBe(kept);
  });

  test('is kept against a gain below five points, however sure', () => {
    expect(again(broken(2, 60)).standing?.kept).toBe(true);
  });
});

describe('paired difference of two plans', () => {
  const report = (holding: readonly number[], memberIndex: readonly number[]): Report => ({
    ...EMPTY,
    weights: new Int32Array(memberIndex.length).fill(1),
    memberIndex: Int32Array.from(memberIndex),
    jointMask: Uint32Array.of(holding.reduce((mask, w) => mask | (1 << w), 0)),
  });
  const EMPTY: Omit<Report, 'weights' | 'memberIndex' | 'jointMask'> = {
    course: planLittle(passage(['a']), littleWeather([calm], HORIZON_H)).solution.report.course,
    entries: [],
    conditionalJobIds: [],
    lostNm: 0,
    sleeps: [],
    personBySlot: [],
  };
  const four = [0, 1, 2, 3];

  test('is null with no error where both hold in the same weathers', () => {
    const same = pairedDifference(report([0, 2], four), report([0, 2], four));
    expect(same).toEqual({ differenceShare: 0, differenceSd: 0 });
  });

  test('one of four in favour: a quarter, and the error of four numbers 1, 0, 0, 0', () => {
    // Variance (0.75² + 3 · 0.25²)/3 = 0.25; error √(0.25/4) = 0.25.
    const one = pairedDifference(report([0, 1], four), report([1], four));
    expect(one.differenceShare).toBeCloseTo(0.25, 12);
    expect(one.differenceSd).toBeCloseTo(0.25, 12);
  });

  test('draws of one member count as one: two members, one all for, one all even', () => {
    const members = [0, 0, 1, 1];
    // Means 1 and 0: difference 1/2, variance 1/2, error √(1/4).
    const two = pairedDifference(report([0, 1, 2], members), report([2], members));
    expect(two.differenceShare).toBeCloseTo(0.5, 12);
    expect(two.differenceSd).toBeCloseTo(0.5, 12);
  });
});
