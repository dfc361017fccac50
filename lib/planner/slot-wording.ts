import type { SlotWording } from '../reasons/index.ts';
import type { Preparation } from './prepare.ts';

/** How findings of a passage are read: its clock and the names of its jobs, handlings and sail states. */
export function slotWording({ passage, grid }: Preparation): SlotWording {
  const names = new Map([...passage.jobs, ...passage.boat.sailStates].map(({ id, name }) => [id, name]));
  // Handlings stand inside sentences.
  for (const { id, name } of passage.boat.handlings) names.set(id, name.charAt(0).toLowerCase() + name.slice(1));
  const steps = passage.jobs.flatMap((job) => job.steps);
  for (const step of steps) if (!names.has(step.id)) names.set(step.id, step.name);
  return {
    grid,
    shipTimeOffsetMin: passage.settings.shipTimeOffsetMin,
    nameOf: (id) => names.get(id) ?? id,
  };
}
