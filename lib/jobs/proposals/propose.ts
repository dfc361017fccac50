import type { SailState } from '../../boat/index.ts';
import type { BackgroundWait, Job } from '../job.ts';
import { libraryJob } from '../library/library.ts';
import { waitP80H } from '../waits.ts';
import type { Proposal } from './proposal.ts';
import { allBefore, needsDown, sailDropOf, type SailDrop } from './sail-drop.ts';

/** Jobs of a passage, those done left out, and the boat's sail states. */
export interface ProposalInput {
  readonly jobs: readonly Job[];
  readonly sailStates: readonly SailState[];
}

/**
 * What the list of jobs lacks: soaks and cures to begin at once because a later job needs them; work that would share the
 * drop of the mainsail; jobs that need the sail down but are not placed between drop and hoist.
 *
 * Times of waits are those at the temperature they hold at: how long they take in the air to come, the plan says.
 */
export function proposalsFor({ jobs, sailStates }: ProposalInput): readonly Proposal[] {
  const drop = sailDropOf(jobs, sailStates);
  const early = earlyStarts(jobs, drop);
  const taken = early.flatMap(({ add }) => add?.from ?? []);
  return [
    ...waitsToBegin(jobs),
    ...early,
    ...(drop === null ? [] : [...ordersLacking(jobs, drop), ...sharingTheDrop(jobs, drop, taken)]),
  ];
}

const hoursText = (lengthH: number): string => `${Math.round(lengthH)} h`;

const longestWait = (job: Job): BackgroundWait | null =>
  job.steps
    .flatMap(({ waitAfter }) => (waitAfter === null ? [] : [waitAfter]))
    .toSorted((a, b) => waitP80H(b) - waitP80H(a))[0] ?? null;

/** Jobs of the passage whose wait others wait for: the sooner begun, the sooner over. */
function waitsToBegin(jobs: readonly Job[]): Proposal[] {
  return jobs.flatMap((job) => {
    const wait = job.steps.at(-1)?.waitAfter ?? null;
    const waiting = jobs.filter(({ after }) => after.includes(job.id));
    if (wait === null || waiting.length === 0) return [];
    const waitH = waitP80H(wait);
    const names = waiting.map(({ name }) => `“${name}”`).join(', ');
    const text = `Begin “${job.name}” as early as you can: ${names} must wait for its ${wait.kind}, ${hoursText(waitH)}.`;
    return [{ ...nothing, kind: 'start-now', jobIds: [job.id, ...waiting.map(({ id }) => id)], waitH, text }];
  });
}

/** Soaks and cures of the library that jobs would be glad of and that are not there, or that they do not wait for. */
function earlyStarts(jobs: readonly Job[], drop: SailDrop | null): Proposal[] {
  const wanted = new Map<string, Job[]>();
  for (const job of jobs) for (const id of job.startEarly) wanted.set(id, [...(wanted.get(id) ?? []), job]);
  return [...wanted].flatMap(([libraryId, glad]) => earlyStart(libraryId, glad, { jobs, drop }));
}

/** The drop itself waits for no soak: what is done while the sail is down does. */
function earlyStart(
  libraryId: string,
  glad: readonly Job[],
  { jobs, drop }: { jobs: readonly Job[]; drop: SailDrop | null },
): Proposal[] {
  const there = jobs.find((other) => other.from === libraryId || other.id === libraryId) ?? null;
  const early = there ?? libraryJob(libraryId);
  if (early === null) return [];
  const lacking = glad.filter((job) => job.id !== there?.id && (there === null || !allBefore(job, jobs).has(there.id)));
  const waiting = lacking.filter((job) => job.id !== drop?.drop.id);
  // A soak that some job waits for already is that job's own: another fastener's.
  const isTaken = there !== null && jobs.some(({ after }) => after.includes(there.id));
  if (lacking.length === 0 || isTaken || (there !== null && waiting.length === 0)) return [];
  const id = there?.id ?? freeId(libraryId, jobs);
  const wait = longestWait(early);
  const waitH = wait === null ? null : waitP80H(wait);
  const why = waitH === null || wait === null ? '' : ` Its ${wait.kind} takes ${hoursText(waitH)} by itself.`;
  const names = (there === null ? lacking : waiting).map(({ name }) => `“${name}”`).join(', ');
  const isDown = drop !== null && needsDown(early, drop.downStates);
  return [
    {
      ...nothing,
      kind: 'start-now',
      jobIds: [...lacking.map((job) => job.id), ...(there === null ? [] : [there.id])],
      waitH,
      text:
        there === null
          ? `Start “${early.name}” now: ${names} will be glad of it.${why}`
          : `${names} should wait for “${there.name}”: add "${there.id}" to its after.${why}`,
      add:
        there === null
          ? {
              id,
              from: libraryId,
              priority: Math.max(...lacking.map(({ priorityWeight }) => priorityWeight)),
              ...(isDown ? { after: [drop.drop.id] } : {}),
            }
          : null,
      orders: waiting.map((job) => ({ jobId: job.id, after: id })),
    },
  ];
}

