import { describe, expect, it } from 'vitest';
import type { JobOrder, Passage } from '../../lib/passage/index.ts';
import { parsePassage } from '../../lib/passage/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { sample } from './sample.ts';

// What the user fixes: keys of the jobs, `readyUtc` of the locker, `forbidden`. Rules are ours (design page §5.9).

const utc = (hour: number, minute = 0): number => Date.UTC(2026, 4, 28, hour, minute);

/** The sample with more in its first job (drop the main), and more at the top. */
function fixed(first: object, top: object = {}): object {
  const { jobs, ...file } = sample();
  return { ...file, jobs: [{ ...jobs[0], ...first }, ...jobs.slice(1)], ...top };
}

function read(file: object): Passage {
  const result = parsePassage(JSON.stringify(file), 'a.json');
  if (!result.ok) throw new Error(result.problems.map(({ where, what }) => `${where}: ${what}`).join('\n'));
  return result.value;
}

function problemsOf(file: object): readonly Problem[] {
  const result = parsePassage(JSON.stringify(file), 'a.json');
  return result.ok ? [] : result.problems;
}

const none: JobOrder = {
  notBeforeEpochMs: null,
  finishByEpochMs: null,
  lockedStartEpochMs: null,
  lockedHandlingId: null,
  isDone: false,
  doneStepIds: [],
  doneMin: 0,
  tools: [],
};

const stepIds = read(sample()).jobs[0]?.steps.map(({ id }) => id) ?? [];

describe('orders of a passage', () => {
  it('a passage that fixes nothing: has none', () => {
    expect(read(sample()).orders).toEqual({ jobs: new Map(), forbidden: [] });
  });

  it('hours and handling of a job: are instants and an id', () => {
    const orders = read(
      fixed({
        notBeforeUtc: '2026-05-28T06:00Z',
        startUtc: '2026-05-28T19:30+12:00',
        finishByUtc: '2026-05-28T12:00Z',
        lockHandling: 'fore-reach',
        tools: ['block and tackle'],
      }),
    ).orders;
    expect([...orders.jobs]).toEqual([
      [
        'drop',
        {
          ...none,
          notBeforeEpochMs: utc(6),
          lockedStartEpochMs: utc(7, 30),
          finishByEpochMs: utc(12),
          lockedHandlingId: 'fore-reach',
          tools: ['block and tackle'],
        },
      ],
    ]);
  });

  it('forbidden hours: for every job, or for one', () => {
    const forbidden = [
      { fromUtc: '2026-05-28T00:00Z', toUtc: '2026-05-28T04:00Z' },
      { fromUtc: '2026-05-28T05:00Z', toUtc: '2026-05-28T06:00Z', job: 'hoist' },
    ];
    expect(read(fixed({}, { forbidden })).orders.forbidden).toEqual([
      { fromEpochMs: utc(0), toEpochMs: utc(4), jobId: null },
      { fromEpochMs: utc(5), toEpochMs: utc(6), jobId: 'hoist' },
    ]);
  });

  it('an item not ready yet: the jobs whose unfinished steps need it wait for the latest of theirs', () => {
    const locker = [
      { item: 'Waxed twine', unit: 'm', onBoard: 60, readyUtc: '2026-05-28T08:00Z' },
      { item: 'needles', unit: 'pieces', onBoard: 6, readyUtc: '2026-05-28T03:00Z' },
    ];
    const { jobs } = read(fixed({}, { locker })).orders;
    expect([...jobs]).toEqual([['stitch', { ...none, notBeforeEpochMs: utc(8) }]]);
    const [drop, stitch, hoist] = sample().jobs;
    const sewn = read({ ...sample(), locker, jobs: [drop, { ...stitch, done: true }, hoist] });
    expect(sewn.orders.jobs.get('stitch')).toEqual({ ...none, isDone: true });
  });

  it('an own notBeforeUtc later than the item: the later one counts', () => {
    const locker = [{ item: 'waxed twine', unit: 'm', onBoard: 60, readyUtc: '2026-05-28T08:00Z' }];
    const [drop, stitch, hoist] = sample().jobs;
    const later = read({ ...sample(), locker, jobs: [drop, { ...stitch, notBeforeUtc: '2026-05-28T09:00Z' }, hoist] });
    expect(later.orders.jobs.get('stitch')?.notBeforeEpochMs).toBe(utc(9));
  });

  it('steps finished from the first on, and minutes of the next: are kept; all of them: the job is done', () => {
    expect(stepIds.length).toBeGreaterThan(1);
    const begun = { doneSteps: stepIds.slice(0, 1), doneMin: 12 };
    expect(read(fixed(begun)).orders.jobs.get('drop')).toEqual({
      ...none,
      doneStepIds: stepIds.slice(0, 1),
      doneMin: 12,
    });
    expect(read(fixed({ doneSteps: stepIds })).orders.jobs.get('drop')?.isDone).toBe(true);
    expect(read(fixed({ done: true })).orders.jobs.get('drop')).toEqual({ ...none, isDone: true });
  });
});

const night = [{ fromUtc: '2026-05-28T00:00Z', toUtc: '2026-05-28T04:00Z' }];

