import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readinessOf } from '../../../lib/jobs/index.ts';
import { byImportance } from '../../../lib/jobs/readiness/importance.ts';
import { jobOf, line, pieces, readiness, statuses, tool, twine } from './little-jobs.ts';

// Rules of ours; sums by hand.

const EIGHT = Date.UTC(2026, 4, 28, 8);
const TEN = Date.UTC(2026, 4, 28, 10);

describe('materials', () => {
  it('exactly what lies above the reserve: ready, and nothing to be said', () => {
    expect(readiness([jobOf('sew', 45)], [twine(60, 15)]).get('sew')).toEqual({
      jobId: 'sew',
      status: 'ready',
      fromEpochMs: null,
      madeByIds: [],
      findings: [],
    });
  });

  it('short: how much is needed, on board, kept, and taken by the more important job, which is told so', () => {
    const found = readiness(
      [jobOf('less', 10, { priorityWeight: 3 }), jobOf('more', 8, { priorityWeight: 7 })],
      [twine(20, 5)],
    );
    expect(statuses(found)).toEqual({ less: 'not', more: 'ready' });
    expect(found.get('less')?.findings).toMatchObject([
      {
        code: 'material-short',
        neededAmount: 10,
        onBoardAmount: 20,
        keepAmount: 5,
        availableAmount: 7,
        shortAmount: 3,
        takenBy: [{ jobId: 'more', amount: 8, unit: 'm' }],
      },
    ]);
    expect(found.get('more')?.findings).toEqual([
      { code: 'leaves-short', effect: 'note', jobId: 'less', item: 'twine', amount: 3, unit: 'm' },
    ]);
  });

  it('a job that cannot be done takes nothing: a less important one has it all', () => {
    const jobs = [jobOf('big', 30, { priorityWeight: 9 }), jobOf('small', 10, { priorityWeight: 1 })];
    expect(statuses(readiness(jobs, [twine(10)]))).toEqual({ big: 'not', small: 'ready' });
  });

  it('a job that comes after one that cannot be done: not, and takes nothing either', () => {
    const jobs = [
      jobOf('first', 30, { priorityWeight: 9 }),
      jobOf('second', 10, { priorityWeight: 9, after: ['first'] }),
      jobOf('third', 10, { priorityWeight: 1 }),
    ];
    const found = readiness(jobs, [twine(10)]);
    expect(statuses(found)).toEqual({ first: 'not', second: 'not', third: 'ready' });
    expect(found.get('second')?.findings).toEqual([{ code: 'after-barred', effect: 'bars', jobId: 'first' }]);
  });

  it('finished jobs and steps: take nothing more, since the locker holds what is on board now', () => {
    const jobs = [
      jobOf('done', 30, { priorityWeight: 9 }),
      jobOf('begun', 30, { priorityWeight: 8 }),
      jobOf('sew', 10),
    ];
    const orders = { done: { isDone: true }, begun: { doneStepIds: ['work'] } };
    expect(statuses(readiness(jobs, [twine(10)], orders))).toEqual({ done: 'done', begun: 'ready', sew: 'ready' });
  });

  it('nothing in the locker: not known, which is neither ready nor missing; a job that needs nothing is ready', () => {
    const found = readiness([jobOf('sew', 5), jobOf('look', [])], []);
    expect(statuses(found)).toEqual({ sew: 'unknown', look: 'ready' });
    expect(found.get('sew')?.findings).toEqual([
      { code: 'materials-not-counted', effect: 'unknown', items: ['twine'] },
    ]);
  });

  it('a name nearly right in the locker: is asked about', () => {
    const found = readiness([jobOf('sew', 5)], [{ ...twine(50), item: 'twin' }]);
    expect(found.get('sew')?.findings).toMatchObject([{ code: 'material-short', nearName: 'twin' }]);
  });
});

describe('what is not ready yet', () => {
  it('the only lot is ready at eight: the job from eight on', () => {
    const found = readiness([jobOf('sew', 5)], [{ ...twine(50), readyEpochMs: EIGHT }]);
    expect(found.get('sew')).toMatchObject({ status: 'later', fromEpochMs: EIGHT });
  });

  it('bars of two sizes: the first job takes the one that is there, the next waits for the other', () => {
    const size = { kind: 'bar', diameterMm: 8 } as const;
    const items = [
      line('rod', 1, { ...size, lengthMm: 3000, readyEpochMs: TEN }),
      line('rod', 1, { ...size, lengthMm: 1200 }),
    ];
    const found = readiness([jobOf('b', [pieces('rod')]), jobOf('a', [pieces('rod')], { priorityWeight: 9 })], items);
    expect(found.get('a')).toMatchObject({ status: 'ready', fromEpochMs: null });
    expect(found.get('b')).toMatchObject({ status: 'later', fromEpochMs: TEN });
  });

  it('twine at eight, a tool at ten: the later one counts', () => {
    const items = [{ ...twine(50), readyEpochMs: EIGHT }, tool('drill', { readyEpochMs: TEN })];
    expect(readiness([jobOf('sew', 5, { needsTools: ['drill'] })], items).get('sew')).toMatchObject({
      fromEpochMs: TEN,
    });
  });
});

