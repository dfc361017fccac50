import { describe, expect, test } from 'vitest';
import { firstFair, prepared, rehearsedOn } from '../../scripts/studies/planner.ts';
import {
  littleJob,
  littlePassage,
  littleStep,
  littleWeather,
  onlyNoGo,
  withBoatSpeed,
  type LittleWeather,
} from '../planner/little-world.ts';

// Four weathers: the wind rises for good at an hour of its own. Planning begins at hour 12, in slots of ten minutes.

const risingAt = (hours: readonly number[]): LittleWeather[] =>
  hours.map((riseH) => ({ windKn: (hourH) => (hourH < riseH ? 6 : 20), seaHeightM: () => 0.5 }));

function rehearsed(jobs: Parameters<typeof littlePassage>[0], rises: readonly number[]) {
  const passage = withBoatSpeed(littlePassage(jobs, { wantedProbability: 0.5 }), 0);
  const weather = littleWeather(risingAt(rises), 48);
  const preparation = prepared(passage, weather);
  const reporting = { ...weather, memberIndex: Int32Array.of(0, 1, 2, 3) };
  const plan = firstFair(preparation, reporting);
  return { plan, rehearsal: rehearsedOn(preparation, plan, { scenarios: reporting, seed: 1 }) };
}

describe('a plan rehearsed, durations without spread', () => {
  test('weather that holds to the end of the reference period: done as stated', () => {
    const job = littleJob('a', [littleStep('a', 120, { deckWindKn: onlyNoGo(10) })]);
    const { plan, rehearsal } = rehearsed([job], [40, 40, 40, 14]);
    expect(plan.jobs[0]?.probability).toBe(0.75);
    expect(rehearsal.jobs[0]).toMatchObject({
      doneInsideLimitsProbability: 0.75,
      coreInterruptedProbability: 0.25,
      lateProbability: 0,
    });
    const placed = plan.report.entries[0]?.placed;
    expect(rehearsal.jobs[0]?.endMin?.p50).toBeCloseTo((placed?.startSlot ?? 0) * 10 + 120, 6);
  });

  test('weather that breaks in the contingency: the reference period fails, the work itself is done', () => {
    const job = littleJob('a', [littleStep('a', 120, { deckWindKn: onlyNoGo(10) })]);
    // Two hours of work and one of contingency from hour 12 on.
    const { plan, rehearsal } = rehearsed([job], [40, 40, 40, 14.6]);
    expect(plan.jobs[0]?.probability).toBe(0.75);
    expect(rehearsal.jobs[0]?.doneInsideLimitsProbability).toBe(1);
  });

  test('sessions share the work between them, and the job after them waits for the last', () => {
    const step = { ...littleStep('sew', 200, { deckWindKn: onlyNoGo(18) }), stop: 'anywhere' as const };
    const jobs = [littleJob('sew', [step]), littleJob('b', [littleStep('b', 30)], { after: ['sew'] })];
    const { plan, rehearsal } = rehearsed(jobs, [40, 40, 40, 40]);
    const placed = plan.report.entries.map((entry) => entry.placed);
    const sewnMin = rehearsal.entries.flatMap(({ jobId, endMin }, k) => {
      const entry = placed[k];
      if (jobId !== 'sew' || entry === undefined || endMin === null) return [];
      const factorRatio = (entry.plannedMin - entry.resumeMin) / entry.workMin;
      return [(endMin.p50 - entry.startSlot * 10 - entry.resumeMin) / factorRatio];
    });
    expect(sewnMin.length).toBeGreaterThan(1);
    expect(sewnMin.reduce((sum, min) => sum + min, 0)).toBeCloseTo(200, 6);
    expect(rehearsal.entries.at(-1)?.jobId).toBe('b');
    expect(placed.at(-1)?.startSlot).toBeGreaterThanOrEqual((rehearsal.entries.at(-2)?.endMin?.p50 ?? Infinity) / 10);
    expect(rehearsal.allDoneInsideLimitsProbability).toBe(1);
    expect(rehearsal.expectedJobsDoneCount).toBe(2);
  });
});
