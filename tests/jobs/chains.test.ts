import { describe, expect, it } from 'vitest';
import { DEFAULT_SAIL_STATES } from '../../lib/boat/index.ts';
import {
  chainJobs,
  chainOf,
  CHAINS,
  libraryJobIds,
  makeJob,
  precedenceProblems,
  type Job,
  type JobFile,
} from '../../lib/jobs/index.ts';

function entriesOf(id: string, only: readonly string[] | null = null, prefix = ''): readonly JobFile[] {
  const chain = chainOf(id);
  if (!chain.ok) throw new Error(chain.problems[0].what);
  const entries = chainJobs(chain.value, { only, prefix });
  if (!entries.ok) throw new Error(entries.problems[0].what);
  return entries.value;
}

function jobsOf(entries: readonly JobFile[]): readonly Job[] {
  return entries.map((entry) => {
    const made = makeJob(entry, entry.id);
    if (!made.ok) throw new Error(made.problems[0].what);
    return made.value;
  });
}

const isMainDown = (id: string): boolean => DEFAULT_SAIL_STATES.find((state) => state.id === id)?.mainsail === 'none';

describe.each(CHAINS.map(({ id }) => id))('chain %s', (id) => {
  it('is made of library jobs, in an order with a first job', () => {
    const entries = entriesOf(id);
    expect(libraryJobIds).toEqual(expect.arrayContaining(entries.map(({ from }) => from)));
    expect(precedenceProblems(jobsOf(entries), String)).toEqual([]);
  });

  it('every part of it alone, with what is always there: still an order, and no name of what was left out', () => {
    const chain = CHAINS.find((one) => one.id === id);
    for (const link of chain?.links ?? []) {
      const jobs = jobsOf(entriesOf(id, [link.id]));
      expect(precedenceProblems(jobs, String)).toEqual([]);
    }
  });

  it('the state of the sails left by one job: is one the next can be worked in', () => {
    const jobs = jobsOf(entriesOf(id));
    for (const job of jobs)
      for (const beforeId of job.after) {
        const before = jobs.find((other) => other.id === beforeId);
        const left = before?.steps.findLast(({ sailStateAfter }) => sailStateAfter !== null)?.sailStateAfter;
        if (left === undefined || left === null || job.sailStates.length === 0) continue;
        expect(job.sailStates.some((state) => isMainDown(state) === isMainDown(left))).toBe(true);
      }
  });
});

describe('one drop of the mainsail', () => {
  it('stitch, patch, battens, gooseneck and track: all between the one drop and the hoist, then the inspection', () => {
    const entries = entriesOf('one-drop');
    const after = new Map(entries.map((entry) => [entry.id, entry.after ?? []]));
    for (const id of ['stitch', 'patch', 'battens', 'gooseneck', 'track']) {
      expect(after.get(id)).toContain('drop');
      expect(after.get('hoist')).toContain(id);
    }
    expect(after.get('inspect')).toEqual(['hoist']);
    const inspect = jobsOf(entries).find(({ id }) => id === 'inspect');
    // The rule of the trade (common practice, no source): look after 0, 15 and 60 minutes.
    expect(inspect?.checksAfter.map(({ afterMin }) => afterMin)).toEqual([0, 15, 60]);
  });

  it('a part left out: what came before it comes before what came after it', () => {
    const entries = entriesOf('one-drop', ['patch']);
    expect(entries.map(({ id, after }) => [id, after])).toEqual([
      ['drop', []],
      ['patch', ['drop']],
      ['hoist', ['drop', 'patch']],
      ['inspect', ['hoist']],
    ]);
  });

  it('with a prefix: every id and every name in an order has it', () => {
    const entries = entriesOf('one-drop', ['battens', 'bench'], 'second-');
    expect(entries.flatMap(({ id, after = [] }) => [id, ...after]).every((id) => id.startsWith('second-'))).toBe(true);
  });

  it('names that are none: each named, with the nearest one', () => {
    expect(chainOf('one-drp')).toMatchObject({ ok: false, problems: [{ remedy: 'Did you mean "one-drop"?' }] });
    const chain = CHAINS[0];
    if (chain === undefined) throw new Error('there are chains');
    expect(chainJobs(chain, { only: ['stich', 'mast'], prefix: '' })).toMatchObject({
      ok: false,
      problems: [{ code: 'jobs.link-unknown', remedy: 'Did you mean "stitch"?' }, { code: 'jobs.link-unknown' }],
    });
  });
});
