import { describe, expect, test } from 'vitest';
import { FRONT_BETWEEN, FRONT_BETWEEN_GOLDEN } from '../golden/stories/front-between.table.ts';
import type { LittleWeather } from '../planner/little-world.ts';
import {
  littleJob,
  littlePassage,
  littleStep,
  littleWeather,
  onlyNoGo,
  withBoatSpeed,
} from '../planner/little-world.ts';
import { planLittle } from '../planner/plan-little.ts';
import { between, hourOf, jobOf, mostOver } from './story.ts';

// Two lulls, a front between. Only the first is light enough for the sewing in enough weathers; the greasing would stand
// either; the hoist comes after the sewing. The boat lies still and deck height is 10 m: wind over the deck is the
// forecast's. All at one limit, so work takes its minutes: reference period = work and half as much again (design §2).

const windOf =
  (scenario: number) =>
  (hourH: number): number => {
    const { secondLull, secondLullKn } = FRONT_BETWEEN;
    if (hourH < secondLull.fromH) return between(FRONT_BETWEEN.windKn, hourH);
    return hourH <= secondLull.toH ? (secondLullKn[scenario] ?? Number.NaN) : secondLull.afterKn;
  };
const scenarios = FRONT_BETWEEN.secondLullKn.map((_, scenario): LittleWeather => ({
  windKn: windOf(scenario),
  seaHeightM: () => FRONT_BETWEEN.seaHeightM,
}));

const JOBS = {
  grease: { noGoKn: 13, lengthMin: 150 },
  sew: { noGoKn: 7, lengthMin: 120 },
  hoist: { noGoKn: 12, lengthMin: 60 },
} as const;
const job = (id: keyof typeof JOBS, after: readonly string[] = []) =>
  littleJob(id, [littleStep(id, JOBS[id].lengthMin, { deckWindKn: onlyNoGo(JOBS[id].noGoKn) })], { after });

const { plan, solution } = planLittle(
  withBoatSpeed(
    littlePassage([job('grease'), job('sew'), job('hoist', ['sew'])], { wantedProbability: 0.5, deckHeightM: 10 }),
    0,
  ),
  littleWeather(scenarios, FRONT_BETWEEN.horizonH),
);

/** Scenarios (0..9) in which a job begun at an hour keeps its limit over work and contingency. */
function holding(id: keyof typeof JOBS, startH: number): number[] {
  const { noGoKn, lengthMin } = JOBS[id];
  const slots = Math.ceil((lengthMin + Math.max(lengthMin / 2, 30)) / 10);
  return scenarios.flatMap((_, scenario) => (mostOver(windOf(scenario), startH, slots) <= noGoKn ? [scenario] : []));
}

const together = (starts: Readonly<Record<keyof typeof JOBS, number>>): number => {
  const sets = (['grease', 'sew', 'hoist'] as const).map((id) => holding(id, starts[id]));
  return scenarios.filter((_, scenario) => sets.every((set) => set.includes(scenario))).length / scenarios.length;
};

describe('two lulls with a front between', () => {
  test('the first lull goes to the sewing, which no later hour holds so surely; the greasing waits for the second', () => {
    expect(hourOf(jobOf(plan, 'sew').startUtc)).toBeLessThan(16);
    expect(hourOf(jobOf(plan, 'hoist').startUtc)).toBeLessThan(18);
    expect(hourOf(jobOf(plan, 'grease').startUtc)).toBeGreaterThan(36);
    expect(plan.jobs.map(({ status }) => status)).toEqual(['planned', 'planned', 'planned']);
  });

  test('taking first fair windows spends the first lull on the greasing, and the chain hangs on the second', () => {
    const starts = solution.firstFair.report.entries.map(({ placed }) => 12 + placed.startSlot / 6);
    expect(plan.firstFair?.plannedJobIds).toEqual(['grease', 'sew', 'hoist']);
    expect(starts[0]).toBeLessThan(14);
    expect(starts[1]).toBeGreaterThan(36);
  });

  test('side by side: all done in nine weathers of ten against six, counted from the table', () => {
    const startOf = (id: string): number => hourOf(jobOf(plan, id).startUtc);
    const counted = together({ grease: startOf('grease'), sew: startOf('sew'), hoist: startOf('hoist') });
    expect(counted).toBe(FRONT_BETWEEN_GOLDEN.jointProbability);
    expect(plan.totals.allDoneProbability).toBeCloseTo(counted, 4);
    const first = solution.firstFair.report.entries.map(({ placed }) => 12 + placed.startSlot / 6);
    const countedFirst = together({ grease: first[0] ?? 0, sew: first[1] ?? 0, hoist: first[2] ?? 0 });
    expect(countedFirst).toBe(FRONT_BETWEEN_GOLDEN.firstFairProbability);
    expect(plan.firstFair?.allDoneProbability).toBeCloseTo(countedFirst, 4);
  });

  test('nothing is worked in the front', () => {
    for (const entry of plan.entries.filter(({ kind }) => kind === 'work'))
      expect(hourOf(entry.endUtc) <= 19.5 || hourOf(entry.startUtc) >= 35).toBe(true);
  });
});
