/**
 * Sleep and alertness of the synthetic instances: homeostatic S and a daily rhythm in the form of T. Åkerstedt & S. Folkard,
 * Chronobiology International 14(2), 1997. Parameters from memory; a named model of these instances, not the product's.
 */
import type { RestModel } from '../../lib/schedule/index.ts';
import { type InstanceSpec, isLight, slotCountOf, slotHours, slotsOf, timeOfDayH } from './instance-spec.ts';

const AWAKE_FLOOR = 2.4;
const AWAKE_RATE_PER_H = 0.0353;
const ASLEEP_CEILING = 14.3;
const ASLEEP_RATE_PER_H = 0.381;
const RHYTHM_AMPLITUDE = 2.5;
const RHYTHM_PEAK_H = 16.8;

const SLEEP_MIN = [30, 60, 90, 120, 180] as const;

/** S after a stretch: an exponential approach, exact for any length. */
const approach =
  (target: number, ratePerSlot: number) =>
  (s: number, slots: number): number =>
    target + (s - target) * Math.exp(-ratePerSlot * slots);

export const awakeSBySlot = (hours: number): RestModel['awakeS'] => approach(AWAKE_FLOOR, AWAKE_RATE_PER_H * hours);
export const asleepSBySlot = (hours: number): RestModel['asleepS'] =>
  approach(ASLEEP_CEILING, ASLEEP_RATE_PER_H * hours);

export const rhythmAt = (timeOfDay: number): number =>
  RHYTHM_AMPLITUDE * Math.cos((2 * Math.PI * (timeOfDay - RHYTHM_PEAK_H)) / 24);

/** Sleep by night costs twice what it costs by day: nobody sees an unlit boat. */
export function restModel(spec: InstanceSpec): RestModel {
  const slotCount = slotCountOf(spec);
  const hours = slotHours(spec);
  return {
    startS: 12,
    startWokeSlot: 0,
    startClearSlots: new Int32Array(0),
    awakeS: awakeSBySlot(hours),
    asleepS: asleepSBySlot(hours),
    rhythmPoints: Float64Array.from({ length: slotCount + 1 }, (_, t) => rhythmAt(timeOfDayH(t, spec))),
    sleepSlots: SLEEP_MIN.map((minutes) => slotsOf(minutes, spec.slotMin)),
    lookoutSlots: 1,
    sleepAllowed: new Uint8Array(slotCount).fill(1),
    sleepCostPoints: Int32Array.from({ length: slotCount }, (_, t) => (isLight(t, spec) ? 1 : 2)),
    leastEndS: 9,
    inertiaSlots: [],
    refusesHistory: null,
  };
}
