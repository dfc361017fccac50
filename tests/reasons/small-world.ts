/** A boat that lies still in weather given by the hour; searches and blocks for tests of reasons. */
import type { Job } from '../../lib/jobs/index.ts';
import { blocksOf } from '../../lib/jobs/index.ts';
import type { TableSettings, WindowSearch } from '../../lib/windows/index.ts';
import { waysOf } from '../../lib/reasons/index.ts';
import { DEFAULT_HANDLINGS } from '../../lib/boat/index.ts';
import type { LittleWeather } from '../planner/little-world.ts';
import { tableConditions, tableSettings, withLight } from '../windows/table-world.ts';

interface Rest {
  readonly settings?: Partial<TableSettings>;
  readonly wantedProbability?: number;
  readonly lightAt?: (slot: number) => number;
  readonly slotCount?: number;
  readonly fromSlot?: number;
}

/** Slot 0 is midnight UTC, slots are 10 min; light as the sun gives it unless told otherwise; deck at 10 m: limits are met exactly. */
export function smallSearch(scenarios: readonly LittleWeather[], rest: Rest = {}): WindowSearch {
  const plain = tableConditions(scenarios, { slotCount: rest.slotCount ?? 100 });
  const conditions = withLight(plain, rest.lightAt ?? (() => 0));
  return {
    handlings: DEFAULT_HANDLINGS,
    sailStateId: 'full-main',
    conditions,
    settings: tableSettings(conditions, rest.settings),
    wantedProbability: rest.wantedProbability ?? 0.8,
    fromSlot: rest.fromSlot ?? 0,
  };
}

/** Wind by the hour [kn], sea 1 m. */
export const blowing = (
  windKn: (hourH: number) => number,
  seaHeightM: (hourH: number) => number = () => 1,
): LittleWeather => ({
  windKn,
  gustKn: windKn,
  seaHeightM,
});

/** Work of the first block of a job under its first handling. */
export function workOf(job: Job, search: WindowSearch) {
  const [block] = blocksOf(job);
  const [work] = block === undefined ? [] : waysOf(job, block, search);
  if (work === undefined) throw new Error('the job has no way to be worked');
  return work;
}
