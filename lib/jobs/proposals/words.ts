import type { Job } from '../job.ts';

/** Hours, as whole ones. */
export const hoursText = (lengthH: number): string => `${Math.round(lengthH)} h`;

/** What a proposal has unless it says otherwise. */
export const NOTHING = { waitH: null, savesMin: null, add: null, orders: [] } as const;

/** An id no job of the passage has. */
export function freeId(wanted: string, jobs: readonly Job[]): string {
  let id = wanted;
  for (let count = 2; jobs.some((job) => job.id === id); count++) id = `${wanted}-${count}`;
  return id;
}
