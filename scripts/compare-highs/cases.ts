/** Medium problems at one place, with and without fatigue. */
import type { InstanceSpec } from '../schedule-instances/instance-spec.ts';

export interface CompareCase {
  readonly title: string;
  readonly spec: InstanceSpec;
}

const FAMILIES = ['random', 'repair'] as const;
const SEEDS = [1, 2, 3] as const;
const LIMIT_RATIOS = [0.85, 0.75] as const;

export const COMPARE_CASES: readonly CompareCase[] = [false, true].flatMap((isTiring) =>
  FAMILIES.flatMap((family) =>
    SEEDS.flatMap((seed) =>
      LIMIT_RATIOS.map((limitRatio) => ({
        title: `${family} ${seed}, limits × ${limitRatio}, ${isTiring ? 'fatigue' : 'no fatigue'}`,
        spec: {
          seed,
          family,
          hourCount: 48,
          slotMin: 15,
          taskCount: 10,
          memberCount: 30,
          lagCount: 1,
          isTiring,
          limitRatio,
        },
      })),
    ),
  ),
);
