import type { SlotWording } from '../reasons/index.ts';
import type { Preparation } from './prepare.ts';

/** How findings of a passage are read: its clock and the names of its jobs, handlings and sail states. */
export function slotWording({ passage, grid }: Preparation): SlotWording {
  const names = new Map(
    [...passage.jobs, ...passage.boat.handlings, ...passage.boat.sailStates].map(({ id, name }) => [id, name]),
  );
  const steps = passage.jobs.flatMap((job) => job.steps);
  for (const step of steps) if (!names.has(step.id)) names.set(step.id, step.name);
  return {
    grid,
    shipTimeOffsetMin: passage.settings.shipTimeOffsetMin,
    nameOf: (id) => names.get(id) ?? id,
  };
}
