/**
 * The two-process model of sleep: pressure S, 0 … 1, rises awake and falls asleep between two levels.
 *
 * A sanity check of the other models only: there is no published way from its S to what a person can do, so no gate and
 * no plan asks it. The levels are taken at their mean, without the swing of the body clock.
 *
 * @see sources.SKELDON_DIJK_2025
 */
import { TWO_PROCESS } from './two-process.table.ts';

const AWAKE_H = TWO_PROCESS.awakeTimeConstant.value;
const ASLEEP_H = TWO_PROCESS.asleepTimeConstant.value;
const UPPER = TWO_PROCESS.upperThreshold.value;
const LOWER = TWO_PROCESS.lowerThreshold.value;

/** Pressure after some hours awake: 1 − (1 − S) e^(−t / 18.2). */
export const awakePressureRatio = ({ pressureRatio, elapsedH }: { pressureRatio: number; elapsedH: number }): number =>
  1 - (1 - pressureRatio) * Math.exp(-elapsedH / AWAKE_H);

/** Pressure after some hours of sleep: S e^(−t / 4.2). */
export const asleepPressureRatio = ({ pressureRatio, elapsedH }: { pressureRatio: number; elapsedH: number }): number =>
  pressureRatio * Math.exp(-elapsedH / ASLEEP_H);

/** Hours of sleep from the upper level down to the lower. */
export const naturalSleepH = (): number => ASLEEP_H * Math.log(UPPER / LOWER);

/** Hours awake from the lower level up to the upper. */
export const naturalWakeH = (): number => AWAKE_H * Math.log((1 - LOWER) / (1 - UPPER));
