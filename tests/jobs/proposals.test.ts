import { describe, expect, it } from 'vitest';
import { DEFAULT_SAIL_STATES } from '../../lib/boat/index.ts';
import {
  libraryJob,
  makeJob,
  precedenceProblems,
  proposalsFor,
  type Job,
  type JobFile,
  type Proposal,
} from '../../lib/jobs/index.ts';

const jobsOf = (...entries: readonly JobFile[]): readonly Job[] =>
  entries.map((entry) => {
    const made = makeJob(entry, entry.id);
    if (!made.ok) throw new Error(made.problems[0].what);
    return made.value;
  });

const proposals = (jobs: readonly Job[]): readonly Proposal[] =>
  proposalsFor({ jobs, sailStates: DEFAULT_SAIL_STATES });

const ofKind = (jobs: readonly Job[], kind: Proposal['kind']): readonly Proposal[] =>
  proposals(jobs).filter((proposal) => proposal.kind === kind);

/** The jobs with everything that is proposed added and ordered. */
function taken(jobs: readonly Job[], all: readonly Proposal[]): readonly Job[] {
  const added = jobsOf(...all.flatMap(({ add }) => (add === null ? [] : [add])));
  const orders = all.flatMap((proposal) => proposal.orders);
  return [...jobs, ...added].map((job) => {
    const more = orders.filter(({ jobId }) => jobId === job.id).map(({ after }) => after);
    return { ...job, after: [...new Set([...job.after, ...more])] };
  });
}

const drop = { id: 'drop', from: 'drop-main' };
const hoist = { id: 'hoist', from: 'hoist-main', after: ['drop'] };

describe('what to start now', () => {
  it('a gooseneck bolt without its soak: the soak is proposed, with its hours, and put before the bolt', () => {
    const jobs = jobsOf(drop, { id: 'bolt', from: 'gooseneck-bolt', after: ['drop'], priority: 8 });
    const [soak] = ofKind(jobs, 'start-now');
    expect(soak).toMatchObject({
      add: { id: 'fastener-oil', from: 'fastener-oil', priority: 8 },
    });
    expect(soak?.orders).toContainEqual({ jobId: 'bolt', after: 'fastener-oil' });
    // Soak 6/14/48 h: the P80 of the PERT estimate lies between its mean of 18.3 h and its longest.
    expect(soak?.waitH).toBeGreaterThan(18.3);
    expect(soak?.waitH).toBeLessThan(48);
  });

  it('the soak is there but nothing waits for it: only the order is proposed', () => {
    const jobs = jobsOf({ id: 'oil', from: 'fastener-oil' }, { id: 'bolt', from: 'gooseneck-bolt' });
    expect(ofKind(jobs, 'start-now')).toMatchObject([{ add: null, orders: [{ jobId: 'bolt', after: 'oil' }] }]);
  });

  it('the soak is there and the bolt waits for it: to be begun as early as can be', () => {
    const jobs = jobsOf({ id: 'oil', from: 'fastener-oil' }, { id: 'bolt', from: 'gooseneck-bolt', after: ['oil'] });
    expect(ofKind(jobs, 'start-now')).toMatchObject([{ jobIds: ['oil', 'bolt'], add: null, orders: [] }]);
  });

  it('a job that nothing seized or curing stands before: nothing', () => {
    expect(proposals(jobsOf({ id: 'filter', from: 'fuel-filter' }))).toEqual([]);
  });
});

describe('what else to do while the sail is down', () => {
  const jobs = jobsOf(drop, { id: 'stitch', from: 'stitch-tear', after: ['drop'] }, { ...hoist, after: ['stitch'] });

  it('library jobs that go with those of the passage: what they save is the drop and the hoist', () => {
    const shared = ofKind(jobs, 'while-down');
    expect(shared.map(({ add }) => add?.from)).toContain('batten-swap');
    const likelyMin = (id: string): number =>
      (libraryJob(id)?.steps ?? []).reduce((sum, { work }) => sum + work.likelyMin, 0);
    for (const { savesMin } of shared)
      expect(savesMin).toBeCloseTo(likelyMin('drop-main') + likelyMin('hoist-main'), 6);
  });

  it('one that is there already: is not proposed again', () => {
    const more = [...jobs, ...jobsOf({ id: 'swap', from: 'batten-swap', after: ['drop'] })];
    expect(ofKind(more, 'while-down').map(({ add }) => add?.from)).not.toContain('batten-swap');
  });

  it('no job takes the mainsail down: nothing', () => {
    expect(ofKind(jobsOf({ id: 'stitch', from: 'stitch-tear' }), 'while-down')).toEqual([]);
  });
});

describe('orders that are lacking', () => {
  it('a tear to be sewn, neither after the drop nor before the hoist: both are named', () => {
    const jobs = jobsOf(drop, { id: 'stitch', from: 'stitch-tear' }, hoist);
    expect(ofKind(jobs, 'order')).toMatchObject([
      {
        orders: [
          { jobId: 'stitch', after: 'drop' },
          { jobId: 'hoist', after: 'stitch' },
        ],
      },
    ]);
  });

  it('everything that is proposed, done until nothing more is: an order with a first job, and none lacking', () => {
    let jobs = jobsOf(
      drop,
      { id: 'stitch', from: 'stitch-tear' },
      { id: 'bolt', from: 'gooseneck-bolt' },
      { id: 'swap', from: 'batten-swap' },
      hoist,
    );
    for (let round = 0; round < 8; round++) jobs = taken(jobs, proposals(jobs));
    expect(precedenceProblems(jobs, String)).toEqual([]);
    expect(proposals(jobs).every(({ add, orders }) => add === null && orders.length === 0)).toBe(true);
  });
});
