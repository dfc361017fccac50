import type { GatedStep } from '../gates.ts';

/** How hard a step of a job is on the body, as the job says it. */
export type Effort = GatedStep['effort'];
