import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { WorkMinutes } from '../../lib/jobs/index.ts';
import { rehearse, type RehearsalEntry } from '../../lib/rehearsal/index.ts';
import { golden } from './golden.ts';
import { brokenFrom, core, never, scanOf, settingsFor, SLOT_COUNT } from './little-plan.ts';
import { longOrShort } from '../long-run.ts';

const SEED = 20260601;
const DRAWS = 256;

interface DrawnEntry {
  readonly startSlot: number;
  readonly work: WorkMinutes;
  readonly stretchMin: number;
}

const drawnEntry: fc.Arbitrary<DrawnEntry> = fc
  .record({
    startSlot: fc.integer({ min: 0, max: 40 }),
    leastMin: fc.integer({ min: 1, max: 40 }),
    moreMin: fc.integer({ min: 0, max: 40 }),
    mostMin: fc.integer({ min: 0, max: 90 }),
    stretchMin: fc.integer({ min: 0, max: 30 }),
  })
  .map(({ startSlot, leastMin, moreMin, mostMin, stretchMin }) => ({
    startSlot,
    work: { leastMin, likelyMin: leastMin + moreMin, mostMin: leastMin + moreMin + mostMin },
    stretchMin,
  }));

/** Scenario w breaks for good at a slot of its own. */
const broken = brokenFrom(Array.from({ length: DRAWS }, (_, w) => 5 + ((w * 37) % (SLOT_COUNT - 5))));
const scan = scanOf(broken);

const planOf = (drawn: readonly DrawnEntry[], stretched: boolean): RehearsalEntry[] =>
  drawn
    .map(({ startSlot, work, stretchMin }, index) => {
      const moreMin = stretched ? stretchMin : 0;
      const longer = {
        leastMin: work.leastMin + moreMin,
        likelyMin: work.likelyMin + moreMin,
        mostMin: work.mostMin + moreMin,
      };
      const entry = core(String(index), { startSlot, lengthMin: 1, broken: [] });
      return { ...entry, steps: [{ id: 'work', work: longer, scan }] };
    })
    .toSorted((a, b) => a.startSlot - b.startSlot);

const calm = scanOf(never(DRAWS));
const inCalm = (entry: RehearsalEntry): RehearsalEntry => ({
  ...entry,
  steps: entry.steps.map((step) => ({ ...step, scan: calm })),
});

const settings = settingsFor(DRAWS);
const drawnPlan = fc.array(drawnEntry, { minLength: 1, maxLength: 5 });

describe('rehearse, plans drawn at random', () => {
  test('shares lie between 0 and 1, the ways an entry ends sum to 1, and all done is no likelier than any one', () => {
    fc.assert(
      fc.property(drawnPlan, (drawn) => {
        const rehearsal = rehearse(planOf(drawn, false), settings);
        const all = rehearsal.allDoneInsideLimitsProbability ?? Number.NaN;
        const single = rehearsal.jobs.map((job) => job.doneInsideLimitsProbability);
        for (const entry of rehearsal.entries) {
          const sum = entry.doneInsideLimitsProbability + entry.interruptedProbability + entry.notBegunProbability;
          expect(sum).toBeCloseTo(1, 9);
        }
        expect(all).toBeGreaterThanOrEqual(0);
        expect(all).toBeLessThanOrEqual(Math.min(...single) + 1e-12);
        // Bonferroni's inequality.
        expect(all).toBeGreaterThanOrEqual(1 - single.reduce((sum, share) => sum + 1 - share, 0) - 1e-9);
        expect(rehearsal.expectedJobsDoneCount).toBeCloseTo(
          single.reduce((sum, share) => sum + share, 0),
          9,
        );
      }),
      { seed: SEED, numRuns: longOrShort(60, 25) },
    );
  });

  test('weather that only gets worse: longer work is done no likelier, job by job', () => {
    fc.assert(
      fc.property(drawnPlan, (drawn) => {
        const [planned, longer] = [false, true].map((stretched) => rehearse(planOf(drawn, stretched), settings));
        for (const [k, job] of (longer?.jobs ?? []).entries())
          expect(job.doneInsideLimitsProbability).toBeLessThanOrEqual(
            (planned?.jobs[k]?.doneInsideLimitsProbability ?? -1) + 1e-12,
          );
      }),
      { seed: SEED, numRuns: longOrShort(60, 25) },
    );
  });

  test('the same draws whatever the plan: its length of work is the job’s own, not its place’s', () => {
    fc.assert(
      fc.property(drawnEntry, drawnEntry, (a, b) => {
        const [first, second] = planOf(
          [
            { ...a, startSlot: 0 },
            { ...b, startSlot: 30 },
          ],
          false,
        ).map(inCalm);
        if (first === undefined || second === undefined) throw new Error('two entries');
        const together = rehearse([first, second], settings);
        const exchanged = rehearse(
          [
            { ...second, startSlot: 0 },
            { ...first, startSlot: 30 },
          ],
          settings,
        );
        expect(rehearse([second], settings).entries[0]).toEqual(together.entries[1]);
        expect(exchanged.entries[1]?.endMin?.p90).toBeCloseTo((together.entries[0]?.endMin?.p90 ?? 0) + 300, 6);
        expect(exchanged.entries[0]?.endMin?.p90).toBeCloseTo((together.entries[1]?.endMin?.p90 ?? 0) - 300, 6);
      }),
      { seed: SEED, numRuns: 30 },
    );
  });

  test('the same seed: the same rehearsal; another seed: other draws', () => {
    const plan = planOf([{ startSlot: 0, work: { leastMin: 20, likelyMin: 60, mostMin: 300 }, stretchMin: 0 }], false);
    expect(rehearse(plan, settings)).toEqual(rehearse(plan, settings));
    expect(rehearse(plan, { ...settings, seed: 2 }).entries[0]?.endMin).not.toEqual(
      rehearse(plan, settings).entries[0]?.endMin,
    );
  });
});

describe('a chain of three steps in calm weather', () => {
  const { cases } = golden('jobs/correlated-draws') as {
    cases: readonly { name: string; steps: readonly WorkMinutes[]; p50Min: number; p90Min: number }[];
  };

  test.each(cases)('$name: ends at the P50 and P90 of the stored two million draws', ({ steps, p50Min, p90Min }) => {
    const entry = {
      ...core('a', { startSlot: 0, lengthMin: 1, broken: [] }),
      steps: steps.map((work, index) => ({ id: String(index), work, scan: scanOf(never(1024)) })),
    };
    const sobolSteps = steps.map((_, index) => ({ jobId: 'a', stepId: String(index) }));
    const { endMin } = rehearse([entry], { ...settingsFor(1024), sobolSteps }).entries[0] ?? {};
    expect(Math.abs((endMin?.p50 ?? 0) / p50Min - 1)).toBeLessThan(0.02);
    expect(Math.abs((endMin?.p90 ?? 0) / p90Min - 1)).toBeLessThan(0.02);
  });
});
