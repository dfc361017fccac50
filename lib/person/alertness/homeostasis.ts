/** What waking hours use up and sleep gives back, in both models at once. */
import { asleepS, asleepSAsPublished, awakeS } from './three-process.ts';
import { asleepUnified, awakeUnified, type UnifiedState } from './unified-performance.ts';

export interface Homeostasis {
  /** S of the three-process model. */
  readonly s: number;
  /** S and L of the unified model. */
  readonly unified: UnifiedState;
}

/** `as-published` lets S of the three-process model jump where sleep begins above 12.2: for comparison only. */
export type SleepFormula = 'continuous' | 'as-published';

export const afterAwake = ({ s, unified }: Homeostasis, elapsedH: number): Homeostasis => ({
  s: awakeS({ s, elapsedH }),
  unified: awakeUnified(unified, elapsedH),
});

/** @param elapsedH hours of sleep: time in the bunk × efficiency */
export const afterAsleep = (
  { s, unified }: Homeostasis,
  elapsedH: number,
  formula: SleepFormula = 'continuous',
): Homeostasis => ({
  s: formula === 'as-published' ? asleepSAsPublished({ s, elapsedH }) : asleepS({ s, elapsedH }),
  unified: asleepUnified(unified, elapsedH),
});
