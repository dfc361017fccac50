import type { Passage } from '../../passage/index.ts';

/** What a plan names by id, in words, and the ship's clock. An id without a name stands for itself. */
export interface ExportNames {
  /** Ship's time, minutes ahead of UTC. */
  readonly shipTimeOffsetMin: number;
  readonly handlings: ReadonlyMap<string, string>;
  readonly sailStates: ReadonlyMap<string, string>;
  /** By job, then by step. */
  readonly steps: ReadonlyMap<string, ReadonlyMap<string, string>>;
  /** What to beware of in each job. */
  readonly cautions: ReadonlyMap<string, readonly string[]>;
}

/** The names of a passage, for the exports of its plan. */
export function exportNames({ boat, jobs, settings }: Pick<Passage, 'boat' | 'jobs' | 'settings'>): ExportNames {
  return {
    shipTimeOffsetMin: settings.shipTimeOffsetMin,
    handlings: new Map(boat.handlings.map(({ id, name }) => [id, name])),
    sailStates: new Map(boat.sailStates.map(({ id, name }) => [id, name])),
    steps: new Map(jobs.map(({ id, steps }) => [id, new Map(steps.map((step) => [step.id, step.name]))])),
    cautions: new Map(jobs.map(({ id, cautions }) => [id, cautions])),
  };
}
