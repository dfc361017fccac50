import { describe, expect, test } from 'vitest';
import type { OwnPlanCheck } from '../../lib/planner/own-plan.ts';
import { ownPersonAt } from '../../lib/planner/own-plan-person.ts';
import { place } from '../../lib/planner/place.ts';
import { prepare, problemOf } from '../../lib/planner/prepare.ts';
import { startOfPlan } from '../../lib/planner/state.ts';
import { at, calm, check, hour, rulesOf } from './check-own.ts';
import type { LittleWeather } from './little-world.ts';
import { littleJob, littlePassage, littleStep, littleWeather, onlyNoGo, withBoatSpeed } from './little-world.ts';

// Shares of scenarios and hours are counted by hand.

describe('weather', () => {
  const wind = (id: string, noGo: number) => littleJob(id, [littleStep(id, 60, { deckWindKn: onlyNoGo(noGo) })]);
  /** Twenty scenarios: in the first two it blows in the first hours, in the last two later. */
  const scenarios = Array.from({ length: 20 }, (_, w): LittleWeather => ({
    windKn: (hourH) => ((w < 2 && hourH < 16) || (w >= 18 && hourH >= 16) ? 20 : 8),
    gustKn: () => 9,
    seaHeightM: () => 1,
  }));
  const checked = check(
    [wind('a', 12), wind('b', 12)],
    [
      ['a', 13],
      ['b', 17],
    ],
    { scenarios },
  );

  test('each job in 90 of 100, both together in 80: not the product', () => {
    expect(checked.jobs.map(({ probability }) => probability)).toEqual([
      expect.closeTo(0.9, 6),
      expect.closeTo(0.9, 6),
    ]);
    expect(checked.allDoneProbability).toBeCloseTo(0.8, 6);
    expect(checked.violationCount).toBe(0);
  });

  test('the limit that breaks in some scenarios is told with its share and hour', () => {
    expect(checked.entries[1]?.findings).toMatchObject([{ rule: 'deck-wind', atEpochMs: at(17), required: 12 }]);
    expect(checked.entries[1]?.findings[0]?.scenarioShare).toBeCloseTo(0.1, 6);
  });

  test('below the wanted probability it counts as a violation', () => {
    const strict = check([wind('a', 12)], [['a', 13]], { scenarios, wantedProbability: 0.95 });
    expect(strict.violationCount).toBe(1);
  });

  test('a limit the forecast does not hold: conditional, and never in what the plan promises', () => {
    const blind = check([littleJob('a', [littleStep('a', 60, { seaHeightM: onlyNoGo(2) })])], [['a', 13]], {
      scenarios: [{ ...calm, seaHeightM: () => Number.NaN }],
    });
    expect(blind.jobs[0]).toMatchObject({ isConditional: true, isFinished: true });
    expect(blind.allDoneProbability).toBeNull();
    expect(blind.entries[0]?.unknownLimits).toEqual(['sea-height', 'handling-sea']);
  });

  test('the same entry as the planner places it: same minutes, same scenarios', () => {
    const passage = withBoatSpeed(littlePassage([wind('a', 12)], { deckHeightM: 10 }), 0);
    const preparation = prepare(passage, littleWeather(scenarios, 96), at(12));
    const problem = problemOf(preparation, 1);
    const placement = place(problem, startOfPlan(problem), { unit: 0, handling: 0, startSlot: 6 });
    if (!placement.ok) throw new Error(placement.refusal);
    const own = check([wind('a', 12)], [['a', 13]], { scenarios }).entries[0];
    expect(own).toMatchObject({
      plannedMin: placement.placed.plannedMin,
      referenceMin: placement.placed.referenceSlots * 10,
      kssStart: placement.placed.kssStart,
      kssEnd: placement.placed.kssEnd,
    });
  });
});

describe('the person, with exactly the sleeps given', () => {
  const heavy = (id: string) => littleJob(id, [{ ...littleStep(id, 60), effort: 'heavy' }]);
  // Woke at 08:00 UTC; S then decays to 2.4 with 0.0353 an hour (Åkerstedt & Folkard, three-process model).
  const awakeS = (s: number, hoursH: number): number => 2.4 + (s - 2.4) * Math.exp(-0.0353 * hoursH);

  test('no sleep at all: heavy work thirty hours after waking fails by alertness and by hours awake', () => {
    const checked = check([heavy('a')], [['a', 38]]);
    const rules = rulesOf(checked, 0).map((found) => JSON.stringify(found));
    expect(rules).toContain('["awake",-14]');
    expect(rules.some((rule) => rule.startsWith('["alertness"'))).toBe(true);
    expect(checked.entries[0]?.kssStart).toBeGreaterThan(6.5);
  });

  test('a night slept in between: fit again', () => {
    const checked = check([heavy('a')], [['a', 38]], {
      sleeps: [
        [24, 27],
        [27.5, 30.5],
        [31, 34],
      ],
    });
    expect(checked.entries[0]?.findings).toEqual([]);
    expect(checked.sleepH).toBeCloseTo(9, 9);
    expect(checked.sleepFindings).toEqual([]);
  });

  test('too soon after waking: minutes short of the inertia gate', () => {
    const checked = check([heavy('a')], [['a', 38]], {
      sleeps: [
        [24, 27],
        [27.5, 30.5],
        [35, 37.5],
      ],
    });
    expect(rulesOf(checked, 0)).toEqual([['inertia', -15]]);
  });

  test('sleeps off the slots count to the minute', () => {
    const one = check([heavy('a')], [['a', 38]], { sleeps: [[24 + 7 / 60, 27 + 7 / 60]] });
    const other = check([heavy('a')], [['a', 38]], { sleeps: [[24, 27]] });
    const points = (checked: OwnPlanCheck): number => checked.entries[0]?.alertnessStartPoints ?? 0;
    expect(points(one)).not.toBe(points(other));
    // The later of two equal sleeps begins deeper in debt and has less time behind it.
    expect(points(one)).toBeGreaterThan(points(other));
  });

  test('awake, S falls by the published decay; asleep it rises; a sleep going on is broken off', () => {
    const preparation = prepare(littlePassage([hour('a')]), littleWeather([calm], 96), at(12));
    const person = (hourH: number, sleeps: readonly (readonly [number, number])[] = []) =>
      ownPersonAt(
        preparation,
        sleeps.map(([fromH, toH]) => ({ startEpochMs: at(fromH), endEpochMs: at(toH) })),
        (hourH - 12) * 6,
      );
    expect(person(22).s).toBeCloseTo(awakeS(person(12).s, 10), 9);
    expect(person(22, [[19, 20]]).s).toBeGreaterThan(person(22).s);
    expect(person(20, [[19, 24]])).toEqual(person(20, [[19, 20]]));
    const minuteMore = person(22, [[19, 20 + 1 / 60]]);
    expect(minuteMore.awakeSinceSlot).toBeCloseTo(48.1, 9);
    expect(minuteMore.lastSleepMin).toBeCloseTo(61, 9);
  });

  test('a sleep longer than the traffic allows', () => {
    const checked = check([hour('a')], [['a', 38]], { sleeps: [[24, 28]] });
    expect(checked.sleepFindings).toMatchObject([{ rule: 'longest-sleep', margin: -60 }]);
  });
});
