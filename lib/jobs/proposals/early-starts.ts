import type { BackgroundWait, Job } from '../job.ts';
import { libraryJob } from '../library/library.ts';
import { waitP80H } from '../waits.ts';
import type { Proposal } from './proposal.ts';
import { allBefore, needsDown, type SailDrop } from './sail-drop.ts';
import { freeId } from '../free-id.ts';
import { hoursText, NOTHING } from './words.ts';

/** Soaks and cures of the library that jobs would be glad of and that are not there, or that they do not wait for. */
export function earlyStarts(jobs: readonly Job[], drop: SailDrop | null): Proposal[] {
  const wanted = new Map<string, Job[]>();
  for (const job of jobs) for (const id of job.startEarly) wanted.set(id, [...(wanted.get(id) ?? []), job]);
  return [...wanted].flatMap(([libraryId, glad]) => {
    const there = jobs.find((other) => other.from === libraryId || other.id === libraryId);
    return there === undefined
      ? startOf(libraryId, glad, { jobs, drop })
      : orderOf(
          there,
          glad.filter((job) => job.id !== drop?.drop.id),
          jobs,
        );
  });
}

/** One that is not there: to be added. The drop itself waits for no soak: what is done while the sail is down does. */
function startOf(
  libraryId: string,
  glad: readonly Job[],
  { jobs, drop }: { jobs: readonly Job[]; drop: SailDrop | null },
): Proposal[] {
  const library = libraryJob(libraryId);
  if (library === null) return [];
  const id = freeId(
    libraryId,
    jobs.map((job) => job.id),
  );
  const isDown = drop !== null && needsDown(library, drop.downStates);
  const priority = Math.max(...glad.map(({ priorityWeight }) => priorityWeight));
  return [
    {
      ...NOTHING,
      kind: 'start-now',
      jobIds: glad.map((job) => job.id),
      waitH: waitHOf(library),
      text: `Start “${library.name}” now: ${namesOf(glad)} will be glad of it.${waitText(library)}`,
      add: { id, from: libraryId, priority, ...(isDown ? { after: [drop.drop.id] } : {}) },
      orders: glad.filter((job) => job.id !== drop?.drop.id).map((job) => ({ jobId: job.id, after: id })),
    },
  ];
}

/** One that is there and nobody waits for; a soak that some job waits for is that job's own: another fastener's. */
function orderOf(there: Job, glad: readonly Job[], jobs: readonly Job[]): Proposal[] {
  const lacking = glad.filter((job) => job.id !== there.id && !allBefore(job, jobs).has(there.id));
  if (lacking.length === 0 || jobs.some(({ after }) => after.includes(there.id))) return [];
  return [
    {
      ...NOTHING,
      kind: 'start-now',
      jobIds: [...lacking.map((job) => job.id), there.id],
      waitH: waitHOf(there),
      text: `${namesOf(lacking)} should wait for “${there.name}”: add "${there.id}" to its after.${waitText(there)}`,
      orders: lacking.map((job) => ({ jobId: job.id, after: there.id })),
    },
  ];
}

const namesOf = (jobs: readonly Job[]): string => jobs.map(({ name }) => `“${name}”`).join(', ');

const longestWait = (job: Job): BackgroundWait | null =>
  job.steps
    .flatMap(({ waitAfter }) => (waitAfter === null ? [] : [waitAfter]))
    .toSorted((a, b) => waitP80H(b) - waitP80H(a))[0] ?? null;

function waitHOf(job: Job): number | null {
  const wait = longestWait(job);
  return wait === null ? null : waitP80H(wait);
}

function waitText(job: Job): string {
  const wait = longestWait(job);
  return wait === null ? '' : ` Its ${wait.kind} takes ${hoursText(waitP80H(wait))} by itself.`;
}