describe('what another job makes', () => {
  const bench = jobOf('bench', [pieces('rod')], { makes: [pieces('batten')], priorityWeight: 2 });
  const swap = (more: object = {}) => jobOf('swap', [pieces('Batten')], { priorityWeight: 9, ...more });

  it('directly before it: ready once that is done', () => {
    const found = readiness([swap({ after: ['bench'] }), bench], [line('rod', 1)]);
    expect(found.get('swap')).toMatchObject({ status: 'later', fromEpochMs: null, madeByIds: ['bench'] });
  });

  it('before it through another job: the same', () => {
    const box = jobOf('box', [], { after: ['bench'] });
    const found = readiness([swap({ after: ['box'] }), box, bench], [line('rod', 1)]);
    expect(found.get('swap')).toMatchObject({ status: 'later', madeByIds: ['bench'] });
  });

  it('not before it: not, and told which job to come after', () => {
    const found = readiness([swap(), bench], [line('rod', 1)]);
    expect(found.get('swap')).toMatchObject({
      status: 'not',
      findings: [{ code: 'material-short', makerIds: ['bench'] }],
    });
  });

  it('by a job that itself is short: not', () => {
    const found = readiness([swap({ after: ['bench'] }), bench], [line('saw', 1)]);
    expect(statuses(found)).toEqual({ swap: 'not', bench: 'not' });
  });

  it('once for two jobs: the second is short', () => {
    const other = jobOf('other', [pieces('batten')], { priorityWeight: 3, after: ['bench'] });
    const found = readiness([swap({ after: ['bench'] }), other, bench], [line('rod', 1)]);
    expect(statuses(found)).toEqual({ swap: 'later', other: 'not', bench: 'ready' });
  });

  it('with one in the locker besides: the job after the maker leaves that one to a job that is not', () => {
    const other = jobOf('other', [pieces('batten')], { priorityWeight: 3 });
    const found = readiness([swap({ after: ['bench'] }), other, bench], [line('rod', 1), line('batten', 1)]);
    expect(statuses(found)).toEqual({ swap: 'later', other: 'ready', bench: 'ready' });
  });

  it('by a finished job: on board, unless the locker lists the item and says otherwise', () => {
    const orders = { bench: { isDone: true } };
    expect(readiness([swap(), bench], [line('rod', 1)], orders).get('swap')).toMatchObject({ status: 'ready' });
    expect(readiness([swap(), bench], [line('batten', 0)], orders).get('swap')).toMatchObject({ status: 'not' });
  });
});

describe('byImportance', () => {
  it('a light job that a weighty one waits for: comes before one in between', () => {
    const jobs = [
      jobOf('middle', 1, { priorityWeight: 5 }),
      jobOf('weighty', 1, { priorityWeight: 9, after: ['light'] }),
      jobOf('light', 1, { priorityWeight: 2 }),
    ];
    expect(byImportance(jobs).map(({ id }) => id)).toEqual(['light', 'weighty', 'middle']);
  });
});

describe('readinessOf', () => {
  const drawn = fc
    .array(
      fc.record({
        amount: fc.integer({ min: 0, max: 12 }),
        priorityWeight: fc.integer({ min: 1, max: 9 }),
        after: fc.array(fc.nat(), { maxLength: 2 }),
        makes: fc.integer({ min: 0, max: 6 }),
      }),
      { minLength: 1, maxLength: 7 },
    )
    .map((all) =>
      all.map(({ amount, priorityWeight, after, makes }, index) =>
        jobOf(`j${index}`, amount === 0 ? [] : amount, {
          priorityWeight,
          after: index === 0 ? [] : after.map((of) => `j${of % index}`),
          makes: makes === 0 ? [] : [{ item: 'twine', amount: makes, unit: 'm' }],
        }),
      ),
    );
  const amountOf = (job: ReturnType<typeof jobOf>): number => job.steps[0]?.materials[0]?.amount ?? 0;
  const goes = (status: string | undefined): boolean => status === 'ready' || status === 'later';

  it('any jobs: all that are ready together take no more than is free and made; none is ready after one that is not', () => {
    fc.assert(
      fc.property(drawn, fc.integer({ min: 0, max: 30 }), fc.integer({ min: 0, max: 10 }), (jobs, onBoard, keep) => {
        const found = readiness(jobs, [twine(onBoard, keep)]);
        const ready = jobs.filter(({ id }) => goes(found.get(id)?.status));
        const made = ready.reduce((sum, job) => sum + (job.makes[0]?.amount ?? 0), 0);
        const taken = ready.reduce((sum, job) => sum + amountOf(job), 0);
        expect(taken).toBeLessThanOrEqual(Math.max(0, onBoard - keep) + made);
        for (const { after } of ready) for (const id of after) expect(goes(found.get(id)?.status)).toBe(true);
      }),
      { numRuns: 300, seed: 3 },
    );
  });

  it('any jobs: the order of the list is nothing to it', () => {
    fc.assert(
      fc.property(drawn, fc.integer({ min: 0, max: 30 }), (jobs, onBoard) => {
        const forward = readiness(jobs, [twine(onBoard)]);
        const backward = readiness(jobs.toReversed(), [twine(onBoard)]);
        for (const { id } of jobs) expect(backward.get(id)?.status).toBe(forward.get(id)?.status);
      }),
      { numRuns: 200, seed: 4 },
    );
  });

  it('an order of its own: the job named first takes first, the others are not judged', () => {
    const [a, b, c] = ['a', 'b', 'c'].map((id, index) => jobOf(id, 10, { priorityWeight: 9 - index }));
    if (a === undefined || b === undefined || c === undefined) throw new Error('three jobs');
    const input = { jobs: [a, b, c], locker: { items: [twine(15)] }, progress: new Map() };
    expect(readinessOf(input, [b, a]).map(({ jobId, status }) => [jobId, status])).toEqual([
      ['a', 'not'],
      ['b', 'ready'],
    ]);
  });
});