/** Jobs that need the sail down and are not placed after its drop and before its hoist. */
function ordersLacking(jobs: readonly Job[], { drop, hoist, downStates }: SailDrop): Proposal[] {
  const beforeHoist = hoist === null ? null : allBefore(hoist, jobs);
  return jobs
    .filter((job) => job.id !== drop.id && job.id !== hoist?.id && needsDown(job, downStates))
    .flatMap((job): Proposal[] => {
      const orders = [
        ...(allBefore(job, jobs).has(drop.id) ? [] : [{ jobId: job.id, after: drop.id }]),
        ...(hoist === null || beforeHoist?.has(job.id) === true ? [] : [{ jobId: hoist.id, after: job.id }]),
      ];
      if (orders.length === 0) return [];
      const said = orders.map(({ jobId, after }) => `add "${after}" to the after of "${jobId}"`).join(', and ');
      const text = `“${job.name}” is worked with the mainsail down: ${said}.`;
      return [{ ...nothing, kind: 'order', jobIds: orders.map(({ jobId }) => jobId), text, orders }];
    });
}

/** Library jobs named by those of the passage as worth doing along with them, which share the drop. */
function sharingTheDrop(
  jobs: readonly Job[],
  { drop, hoist, downStates }: SailDrop,
  taken: readonly string[],
): Proposal[] {
  const sharing = jobs.filter(
    (job) => job.id === drop.id || needsDown(job, downStates) || allBefore(job, jobs).has(drop.id),
  );
  const wanted = new Map<string, string[]>();
  for (const job of sharing) for (const id of job.goesWith) wanted.set(id, [...(wanted.get(id) ?? []), job.id]);
  const savesMin = likelyMin(drop) + (hoist === null ? 0 : likelyMin(hoist));
  return [...wanted].flatMap(([libraryId, jobIds]): Proposal[] => {
    const library = libraryJob(libraryId);
    const isThere = taken.includes(libraryId) || jobs.some((job) => job.from === libraryId || job.id === libraryId);
    const isShared = library !== null && isWorthSharing(library, downStates);
    if (library === null || isThere || !isShared) return [];
    const id = freeId(libraryId, jobs);
    const text = `While the mainsail is down, if it needs it: “${library.name}”, about ${Math.round(likelyMin(library))} min of work. Left for another day it costs a drop and a hoist of its own, about ${Math.round(savesMin)} min.`;
    const add = { id, from: libraryId, after: [drop.id] };
    const orders = hoist === null ? [] : [{ jobId: hoist.id, after: id }];
    return [{ kind: 'while-down', jobIds, waitH: null, savesMin, text, add, orders }];
  });
}

/** Work on the sail or the rig itself from the deck, not a manoeuvre of its own. */
const isWorthSharing = (job: Job, downStates: readonly string[]): boolean =>
  (job.sailStates.length === 0 || needsDown(job, downStates)) &&
  job.group !== 'sail-handling' &&
  job.steps.every(({ place }) => place !== 'aloft' && place !== 'overside');

const likelyMin = ({ steps }: Job): number => steps.reduce((sum, { work }) => sum + work.likelyMin, 0);

/** An id no job of the passage has. */
function freeId(wanted: string, jobs: readonly Job[]): string {
  let id = wanted;
  for (let count = 2; jobs.some((job) => job.id === id); count++) id = `${wanted}-${count}`;
  return id;
}

const nothing = { waitH: null, savesMin: null, add: null, orders: [] } as const;
