import { describe, expect, test } from 'vitest';
import { WAIT_DEFAULTS } from '../../lib/jobs/index.ts';
import { LOCKER_ITEM_DEFAULTS } from '../../lib/stock/index.ts';
import { at, check, hour, rulesOf } from './check-own.ts';
import { littleJob, littleStep } from './little-world.ts';

// Every amount is counted by hand.

describe('a plan that keeps every rule', () => {
  const checked = check(
    [hour('drop'), hour('sew', { after: ['drop'] })],
    [
      ['drop', 13],
      ['sew', 14],
    ],
  );

  test('has no finding, and every job is finished with certainty', () => {
    expect(checked.entries.map(({ findings }) => findings)).toEqual([[], []]);
    expect(checked.jobs).toMatchObject([
      { jobId: 'drop', isFinished: true, isConditional: false, probability: 1 },
      { jobId: 'sew', isFinished: true, isConditional: false, probability: 1 },
    ]);
    expect(checked).toMatchObject({
      allDoneProbability: 1,
      violationCount: 0,
      deckH: 2,
      endEpochMs: at(15),
      sleepH: 0,
    });
  });

  test('says the hours of each entry', () => {
    expect(checked.entries[1]).toMatchObject({
      startEpochMs: at(14),
      endEpochMs: at(15),
      plannedMin: 60,
      referenceMin: 90,
    });
  });
});

describe('rules that no weather decides', () => {
  const jobs = [hour('drop'), hour('sew', { after: ['drop'] })];

  test('after a job that is finished later: minutes short', () => {
    const checked = check(jobs, [
      ['sew', 13],
      ['drop', 14.5],
    ]);
    expect(rulesOf(checked, 0)).toEqual([['precedence', -150]]);
    expect(checked.violationCount).toBe(1);
  });

  test('after a job that is not in the plan', () => {
    expect(rulesOf(check(jobs, [['sew', 13]]), 0)).toEqual([['precedence', -1]]);
  });

  test('before its wait is over: two of four hours', () => {
    const cure = {
      ...littleStep('glue', 60),
      waitAfter: { ...WAIT_DEFAULTS, kind: 'cure', leastH: 4, likelyH: 4, mostH: 4 } as const,
    };
    const checked = check(
      [littleJob('glue', [cure]), hour('fit', { after: ['glue'] })],
      [
        ['glue', 12],
        ['fit', 15],
      ],
    );
    expect(rulesOf(checked, 1)).toEqual([['wait', -120]]);
  });

  test('two pieces of work at once, and sleep in the work: minutes shared', () => {
    const checked = check(
      [hour('a'), hour('b')],
      [
        ['a', 13],
        ['b', 13.5],
      ],
      { sleeps: [[14, 15]] },
    );
    expect(rulesOf(checked, 1)).toEqual([
      ['overlap', -30],
      ['overlap', -30],
    ]);
    expect(checked.entries[1]?.findings.map(({ names }) => names[0])).toEqual(['a', 'sleep']);
  });

  test('every rule that is broken is told, not only the first', () => {
    const checked = check([hour('a', { sailStates: ['headsail-only'] })], [['a', 13, { handlingId: 'heave-to' }]], {
      orders: {
        a: {
          notBeforeEpochMs: at(13.5),
          finishByEpochMs: at(13.75),
          lockedStartEpochMs: at(20),
          lockedHandlingId: 'run-off',
        },
      },
      forbidden: [
        { fromEpochMs: at(13.5), toEpochMs: at(18), jobId: null },
        { fromEpochMs: at(12), toEpochMs: at(18), jobId: 'other' },
      ],
    });
    expect(rulesOf(checked, 0)).toEqual([
      ['not-before', -30],
      ['finish-by', -15],
      ['lock', -420],
      ['forbidden-hours', -30],
      ['sail-state', -1],
      ['handling', -1],
      ['lock-handling', -1],
    ]);
  });

  test('no time to settle the boat: heaving to takes a quarter of an hour', () => {
    const jobs2 = [hour('a'), hour('b', { handlings: ['heave-to'] })];
    const entries = (hourH: number) => [['a', 13] as const, ['b', hourH] as const];
    expect(rulesOf(check(jobs2, entries(14)), 1)).toEqual([['settle', -15]]);
    expect(rulesOf(check(jobs2, entries(14.5)), 1)).toEqual([]);
  });

  test('before the plan begins and after it ends', () => {
    const checked = check(
      [hour('a'), hour('b')],
      [
        ['a', 11],
        ['b', 13.5],
      ],
      { change: (passage) => ({ ...passage, settings: { ...passage.settings, horizonH: 2 } }) },
    );
    expect(rulesOf(checked, 0)[0]).toEqual(['past', -60]);
    expect(rulesOf(checked, 1)).toEqual([['horizon', -30]]);
  });

  test('so late that the forecast ends before its reserve does: nothing is promised', () => {
    const [entry] = check([hour('a')], [['a', 95]], {
      sleeps: [
        [84, 87],
        [88, 91],
      ],
    }).entries;
    expect(entry?.probability).toBe(0);
    expect(entry?.findings.map(({ rule }) => rule)).toContain('horizon');
  });

  test('a job done twice', () => {
    const checked = check(
      [hour('a')],
      [
        ['a', 13],
        ['a', 15],
      ],
    );
    expect(rulesOf(checked, 1)).toEqual([['twice', -1]]);
    expect(checked.entries[1]).toMatchObject({ endEpochMs: null, probability: null });
  });

  test('parts: the job begun first takes its own, the second is short by what is left', () => {
    const sew = (id: string) =>
      littleJob(id, [{ ...littleStep(id, 60), materials: [{ item: 'twine', amount: 10, unit: 'm' }] }]);
    const checked = check(
      [sew('a'), sew('b')],
      [
        ['b', 13],
        ['a', 15],
      ],
      {
        change: (passage) => ({
          ...passage,
          locker: { items: [{ ...LOCKER_ITEM_DEFAULTS, item: 'twine', unit: 'm', onBoardAmount: 18, keepAmount: 3 }] },
        }),
      },
    );
    expect(rulesOf(checked, 0)).toEqual([]);
    // 15 m above the reserve for 20 m.
    expect(rulesOf(checked, 1)).toEqual([['materials', -5]]);
    expect(checked.entries[1]?.probability).toBe(1);
  });

  test('a tool another job still holds', () => {
    const checked = check(
      [hour('a'), hour('b')],
      [
        ['a', 13],
        ['b', 13.5],
      ],
      { orders: { a: { tools: ['palm'] }, b: { tools: ['palm'] } } },
    );
    expect(rulesOf(checked, 1)).toEqual([
      ['tool', -30],
      ['overlap', -30],
    ]);
  });

  test('a start between slots is put on the nearest one, and the plan tells which', () => {
    const checked = check([hour('a')], [['a', 13 + 4 / 60]]);
    expect(checked.entries[0]?.startEpochMs).toBe(at(13));
  });
});

