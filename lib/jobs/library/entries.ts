import type { LibraryEntry } from './entry.ts';
import { PREPARATION_JOBS } from './preparation.table.ts';
import { SAIL_HANDLING_JOBS } from './sail-handling.table.ts';
import { SAIL_REPAIR_JOBS } from './sail-repair.table.ts';
import { RIG_JOBS } from './rig.table.ts';
import { STEERING_JOBS } from './steering.table.ts';
import { HULL_JOBS } from './hull.table.ts';
import { ENGINE_JOBS } from './engine.table.ts';
import { SYSTEMS_JOBS } from './systems.table.ts';

/**
 * The jobs Slatch knows, group by group: data as a passage file has it.
 *
 * Times and limits are defaults for a lone hand on a yacht of 10-20 m, to be edited and to be corrected by the log; limits
 * are wind over the deck (2 m) and significant wave height.
 */
export const LIBRARY_ENTRIES: readonly LibraryEntry[] = [
  ...PREPARATION_JOBS,
  ...SAIL_HANDLING_JOBS,
  ...SAIL_REPAIR_JOBS,
  ...RIG_JOBS,
  ...STEERING_JOBS,
  ...HULL_JOBS,
  ...ENGINE_JOBS,
  ...SYSTEMS_JOBS,
];
