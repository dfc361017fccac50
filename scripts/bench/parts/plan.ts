/** The whole plan, from a forecast in memory to what is published, by jobs, members and hours. */
import { type BenchCase, caseOfRounds, type Part } from '../bench-case.ts';
import { growthLines, growthOf, type TimedSize } from '../growth-words.ts';
import { PLAN_SIZES, type PlanSize, planSizeName } from '../plan-grid.ts';
import { runPlan } from '../plan-run.ts';

/** Sizes whose plan takes a few seconds are planned more than once, which tells the spread. */
const ROUND_COUNT = 2;
const LONG_ROUND_COUNT = 1;
const LONG_JOB_COUNT = 12;

const memoryName = (size: PlanSize): string => `peak of memory, ${planSizeName(size)}`;

function measureSize(size: PlanSize, isQuick: boolean): { readonly cases: readonly BenchCase[] } & TimedSize {
  const roundCount = isQuick || size.jobCount >= LONG_JOB_COUNT ? LONG_ROUND_COUNT : ROUND_COUNT;
  const runs = Array.from({ length: roundCount }, () => runPlan(size));
  // Each run is held against the reference before it and after it: how far these two lie apart is part of the spread.
  const pairs = runs.flatMap(({ planMs, referenceMs }) =>
    referenceMs.map((reference) => ({ ours: planMs, reference })),
  );
  // Peak over what the process held with the forecast read.
  const memory = runs.map(({ peakMib, beforeMib }) => ({ ours: peakMib, reference: beforeMib }));
  const cases = [caseOfRounds(planSizeName(size), 'ms', pairs), caseOfRounds(memoryName(size), 'MiB', memory)];
  const [run] = runs.toSorted((a, b) => a.planMs - b.planMs);
  if (run === undefined) throw new Error('no round was made');
  console.error(`  ${planSizeName(size)}: ${(run.planMs / 1000).toFixed(1)} s of the processor, ${run.peakMib} MiB`);
  return { size, run, cases };
}

export const planPart: Part = {
  caseNames: () => PLAN_SIZES.flatMap((size) => [planSizeName(size), memoryName(size)]),
  measure: async ({ isQuick }) => {
    const timed = PLAN_SIZES.filter((size) => size.isQuick || !isQuick).map((size) => measureSize(size, isQuick));
    return {
      cases: timed.flatMap(({ cases }) => cases),
      skipped: [],
      notes: [
        'plan: times are of the processor; the reference is a fixed piece of work in the same process (reference-work.ts)',
        ...growthLines(timed),
      ],
      figures: { runs: timed.map(({ size, run }) => ({ size, run })), growth: growthOf(timed) },
    };
  },
};
