import { describe, expect, test } from 'vitest';
import { planPassage } from '../../lib/planner/index.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { REAL_VOYAGES, realForecast, realPassage } from '../windows/real-passage.ts';
import { LITTLE_SOLVE } from './plan-little.ts';

// A plan on a real wind-only forecast (NOAA GFS, November 2016): no limit of the sea can be answered.

const forecast = realForecast();

describe.each(IS_LONG_RUN ? REAL_VOYAGES : REAL_VOYAGES.slice(1))('plan in the $box', (voyage) => {
  const passage = realPassage(voyage);
  const planned = planPassage({ passage, forecast, nowEpochMs: passage.start.epochMs }, LITTLE_SOLVE);
  if (!planned.ok) throw new Error(JSON.stringify(planned.problems));
  const { plan } = planned.value;

  test('places every job, and every one only conditionally', () => {
    expect(plan.jobs.map(({ jobId, status }) => [jobId, status])).toEqual([
      ['short', 'conditional'],
      ['middling', 'conditional'],
      ['long', 'conditional'],
    ]);
    for (const job of plan.jobs) expect(job.unknownLimits).toEqual(['sea-height', 'handling-sea']);
  });

  test('none of them counts in what the plan promises', () => {
    expect(plan.totals.allDoneProbability).toBeNull();
  });

  test('says what the file lacks and what the eye must judge before starting', () => {
    expect(plan.forecast.missing).toContain('seaHeight');
    for (const job of plan.jobs) {
      expect(
        job.goCheck.filter((line) => line.includes('The forecast holds no sea: judge it by eye first.')),
      ).toHaveLength(1);
      expect(job.goCheck).toContain('No squall lines to windward.');
      expect(job.why).toContain('Conditional');
    }
  });

  test('starts every job in one of its windows', () => {
    const { preparation, windows } = planned.value;
    for (const job of plan.jobs) {
      const startSlot = (Date.parse(job.startUtc ?? '') - preparation.grid.firstEpochMs) / 600_000;
      const own =
        windows
          .find(({ jobId }) => jobId === job.jobId)
          ?.windows.filter(({ handlingId }) => handlingId === job.handling) ?? [];
      const nearestSlots = Math.min(
        ...own.map(({ firstStartSlot, lastStartSlot }) =>
          Math.max(0, firstStartSlot - startSlot, startSlot - lastStartSlot),
        ),
      );
      // Windows are on the nominal track; work before it has put the boat elsewhere: an hour at most.
      expect(nearestSlots).toBeLessThanOrEqual(6);
    }
  });
});
