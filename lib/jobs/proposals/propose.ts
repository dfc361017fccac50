import type { SailState } from '../../boat/index.ts';
import type { Job } from '../job.ts';
import { libraryJob } from '../library/library.ts';
import { waitP80H } from '../waits.ts';
import { earlyStarts } from './early-starts.ts';
import { freeId } from '../free-id.ts';
import { hoursText, NOTHING } from './words.ts';
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

/** Jobs of the passage whose wait others wait for: the sooner begun, the sooner over. */
function waitsToBegin(jobs: readonly Job[]): Proposal[] {
  return jobs.flatMap((job) => {
    const wait = job.steps.at(-1)?.waitAfter ?? null;
    const waiting = jobs.filter(({ after }) => after.includes(job.id));
    if (wait === null || waiting.length === 0) return [];
    const waitH = waitP80H(wait);
    const names = waiting.map(({ name }) => `“${name}”`).join(', ');
    const text = `Begin “${job.name}” as early as you can: ${names} must wait for its ${wait.kind}, ${hoursText(waitH)}.`;
    return [{ ...NOTHING, kind: 'start-now', jobIds: [job.id, ...waiting.map(({ id }) => id)], waitH, text }];
  });
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
      return [{ ...NOTHING, kind: 'order', jobIds: orders.map(({ jobId }) => jobId), text, orders }];
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
    const id = freeId(
      libraryId,
      jobs.map((job) => job.id),
    );
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
