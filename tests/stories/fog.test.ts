import { describe, expect, test } from 'vitest';
import { FOG } from '../golden/stories/fog.table.ts';
import type { LittleWeather } from '../planner/little-world.ts';
import {
  littleJob,
  littlePassage,
  littleStep,
  littleWeather,
  onlyNoGo,
  withBoatSpeed,
} from '../planner/little-world.ts';
import { planLittle, QUICK } from '../planner/plan-little.ts';
import { hourOf, jobOf } from './story.ts';

// 63° N in June: it never gets darker than civil twilight, and the light air comes with fog. Work on deck by eye needs two
// miles; the clear hours are the person's usual night, 21:00 to 07:00 by the sun at 30° W.

const isFog = (hourH: number): boolean => FOG.fog.some(([fromH, toH]) => hourH >= fromH && hourH < toH);
const at = (hourH: number) => (isFog(hourH) ? FOG.inFog : FOG.clear);
const weather: LittleWeather = {
  windKn: (hourH) => at(hourH).windKn,
  visibilityNm: (hourH) => at(hourH).visibilityNm,
  seaHeightM: () => FOG.seaHeightM,
  airC: 9,
};

const LEAST_NM = 2;
const limits = { daylight: 'required', visibilityLeastNm: LEAST_NM } as const;
const rig = littleJob('rig', [littleStep('rig', 240, { ...limits, deckWindKn: onlyNoGo(18) })]);
const sew = littleJob('sew', [littleStep('sew', 60, { ...limits, deckWindKn: onlyNoGo(8) })]);

const northern = (jobs: Parameters<typeof littlePassage>[0]) => {
  const passage = withBoatSpeed(littlePassage(jobs, { deckHeightM: 10 }), 0);
  const waypoints = [-30, -10].map((lon) => ({ lat: 63, lon, name: null, leg: 'rhumb' as const }));
  return { ...passage, start: { ...passage.start, position: { lat: 63, lon: -30 } }, track: { waypoints } };
};
const { plan } = planLittle(northern([rig, sew]), littleWeather([weather], FOG.horizonH));
const slotsOf = (entry: { startUtc: string; endUtc: string }): number[] => {
  const fromH = hourOf(entry.startUtc);
  return Array.from({ length: Math.round((hourOf(entry.endUtc) - fromH) * 6) }, (_, k) => fromH + k / 6);
};

describe('fog in the light air', () => {
  test('the job that needs eyes goes into the clear hours, though the air is light only in the fog', () => {
    const job = jobOf(plan, 'rig');
    expect(job.status).toBe('planned');
    expect(slotsOf({ startUtc: job.startUtc ?? '', endUtc: job.endUtc ?? '' }).some(isFog)).toBe(false);
    expect(at(hourOf(job.startUtc)).windKn).toBe(16);
  });

  test('what stood against an earlier start is the visibility: 0.3 miles against two', () => {
    const [latest] = jobOf(plan, 'rig').notEarlier.filter(({ finding }) => finding?.rule === 'visibility');
    expect(latest?.finding).toMatchObject({ required: LEAST_NM, unit: 'nm', scenarioShare: 1 });
    expect(latest?.finding?.observed).toBeCloseTo(FOG.inFog.visibilityNm, 5);
    expect(isFog(hourOf(latest?.lastStartUtc))).toBe(true);
  });

  test('the job for light air has its wind only in fog and is not planned; without fog it would go there', () => {
    expect(jobOf(plan, 'sew').status).toBe('unplanned');
    const open = planLittle(northern([sew]), littleWeather([{ ...weather, visibilityNm: 12 }], FOG.horizonH), {
      solve: QUICK,
    }).plan;
    expect(jobOf(open, 'sew').status).toBe('planned');
    expect(isFog(hourOf(jobOf(open, 'sew').startUtc))).toBe(true);
  });

  test('a job longer than the clear hours has no window: visibility binds, short by 1.7 miles, from the hour of the fog', () => {
    // Eight hours and four of contingency against ten clear hours.
    const long = littleJob('long', [littleStep('long', 480, { ...limits, deckWindKn: onlyNoGo(18) })]);
    const job = jobOf(planLittle(northern([long]), littleWeather([weather], FOG.horizonH)).plan, 'long');
    expect(job.status).toBe('unplanned');
    const { nearestMiss } = job;
    expect(nearestMiss?.bindingLimit).toMatchObject({ limit: 'visibility', required: LEAST_NM, unit: 'nm' });
    expect(nearestMiss?.bindingLimit?.margin).toBeCloseTo(FOG.inFog.visibilityNm - LEAST_NM, 5);
    expect(isFog(hourOf(nearestMiss?.bindingLimit?.atUtc))).toBe(true);
    expect(nearestMiss?.probability).toBe(0);
  });

  test('the fog is slept in, for a night of work that nobody awake since morning may begin', () => {
    const work = plan.entries.filter(({ kind }) => kind === 'work');
    const before = plan.entries.filter(({ kind, endUtc }) => kind === 'sleep' && endUtc <= (work[0]?.startUtc ?? ''));
    const slept = before.flatMap(slotsOf);
    expect(slept.length / 6).toBeGreaterThanOrEqual(1.5);
    expect(slept.filter(isFog).length).toBe(slept.length);
    // Sleepiness on the model's mean line is 9.68 − 0.46 · alertness (Ingre et al. 2014); deck work needs 7, that is 6.46.
    for (const entry of work) expect(entry.kssEnd).toBeLessThanOrEqual(6.46);
  });
});
