import { describe, expect, test } from 'vitest';
import type { Job } from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { prepare } from '../../lib/planner/prepare.ts';
import { passageReadiness } from '../../lib/planner/readiness.ts';
import { LOCKER_ITEM_DEFAULTS, type LockerItem } from '../../lib/stock/index.ts';
import { at, calm, check, rulesOf } from './check-own.ts';
import { planLittle } from './plan-little.ts';
import { littleJob, littlePassage, littleStep, littleWeather, withBoatSpeed } from './little-world.ts';

// One account of the locker for plan, check and readiness. Rules of ours, sums by hand.

const line = (item: string, onBoardAmount: number, more: Partial<LockerItem> = {}): LockerItem => ({
  ...LOCKER_ITEM_DEFAULTS,
  item,
  unit: 'pieces',
  onBoardAmount,
  ...more,
});
const needs = (id: string, item: string, more: Partial<Job> = {}): Job =>
  littleJob(id, [{ ...littleStep(id, 60), materials: [{ item, amount: 1, unit: 'pieces' }] }], more);
const withLocker =
  (...items: readonly LockerItem[]) =>
  (passage: Passage): Passage => ({ ...passage, locker: { items } });

const excludedIn = (passage: Passage) => prepare(passage, littleWeather([calm], 48), at(12)).excluded;
const little = (jobs: readonly Job[], ...items: readonly LockerItem[]): Passage =>
  withLocker(...items)(withBoatSpeed(littlePassage(jobs), 0));

const bench = needs('bench', 'rod', { makes: [{ item: 'batten', amount: 1, unit: 'pieces' }] });
const swap = (more: Partial<Job> = {}): Job => needs('swap', 'batten', { priorityWeight: 9, ...more });

const wait = {
  kind: 'cure',
  leastH: 2,
  likelyH: 2,
  mostH: 2,
  atC: 20,
  halvesPerC: null,
  floorC: null,
  keptAtC: null,
} as const;
const glue = littleJob('glue', [{ ...littleStep('glue', 60), waitAfter: wait }], { priorityWeight: 9 });
const use = littleJob('use', [littleStep('use', 60)], { needsTools: ['Clamp'], priorityWeight: 1 });

describe('jobs left out of a plan', () => {
  test('what the job before makes: counts, and both are planned', () => {
    expect(excludedIn(little([swap({ after: ['bench'] }), bench], line('rod', 1)))).toEqual(new Map());
  });

  test('what a job makes that it does not come after: does not count, and which to come after is told', () => {
    const miss = excludedIn(little([swap(), bench], line('rod', 1))).get('swap');
    expect(miss).toMatchObject({
      reason: 'materials',
      text: 'The locker does not hold enough. batten: short by 1 piece.',
    });
    expect(miss?.wouldHelp).toContain('add "bench" to the jobs this one comes after');
  });

  test('a tool the locker does not list, though it lists tools: left out, and what comes after it too', () => {
    const jobs = [
      littleJob('drill', [littleStep('drill', 60)], { needsTools: ['drill'] }),
      littleJob('after', [littleStep('after', 60)], { after: ['drill'] }),
    ];
    const excluded = excludedIn(little(jobs, line('awl', 1, { kind: 'tool' })));
    expect(excluded.get('drill')).toMatchObject({
      reason: 'materials',
      text: 'The locker does not list the tool "drill".',
    });
    expect(excluded.get('after')?.reason).toBe('precedence');
    expect(excludedIn(little(jobs, line('twine', 1)))).toEqual(new Map());
    expect(excludedIn(little(jobs))).toEqual(new Map());
  });

  test('a finished job whose materials are gone: bars nothing that comes after it', () => {
    const passage = little([needs('first', 'rod'), littleJob('next', [littleStep('next', 60)], { after: ['first'] })]);
    const isDone = { isDone: true, doneStepIds: [], doneMin: 0, tools: [] };
    const times = { notBeforeEpochMs: null, finishByEpochMs: null, lockedStartEpochMs: null, lockedHandlingId: null };
    const orders = { jobs: new Map([['first', { ...times, ...isDone }]]), forbidden: [] };
    expect(excludedIn({ ...withLocker(line('rod', 0))(passage), orders })).toEqual(new Map());
  });

  test('the same as readiness says', () => {
    const passage = little([swap(), bench, needs('other', 'rod')], line('rod', 1));
    const not = passageReadiness(passage).filter(({ status }) => status === 'not');
    expect([...excludedIn(passage).keys()].toSorted()).toEqual(not.map(({ jobId }) => jobId).toSorted());
    expect(not.length).toBe(2);
  });
});

