import { blocksOf, type Job } from '../lib/jobs/index.ts';
import type { Passage } from '../lib/passage/index.ts';
import { blockSailStates, workingSailState } from '../lib/windows/index.ts';
import type { JobMenu, ShownNames } from './presenters/shown-names.ts';

/** Names of a passage that its plan holds only as ids, and what can be asked of each job. */
export function shownNames(passage: Passage): ShownNames {
  return {
    jobs: passage.jobs.map((job) => jobMenu(job, passage)),
    sailStates: Object.fromEntries(passage.boat.sailStates.map(({ id, name }) => [id, name])),
  };
}

function jobMenu(job: Job, passage: Passage): JobMenu {
  const handlings = job.handlings.flatMap((id) => passage.boat.handlings.filter((handling) => handling.id === id));
  return {
    jobId: job.id,
    name: job.name,
    after: job.after,
    parts: blocksOf(job).map((block) => {
      const sailStateId = workingSailState(blockSailStates(job, block.index), passage.start.sailStateId);
      return {
        steps: block.steps.map(({ id, name }) => ({ id, name })),
        inSessions: block.session !== null,
        handlingIds: handlings.filter(({ sailStates }) => sailStates.includes(sailStateId)).map(({ id }) => id),
      };
    }),
  };
}
