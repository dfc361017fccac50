/** What the benchmark of the planner's engine solves. */
import type { InstanceSpec } from '../schedule-instances/instance-spec.ts';

export interface BenchGroup {
  readonly title: string;
  readonly specs: readonly InstanceSpec[];
}

const SEED_COUNT = 25;
const LIMIT_RATIOS = [0.85, 0.75] as const;

/** Families × places × seeds × limits, with fatigue: four groups of 50 when whole. */
export function benchGroups(slotMin: number, seedCount: number = SEED_COUNT): readonly BenchGroup[] {
  const seeds = Array.from({ length: seedCount }, (_, i) => i + 1);
  return ([1, 24] as const).flatMap((lagCount) =>
    (['random', 'repair'] as const).map((family) => ({
      title: `${family}, ${lagCount === 1 ? 'one place' : `${lagCount} lags`}`,
      specs: seeds.flatMap((seed) =>
        LIMIT_RATIOS.map((limitRatio) => ({
          seed,
          family,
          hourCount: 48,
          slotMin,
          taskCount: 10,
          memberCount: 30,
          lagCount,
          isTiring: true,
          limitRatio,
        })),
      ),
    })),
  );
}

const growthSpec = (spec: Partial<InstanceSpec>): InstanceSpec => ({
  seed: 1,
  family: 'random',
  hourCount: 48,
  slotMin: 15,
  taskCount: 10,
  memberCount: 30,
  lagCount: 1,
  isTiring: true,
  limitRatio: 0.85,
  ...spec,
});

/** One thing more at a time, then everything. */
export const GROWTH_SPECS: readonly InstanceSpec[] = [
  growthSpec({}),
  growthSpec({ taskCount: 13 }),
  growthSpec({ taskCount: 16 }),
  growthSpec({ taskCount: 20 }),
  growthSpec({ taskCount: 25 }),
  growthSpec({ hourCount: 120 }),
  growthSpec({ hourCount: 240 }),
  growthSpec({ memberCount: 50 }),
  growthSpec({ memberCount: 100 }),
  growthSpec({ hourCount: 120, taskCount: 18, lagCount: 24 }),
  growthSpec({ hourCount: 240, slotMin: 10, taskCount: 25, memberCount: 50, lagCount: 24 }),
];
