import { describe, expect, test } from 'vitest';
import type { Job } from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { TRADES } from '../golden/stories/trades.table.ts';
import type { LittleWeather } from '../planner/little-world.ts';
import { littleJob, littlePassage, littleStep, littleWeather, onlyNoGo } from '../planner/little-world.ts';
import { planLittle, QUICK } from '../planner/plan-little.ts';
import { between, hourOf, jobOf, mostOver } from './story.ts';

// Days of trades, a heavy job that stands 16 kn over the deck, a boat bound north at six knots with the wind abeam.

const NO_GO_KN = 16;
const WORK_MIN = 120;
const BOAT_KN = 6;
/** 10 m wind brought down to 2 m above the deck: (2/10)^0.11 (design §2). */
const TO_DECK = 0.2 ** 0.11;

const windOf =
  (scenario: number) =>
  (hourH: number): number =>
    between(TRADES.windKn, hourH) + (TRADES.moreKn[scenario] ?? Number.NaN);
const scenarios = TRADES.moreKn.map((_, scenario): LittleWeather => ({
  windKn: windOf(scenario),
  windFromDegTrue: () => TRADES.windFromDegTrue,
  seaHeightM: () => TRADES.seaHeightM,
}));
/** Wind abeam and the boat's own way at right angles. */
const deckKn =
  (windKn: (hourH: number) => number) =>
  (hourH: number): number =>
    Math.hypot(windKn(hourH) * TO_DECK, BOAT_KN);

const heavy = (noGoKn = NO_GO_KN): Job =>
  littleJob('heavy', [{ ...littleStep('heavy', WORK_MIN, { deckWindKn: onlyNoGo(noGoKn) }), effort: 'heavy' }]);

const planOf = (job: Job, change: Partial<Passage['settings']> = {}) => {
  const passage = littlePassage([job], { wantedProbability: 0.8, ...change });
  const northward = [15, 30].map((lat) => ({ lat, lon: -30, name: null, leg: 'rhumb' as const }));
  return planLittle(
    { ...passage, start: { ...passage.start, position: { lat: 15, lon: -30 } }, track: { waypoints: northward } },
    littleWeather(scenarios, TRADES.horizonH),
    { solve: QUICK },
  ).plan;
};
const plan = planOf(heavy());
const job = jobOf(plan, 'heavy');

/** Median over the scenarios of the wind over the deck. */
function medianDeckKn(hourH: number): number {
  const sorted = scenarios.map((_, scenario) => deckKn(windOf(scenario))(hourH)).toSorted((a, b) => a - b);
  return ((sorted[4] ?? 0) + (sorted[5] ?? 0)) / 2;
}
/** Beyond its only limit the median scenario sets the pace of no-go, 1.8 (design §2); contingency half as much again. */
const slotsAt = (hourH: number): number =>
  Math.ceil((WORK_MIN * (medianDeckKn(hourH) > NO_GO_KN ? 1.8 : 1) * 1.5) / 10 - 1e-6);
const shareAt = (startH: number): number =>
  scenarios.filter((_, scenario) => mostOver(deckKn(windOf(scenario)), startH, slotsAt(startH)) <= NO_GO_KN).length /
  10;

describe('a heavy job and no window in the trades', () => {
  test('nothing is planned, and the page is not empty', () => {
    expect(job.status).toBe('unplanned');
    expect(plan.totals.allDoneProbability).toBeNull();
    expect(job.nearestMiss?.reason).toBe('weather');
  });

  test('the nearest start is one of those most scenarios hold, three in ten', () => {
    const hours = Array.from({ length: (96 - 12) * 6 - 60 }, (_, slot) => 12 + slot / 6);
    const most = Math.max(...hours.map(shareAt));
    const startH = hourOf(job.nearestMiss?.startUtc);
    expect(most).toBe(0.3);
    expect(shareAt(startH)).toBe(most);
    expect(job.nearestMiss?.probability).toBeCloseTo(0.3, 4);
  });

  test('what breaks is the wind over the deck, by what the median scenario lacks at its worst moment', () => {
    const startH = hourOf(job.nearestMiss?.startUtc);
    const worstKn = mostOver(medianDeckKn, startH, slotsAt(startH));
    const binding = job.nearestMiss?.bindingLimit;
    expect(binding?.limit).toBe('deck-wind');
    expect(binding?.unit).toBe('kn');
    expect(binding?.required).toBe(NO_GO_KN);
    expect(binding?.observed).toBeCloseTo(worstKn, 1);
    expect(binding?.margin).toBeCloseTo(NO_GO_KN - worstKn, 1);
    expect(job.nearestMiss?.text).toContain(`${worstKn.toFixed(1)} kn`);
  });

  test('another handling is told, and taken it is planned in the window that was said', () => {
    const way = job.wouldBuy.find(({ text }) => text.startsWith('Another handling'));
    expect(way?.probability).toBeGreaterThanOrEqual(0.8);
    const done = jobOf(planOf({ ...heavy(), handlings: [way?.handling ?? ''] }), 'heavy');
    expect(done.status).toBe('planned');
    expect(hourOf(done.startUtc)).toBeGreaterThanOrEqual(hourOf(way?.startUtc));
    expect(hourOf(done.startUtc)).toBeLessThanOrEqual(hourOf(way?.lastStartUtc));
  });

  test('so many knots more are told, and accepted they open that window and no fewer do', () => {
    const wind = job.wouldBuy.find(({ text }) => text.includes('more wind over the deck'));
    const moreKn = Number.parseFloat(wind?.text ?? '');
    expect([1, 2, 3]).toContain(moreKn);
    const done = jobOf(planOf(heavy(NO_GO_KN + moreKn)), 'heavy');
    expect(done.status).toBe('planned');
    expect(hourOf(done.startUtc)).toBeGreaterThanOrEqual(hourOf(wind?.startUtc));
    for (let fewerKn = 1; fewerKn < moreKn; fewerKn++)
      expect(jobOf(planOf(heavy(NO_GO_KN + fewerKn)), 'heavy').status).toBe('unplanned');
  });
});