describe('orders that cannot be', () => {
  it.each<[name: string, file: object, code: string, where: string]>([
    [
      'a finish before the job may start',
      fixed({ notBeforeUtc: '2026-05-28T06:00Z', finishByUtc: '2026-05-28T05:00Z' }),
      'passage.order-times',
      'a.json, jobs[0].finishByUtc',
    ],
    [
      'a start before the job may start',
      fixed({ notBeforeUtc: '2026-05-28T06:00Z', startUtc: '2026-05-28T05:00Z' }),
      'passage.order-times',
      'a.json, jobs[0].startUtc',
    ],
    [
      'a finish at the very start',
      fixed({ startUtc: '2026-05-28T06:00Z', finishByUtc: '2026-05-28T06:00Z' }),
      'passage.order-times',
      'a.json, jobs[0].finishByUtc',
    ],
    [
      'a start in forbidden hours',
      fixed({ startUtc: '2026-05-28T03:59Z' }, { forbidden: night }),
      'passage.lock-forbidden',
      'a.json, jobs[0].startUtc',
    ],
    [
      'an instant without offset',
      fixed({ notBeforeUtc: '2026-05-28T06:00' }),
      'time.not-an-instant',
      'a.json, jobs[0].notBeforeUtc',
    ],
    [
      'an item ready at no instant',
      fixed({}, { locker: [{ item: 'oil', unit: 'ml', onBoard: 5, readyUtc: 'tomorrow' }] }),
      'time.not-an-instant',
      'a.json, locker[0].readyUtc',
    ],
    [
      'a handling the boat has not',
      fixed({ lockHandling: 'forereach' }),
      'passage.handling-unknown',
      'a.json, jobs[0].lockHandling',
    ],
    [
      'a handling the job has not',
      fixed({ lockHandling: 'heave-to' }),
      'passage.lock-handling',
      'a.json, jobs[0].lockHandling',
    ],
    [
      'forbidden hours of a job there is not',
      fixed({}, { forbidden: [{ ...night[0], job: 'dorp' }] }),
      'passage.job-unknown',
      'a.json, forbidden[0].job',
    ],
    [
      'forbidden hours that end before they begin',
      fixed({}, { forbidden: [{ fromUtc: '2026-05-28T04:00Z', toUtc: '2026-05-28T00:00Z' }] }),
      'passage.forbidden-order',
      'a.json, forbidden[0]',
    ],
    [
      'a step the job has not',
      fixed({ doneSteps: [`${stepIds[0] ?? ''}x`] }),
      'passage.done-step-unknown',
      'a.json, jobs[0].doneSteps[0]',
    ],
    [
      'a second step done without the first',
      fixed({ doneSteps: stepIds.slice(1, 2) }),
      'passage.done-order',
      'a.json, jobs[0].doneSteps',
    ],
    ['minutes of a job that is done', fixed({ done: true, doneMin: 5 }), 'passage.done-all', 'a.json, jobs[0].doneMin'],
    ['minutes below none', fixed({ doneMin: -1 }), 'passage.value', 'a.json, jobs[0].doneMin'],
    [
      'an unknown key in forbidden hours',
      fixed({}, { forbidden: [{ ...night[0], jbo: 'drop' }] }),
      'passage.key-unknown',
      'a.json, forbidden[0].jbo',
    ],
  ])('%s: is named', (_, file, code, where) => {
    expect(problemsOf(file).map((problem) => [problem.code, problem.where])).toEqual([[code, where]]);
  });

  it.each<[name: string, file: object, meant: string]>([
    ['handling', fixed({ lockHandling: 'forereach' }), 'fore-reach'],
    ['job', fixed({}, { forbidden: [{ ...night[0], job: 'dorp' }] }), 'drop'],
    ['step', fixed({ doneSteps: [`${stepIds[0] ?? ''}x`] }), stepIds[0] ?? ''],
    ['key', fixed({}, { forbidden: [{ ...night[0], jbo: 'drop' }] }), 'job'],
  ])('a %s nearly right: the one meant is suggested', (_, file, meant) => {
    expect(problemsOf(file).map(({ remedy }) => remedy)).toEqual([`Did you mean "${meant}"?`]);
  });

  it('forbidden hours end before their last instant: a start there stands', () => {
    expect(problemsOf(fixed({ startUtc: '2026-05-28T04:00Z' }, { forbidden: night }))).toEqual([]);
    expect(
      problemsOf(fixed({ startUtc: '2026-05-28T01:00Z' }, { forbidden: [{ ...night[0], job: 'hoist' }] })),
    ).toEqual([]);
  });

  it('several at once, beside a job that cannot be read: all of them', () => {
    const file = fixed(
      { notBeforeUtc: '2026-05-28T06:00Z', finishByUtc: '2026-05-28T05:00Z', lockHandling: 'heave-to' },
      { forbidden: [{ ...night[0], job: 'nobody-at-all' }] },
    );
    const [drop, , hoist] = 'jobs' in file && Array.isArray(file.jobs) ? (file.jobs as object[]) : [];
    const broken = { ...file, jobs: [drop, { id: 'stitch', from: 'no-such-job-here' }, hoist] };
    expect(problemsOf(broken).map(({ code }) => code)).toEqual(
      expect.arrayContaining([
        'jobs.library-unknown',
        'passage.order-times',
        'passage.lock-handling',
        'passage.job-unknown',
      ]),
    );
  });
});

describe('minutes to settle', () => {
  it('a handling of the boat: has its own, the usual, or ten where it is new', () => {
    const { boat } = sample();
    const limits = {
      trueWindKn: { ideal: 10, caution: 12, noGo: 15 },
      seaHeightM: { ideal: 1, caution: 2, noGo: 3 },
    };
    const handlings = [
      { id: 'run-off', twaDeg: 165 },
      { id: 'heave-to', settleMin: 25 },
      { id: 'own-way', twaDeg: 120, sailStates: ['full-main'], limits },
    ];
    const passage = read({ ...sample(), boat: { ...boat, handlings } });
    const minutes = (id: string) => passage.boat.handlings.find((handling) => handling.id === id)?.settleMin;
    // Minutes of the usual handlings: common practice, no source.
    expect(['hold-course', 'run-off', 'fore-reach', 'heave-to', 'own-way'].map(minutes)).toEqual([0, 5, 10, 25, 10]);
  });
});
