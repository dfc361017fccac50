/** What a synthetic planning problem is made from. The same values give the same problem, octet by octet. */
export interface InstanceSpec {
  readonly seed: number;
  readonly family: 'random' | 'repair';
  readonly hourCount: number;
  /** Minutes in a slot. */
  readonly slotMin: number;
  /** Tasks of the random family; the repair family always has its ten. */
  readonly taskCount: number;
  readonly memberCount: number;
  /** 1: the boat keeps her place whatever is done. */
  readonly lagCount: number;
  readonly isTiring: boolean;
  /** Factor on every limit of wind and sea: the lower, the fewer members stay inside. */
  readonly limitRatio: number;
}

/** The slots of a duration in minutes, rounded up. */
export const slotsOf = (minutes: number, slotMin: number): number => Math.max(1, Math.ceil(minutes / slotMin - 1e-9));

export const slotCountOf = ({ hourCount, slotMin }: InstanceSpec): number => Math.round((hourCount * 60) / slotMin);

export const slotHours = ({ slotMin }: InstanceSpec): number => slotMin / 60;

/** Time of day at which every instance begins, h. */
const START_H = 8;

export const timeOfDayH = (slot: number, spec: InstanceSpec): number => (START_H + slot * slotHours(spec)) % 24;

/** Light from 06:00 to 18:30. */
export function isLight(slot: number, spec: InstanceSpec): boolean {
  const timeH = timeOfDayH(slot, spec);
  return timeH >= 6 && timeH < 18.5;
}
