import { describe, expect, it } from 'vitest';
import { makeJob, precedenceProblems, provenanceOf, type Job, type JobFile } from '../../lib/jobs/index.ts';

function made(file: JobFile): Job {
  const result = makeJob(file, 'jobs[0]');
  if (!result.ok) throw new Error(result.problems[0].what);
  return result.value;
}

const work = { leastMin: 1, likelyMin: 2, mostMin: 3 };

describe('makeJob', () => {
  it('only an id and where it is from: everything the library says, weight 5', () => {
    const job = made({ id: 'a', from: 'rebed' });
    expect(job).toMatchObject({ id: 'a', from: 'rebed', priorityWeight: 5, after: [], sailStates: [] });
    expect(job.steps.map((step) => step.id)).toEqual(['lift', 'clean', 'bed', 'tighten']);
  });

  it('minutes and limits of its own: replace those of the library, the rest stays', () => {
    const job = made({ id: 'a', from: 'fuel-filter', minutes: { bleed: work }, limits: { rain: 'none' } });
    expect(job.steps.map((step) => step.work.likelyMin)).toEqual([18, 2]);
    expect(job.steps.every((step) => step.limits.rain === 'none' && step.limits.deckWindKn?.noGo === 35)).toBe(true);
  });

  it('a limit taken away with null: the step has none', () => {
    expect(made({ id: 'a', from: 'deck-walk', limits: { seaHeightM: null } }).steps[0]?.limits.seaHeightM).toBeNull();
  });

  it('steps of its own: only those, in their order, known ids completed from the library', () => {
    const job = made({
      id: 'a',
      from: 'hoist-main',
      steps: [
        { id: 'trim', work },
        { id: 'toast', name: 'Toast', place: 'cockpit', work, limits: {} },
        { id: 'hoist' },
      ],
    });
    expect(job.steps.map((step) => [step.id, step.place, step.work.likelyMin])).toEqual([
      ['trim', 'deck', 2],
      ['toast', 'cockpit', 2],
      ['hoist', 'deck', 12],
    ]);
    expect(job.steps[2]?.sailStateAfter).toBe('deep-reef');
  });

  it('a session of its own: for what can be stopped anywhere, not for the rest', () => {
    const job = made({ id: 'a', from: 'stitch-below', session: { longestMin: 40 } });
    expect(job.steps.map((step) => step.session?.longestMin ?? null)).toEqual([null, 40, null]);
  });

  it('a seam and own minutes for sewing: the own minutes count, the twine follows the seam', () => {
    const job = made({ id: 'a', from: 'stitch-tear', lengthM: 2, rows: 1, minutes: { sew: work } });
    const sew = job.steps.find((step) => step.id === 'sew');
    expect(sew?.work).toEqual(work);
    expect(sew?.materials[0]).toEqual({ item: 'waxed twine', amount: 27.6, unit: 'm' });
  });

  it('several mistakes: all of them', () => {
    const result = makeJob(
      { id: 'a', steps: [{ id: 's' }, { id: 's', name: 'S', place: 'deck', work, limits: {} }], rows: 2 },
      'jobs[0]',
    );
    expect(result.ok ? [] : result.problems.map((problem) => problem.code)).toEqual([
      'jobs.no-name',
      'jobs.no-seam',
      ...Array<string>(4).fill('jobs.step-incomplete'),
    ]);
  });
});

describe('precedenceProblems', () => {
  const codes = (...jobs: readonly { id: string; after: readonly string[] }[]): readonly string[] =>
    precedenceProblems(jobs, (index) => `jobs[${index}]`).map((problem) => `${problem.code} ${problem.where}`);

  it('a diamond: nothing wrong', () => {
    expect(
      codes(
        { id: 'a', after: [] },
        { id: 'b', after: ['a'] },
        { id: 'c', after: ['a'] },
        { id: 'd', after: ['b', 'c'] },
      ),
    ).toEqual([]);
  });

  it('two rings: each once', () => {
    expect(
      codes({ id: 'a', after: ['b'] }, { id: 'b', after: ['a'] }, { id: 'c', after: ['d'] }, { id: 'd', after: ['c'] }),
    ).toEqual(['jobs.after-ring jobs[0].after', 'jobs.after-ring jobs[2].after']);
  });

  it('itself and an unknown one: both', () => {
    expect(codes({ id: 'a', after: ['a', 'z'] })).toEqual([
      'jobs.after-itself jobs[0].after[0]',
      'jobs.after-unknown jobs[0].after[1]',
    ]);
  });

  it('a wait of its own: kept warm, other hours; the rest stays', () => {
    const job = made({ id: 'a', from: 'fastener-oil', waits: { oil: { likelyH: 20, keptAtC: 25 } } });
    expect(job.steps[0]?.waitAfter).toMatchObject({ kind: 'soak', leastH: 6, likelyH: 20, mostH: 48, keptAtC: 25 });
  });

  it.each([
    ['of a step that has none', 'fuel-filter', { change: { keptAtC: 20 } }, 'jobs.no-wait'],
    ['of a step that is none', 'fuel-filter', { chnge: { keptAtC: 20 } }, 'jobs.step-unknown'],
    ['with hours that fall', 'fastener-oil', { oil: { likelyH: 60 } }, 'jobs.hours-order'],
  ] as const)('a wait %s: refused', (_, from, waits, code) => {
    expect(makeJob({ id: 'a', from, waits }, 'jobs[0]')).toMatchObject({ ok: false, problems: [{ code }] });
  });

  it('another cloth: the minutes of its seam are those of that cloth’s rate; own minutes are the user’s', () => {
    const woven = made({ id: 'a', from: 'stitch-tear', cloth: 'woven-light' });
    expect(provenanceOf(woven, 'sew', 'work')).toBe('stitch rate, common practice, no source');
    const own = made({ id: 'a', from: 'stitch-tear', cloth: 'woven-light', minutes: { sew: work } });
    expect(provenanceOf(own, 'sew', 'work')).toBe('own figure');
  });
});