describe('a plan made by hand', () => {
  test('first the maker, then the job that needs it: nothing against it; the other way round: short, and out of order', () => {
    const jobs = [swap({ after: ['bench'] }), bench];
    const change = withLocker(line('rod', 1));
    const inOrder = check(
      jobs,
      [
        ['bench', 13],
        ['swap', 15],
      ],
      { change },
    );
    expect([rulesOf(inOrder, 0), rulesOf(inOrder, 1)]).toEqual([[], []]);
    const [first] = check(
      jobs,
      [
        ['swap', 13],
        ['bench', 15],
      ],
      { change },
    ).entries;
    expect(first?.findings.map(({ rule }) => rule)).toEqual(expect.arrayContaining(['materials', 'precedence']));
  });

  test('a maker it does not come after: short of one, as in a plan of ours', () => {
    const checked = check(
      [swap(), bench],
      [
        ['bench', 13],
        ['swap', 15],
      ],
      { change: withLocker(line('rod', 1)) },
    );
    expect(rulesOf(checked, 1)).toEqual([['materials', -1]]);
  });

  test('a tool that is not on board: told as a piece short', () => {
    const jobs = [littleJob('drill', [littleStep('drill', 60)], { needsTools: ['drill'] })];
    const checked = check(jobs, [['drill', 13]], { change: withLocker(line('awl', 1, { kind: 'tool' })) });
    expect(rulesOf(checked, 0)).toEqual([['materials', -1]]);
  });

  test('a tool another job holds, here only used: not before its wait is over', () => {
    const orders = { glue: { tools: ['clamp'] } };
    // Glued 13 to 14, held to 16.
    const early = check(
      [glue, use],
      [
        ['glue', 13],
        ['use', 15],
      ],
      { orders },
    );
    expect(rulesOf(early, 1)).toEqual([['tool', -60]]);
    expect(
      rulesOf(
        check(
          [glue, use],
          [
            ['glue', 13],
            ['use', 16],
          ],
          { orders },
        ),
        1,
      ),
    ).toEqual([]);
  });
});

describe('a plan of ours', () => {
  const startsOf = (tools: readonly string[]) => {
    const times = { notBeforeEpochMs: null, finishByEpochMs: null, lockedStartEpochMs: null, lockedHandlingId: null };
    const order = { ...times, isDone: false, doneStepIds: [], doneMin: 0, tools };
    const passage = { ...little([glue, use]), orders: { jobs: new Map([['glue', order]]), forbidden: [] } };
    const { plan } = planLittle(passage, littleWeather([calm], 40));
    const ofJob = (id: string) => plan.entries.filter(({ jobId, kind }) => jobId === id && kind === 'work');
    const hourOf = (utc: string | undefined): number => (Date.parse(utc ?? '') - at(0)) / 3_600_000;
    return { gluedH: hourOf(ofJob('glue').at(-1)?.endUtc), usedH: hourOf(ofJob('use')[0]?.startUtc) };
  };

  test('glued first and the clamp held: the job that uses it waits the two hours; not held: it goes on at once', () => {
    const held = startsOf(['clamp']);
    expect(held.usedH - held.gluedH).toBeGreaterThanOrEqual(2);
    const free = startsOf([]);
    expect(free.usedH - free.gluedH).toBeLessThan(2);
    expect(free.usedH).toBeGreaterThan(free.gluedH - 1e-9);
  });
});
