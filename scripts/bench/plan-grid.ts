/** What is planned to see how the time of a whole plan grows. */
import type { DemoSize } from './demo.ts';

export interface PlanSize extends DemoSize {
  readonly isQuick: boolean;
}

const size = (jobCount: number, memberCount: number, horizonH: number, isQuick = false): PlanSize => ({
  jobCount,
  memberCount,
  horizonH,
  isQuick,
});

/**
 * A star around 6 jobs, 11 members and 48 h, and corners away from it: the whole grid would take an hour. A control
 * without members is one forecast, on which the error model draws its own scenarios.
 */
export const PLAN_SIZES: readonly PlanSize[] = [
  size(6, 11, 48, true),
  size(3, 11, 48, true),
  size(12, 11, 48),
  size(24, 11, 48),
  size(6, 0, 48),
  size(6, 31, 48, true),
  size(6, 51, 48),
  size(6, 11, 24, true),
  size(6, 11, 96),
  size(3, 51, 96),
  size(12, 31, 96),
  size(24, 51, 24),
  size(24, 51, 96),
];

export const planSizeName = ({ jobCount, memberCount, horizonH }: DemoSize): string =>
  `${jobCount} jobs, ${memberCount === 0 ? 'control' : `${memberCount} members`}, ${horizonH} h`;