describe('work in sessions', () => {
  const session = { longestMin: 60, restMin: 20, leastUsefulMin: 30, resumeMin: 0, makeSafeMin: 10 };
  const sewing = littleJob('sew', [{ ...littleStep('sew', 120), stop: 'anywhere', session }]);

  test('each entry is one session; the second finishes it', () => {
    const checked = check(
      [sewing],
      [
        ['sew', 13],
        ['sew', 15],
      ],
    );
    expect(checked.entries.map(({ plannedMin }) => plannedMin)).toEqual([60, 60]);
    expect(checked.jobs[0]?.isFinished).toBe(true);
    expect(rulesOf(checked, 1)).toEqual([]);
  });

  test('one session alone leaves work over', () => {
    expect(check([sewing], [['sew', 13]]).jobs[0]?.isFinished).toBe(false);
  });

  test('no rest between them', () => {
    const checked = check(
      [sewing],
      [
        ['sew', 13],
        ['sew', 14],
      ],
    );
    expect(rulesOf(checked, 1)).toEqual([['session-rest', -20]]);
  });

  test('a block named by its number', () => {
    const job = littleJob('rig', [littleStep('down', 30), littleStep('up', 30)]);
    const checked = check([job], [['rig', 13, { blockIndex: 1 }]]);
    expect(checked.entries[0]).toMatchObject({ blockIndex: 1 });
    expect(rulesOf(checked, 0)).toEqual([['precedence', -1]]);
  });
});
