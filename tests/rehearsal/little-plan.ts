/** Plans of a few entries in weather told by the slot it breaks at. */
import type { LimitScan, RehearsalEntry, RehearsalSettings } from '../../lib/rehearsal/index.ts';

export const SLOT_COUNT = 60;

/** Limits are broken in [from, to) of each scenario, nowhere else. */
export type Broken = readonly { readonly fromSlot: number; readonly toSlot: number }[];

/** From these slots on limits are broken, one scenario each. */
export const brokenFrom = (slots: readonly number[]): Broken =>
  slots.map((fromSlot) => ({ fromSlot, toSlot: SLOT_COUNT }));

export function scanOf(broken: Broken): LimitScan {
  const nextBroken = new Int32Array(broken.length * SLOT_COUNT);
  for (const [w, span] of broken.entries()) {
    for (let i = SLOT_COUNT - 1, next = SLOT_COUNT; i >= 0; i--) {
      if (i >= span.fromSlot && i < span.toSlot) next = i;
      nextBroken[w * SLOT_COUNT + i] = next;
    }
  }
  return { nextBroken, firstSlot: 0, slotCount: SLOT_COUNT };
}

/** A core of one step of fixed length. */
export function core(jobId: string, of: { startSlot: number; lengthMin: number; broken: Broken }): RehearsalEntry {
  const { startSlot, lengthMin, broken } = of;
  return {
    jobId,
    isCore: true,
    conditional: false,
    startSlot,
    resumeMin: 0,
    factorRatio: 1,
    steps: [
      { id: 'work', work: { leastMin: lengthMin, likelyMin: lengthMin, mostMin: lengthMin }, scan: scanOf(broken) },
    ],
    makeSafeMin: 0,
    after: [],
  };
}

export const session = (jobId: string, of: Parameters<typeof core>[1], resumeMin = 0): RehearsalEntry => ({
  ...core(jobId, of),
  isCore: false,
  makeSafeMin: 10,
  resumeMin,
});

/** Slots of ten minutes; scenarios weigh the same. */
export const settingsFor = (scenarioCount: number, seed = 1): RehearsalSettings => ({
  seed,
  slotMin: 10,
  slotCount: SLOT_COUNT,
  weights: new Int32Array(scenarioCount).fill(1000),
  memberIndex: null,
  sobolSteps: [],
});

export const never = (scenarioCount: number): Broken =>
  brokenFrom(Array.from({ length: scenarioCount }, () => SLOT_COUNT));
