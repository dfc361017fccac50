import { describe, expect, test } from 'vitest';
import { blockMinutes, libraryJob, type Job, type Step } from '../../lib/jobs/index.ts';
import type { JobEventFile, NumberedEntry, SleepFile } from '../../lib/log/entry.ts';
import { workMeasures, type WorkMeasure } from '../../lib/log/pace/measures.ts';
import { ownPaceLine, ownPaces, withOwnPaces } from '../../lib/log/pace/own-paces.ts';
import { paceNotes } from '../../lib/log/pace/pace-notes.ts';
import type { PlanWithFactors } from '../../lib/log/pace/planned-factors.ts';
import { littleJob, littlePassage, littleStep } from '../planner/little-world.ts';

// Two steps of 60 and 30 minutes without spread, so that what is planned needs no quantile; hauling.
const job = littleJob('drop', [littleStep('lower', 60), littleStep('lash', 30)]);
const sewing = (id: string, lengthMin: number): Job => ({
  ...littleJob(id, [{ ...littleStep('sew', lengthMin), hands: 'fine' }]),
  group: 'sail-repair',
});

const at = (clock: string): string => `2026-06-02T${clock}Z`;
const event = (jobId: string, what: JobEventFile['event'], clock: string, rest: Partial<JobEventFile> = {}) => ({
  kind: 'job' as const,
  atUtc: at(clock),
  jobId,
  event: what,
  ...rest,
});
const log = (...entries: readonly NumberedEntry['entry'][]): NumberedEntry[] =>
  entries.map((entry, k) => ({ number: k + 1, entry }));
const measures = (...entries: readonly NumberedEntry['entry'][]): readonly WorkMeasure[] =>
  workMeasures(log(...entries), [job]);
const worked = (of: readonly WorkMeasure[]) => of.map(({ stepIds, workedMin }) => [stepIds.join(' '), workedMin]);

describe('pieces of work of a log', () => {
  test('from start to safe point to end, by the clock where no minutes are written', () => {
    const found = measures(
      event('drop', 'started', '10:00'),
      event('drop', 'safe-point', '11:30', { stepId: 'lower' }),
      event('drop', 'done', '12:05'),
    );
    expect(worked(found)).toEqual([
      ['lower', 90],
      ['lash', 35],
    ]);
    expect(found.map(({ plannedMin, ratio }) => [plannedMin, ratio])).toEqual([
      [60, 1.5],
      [30, 35 / 30],
    ]);
  });

  test('written minutes go before the clock', () => {
    const found = measures(event('drop', 'started', '10:00'), event('drop', 'done', '13:00', { workedMin: 99 }));
    expect(worked(found)).toEqual([['lower lash', 99]]);
    expect(found[0]?.ratio).toBeCloseTo(1.1, 12);
  });

  test('a break between stop and start is no work; both ends count', () => {
    const found = measures(
      event('drop', 'started', '10:00'),
      event('drop', 'stopped', '10:40'),
      event('drop', 'started', '15:00'),
      event('drop', 'done', '16:05'),
    );
    expect(worked(found)).toEqual([['lower lash', 105]]);
  });

  test('sleep between start and end is no work', () => {
    const sleep: SleepFile = { kind: 'sleep', atUtc: at('10:30'), endUtc: at('11:30') };
    const found = measures(event('drop', 'started', '10:00'), sleep, event('drop', 'done', '12:30'));
    expect(worked(found)).toEqual([['lower lash', 90]]);
  });

  test('a safe point without its step is the next one; a later one without minutes goes on from there', () => {
    const found = measures(
      event('drop', 'started', '10:00'),
      event('drop', 'safe-point', '11:00'),
      event('drop', 'stopped', '11:20'),
      event('drop', 'started', '12:00'),
      event('drop', 'done', '12:10'),
    );
    expect(worked(found)).toEqual([
      ['lower', 60],
      ['lash', 30],
    ]);
  });

  test('done alone says nothing; done alone with minutes does', () => {
    expect(worked(measures(event('drop', 'done', '12:00')))).toEqual([['lower lash', null]]);
    expect(worked(measures(event('drop', 'done', '12:00', { workedMin: 90 })))).toEqual([['lower lash', 90]]);
  });

  test('more than four hours on the clock say nothing, four do', () => {
    const until = (clock: string) => worked(measures(event('drop', 'started', '10:00'), event('drop', 'done', clock)));
    expect(until('14:00')).toEqual([['lower lash', 240]]);
    expect(until('14:01')).toEqual([['lower lash', null]]);
  });

  test('the clock says nothing across a soak, written minutes do', () => {
    const wait = {
      kind: 'soak',
      leastH: 1,
      likelyH: 1,
      mostH: 1,
      atC: 20,
      halvesPerC: null,
      floorC: null,
      keptAtC: null,
    } as const;
    const soaked = littleJob('oil', [{ ...littleStep('oil', 10), waitAfter: wait }, littleStep('turn', 20)]);
    const of = (rest: Partial<JobEventFile>) =>
      workMeasures(log(event('oil', 'started', '10:00'), event('oil', 'done', '11:30', rest)), [soaked]);
    expect(of({})[0]).toMatchObject({ workedMin: null, leftOut: 'minutes-unknown' });
    expect(of({ workedMin: 45 })[0]?.ratio).toBeCloseTo(1.5, 12);
  });

  test('what the passage file says is done is not measured; an unfinished piece is none', () => {
    const orders = new Map([['drop', { isDone: false, doneStepIds: ['lower'] }]]);
    const entries = log(event('drop', 'started', '10:00'), event('drop', 'done', '10:45'));
    expect(worked(workMeasures(entries, [job], { orders }))).toEqual([['lash', 45]]);
    expect(measures(event('drop', 'started', '10:00'), event('drop', 'stopped', '10:30'))).toEqual([]);
  });

  test('corrections hold: withdrawn entries are not there', () => {
    const entries = [
      ...log(event('drop', 'started', '10:00'), event('drop', 'done', '12:00')),
      { number: 3, entry: { kind: 'correction', atUtc: at('13:00'), corrects: 2, by: null } as const },
    ];
    expect(workMeasures(entries, [job])).toEqual([]);
  });

  test('minutes of a library job: half of all tries stay within them', () => {
    const reef = libraryJob('reef');
    if (reef === null || reef === undefined) throw new Error('no reef');
    const [measure] = workMeasures(log(event('reef', 'done', '12:00', { workedMin: 20 })), [reef]);
    const [first, ...rest] = reef.steps;
    if (first === undefined) throw new Error('no step');
    expect(measure?.plannedMin).toBe(blockMinutes({ steps: [first, ...rest] }).p50Min);
  });

  test('a piece half hauling, half fitting is of no kind; the greater part decides else', () => {
    const mixed = (fittingMin: number): Step[] => [
      littleStep('haul', 60),
      { ...littleStep('fit', fittingMin), hands: 'medium' },
    ];
    const of = (fittingMin: number) =>
      workMeasures(log(event('both', 'done', '12:00', { workedMin: 120 })), [littleJob('both', mixed(fittingMin))])[0];
    expect(of(60)).toMatchObject({ workKind: null, leftOut: 'mixed-kinds', ratio: null });
    expect(of(70)).toMatchObject({ workKind: 'fitting', leftOut: null });
  });
});

describe('time factors of the hours of the work', () => {
  const plan = (rest: { ratio: number; own?: number; made?: string; from?: string; to?: string }): PlanWithFactors => ({
    madeAtUtc: at(rest.made ?? '06:00'),
    entries: [
      {
        kind: 'work',
        jobId: 'drop',
        stepIds: ['lower', 'lash'],
        startUtc: at(rest.from ?? '10:00'),
        endUtc: at(rest.to ?? '12:00'),
        factorsTogetherRatio: rest.ratio,
        factors:
          rest.own === undefined ? [] : [{ id: 'own-pace', name: '', ratio: rest.own, basis: 'your own', text: '' }],
      },
    ],
  });
  const entries = log(event('drop', 'started', '10:00'), event('drop', 'done', '12:15'));
  const first = (...plans: readonly PlanWithFactors[]) => workMeasures(entries, [job], { plans })[0];

  test('of the plan of these hours are part of what was planned: 135 min against 90 × 1.25 is 1.2', () => {
    expect(first(plan({ ratio: 1.25 }))).toMatchObject({ factorsRatio: 1.25, plannedMin: 112.5 });
    expect(first(plan({ ratio: 1.25 }))?.ratio).toBeCloseTo(1.2, 12);
  });

  test('own pace that was planned with is taken out: else it would be learned away again', () => {
    expect(first(plan({ ratio: 1.5, own: 1.2 }))?.factorsRatio).toBeCloseTo(1.25, 12);
  });

  test('the last plan holds, one of other hours says nothing', () => {
    const later = plan({ ratio: 1.1, made: '08:00' });
    expect(first(later, plan({ ratio: 1.25 }))?.factorsRatio).toBe(1.1);
    expect(
      first(plan({ ratio: 1.25 }), plan({ ratio: 3, made: '09:00', from: '20:00', to: '22:00' }))?.factorsRatio,
    ).toBe(1.25);
    expect(first(plan({ ratio: 3, from: '20:00', to: '22:00' }))?.factorsRatio).toBeNull();
    expect(first(plan({ ratio: 3, made: '13:00' }))?.factorsRatio).toBeNull();
  });
});

describe('own pace', () => {
  const sewn = (minutes: readonly number[]) => ({
    jobs: minutes.map((_, k) => sewing(`sew-${k}`, 60)),
    entries: log(...minutes.map((workedMin, k) => event(`sew-${k}`, 'done', `1${k}:00`, { workedMin }))),
  });
  const paceOf = (minutes: readonly number[], options: Parameters<typeof ownPaces>[2] = {}) => {
    const { jobs, entries } = sewn(minutes);
    return ownPaces(entries, jobs, options)[0];
  };

  // Bühlmann, Experience rating and credibility, ASTIN Bulletin 4 (1967) 199–207 (from memory): Z · own + (1 − Z) · prior,
  // Z = n / (n + k). k = 3 is our choice.
  test.each([
    { minutes: [120], usualRatio: 1 },
    { minutes: [90, 90, 90, 90, 90], usualRatio: 1 },
    { minutes: [60, 120, 84], usualRatio: 1.2 },
    { minutes: [30, 45], usualRatio: 1 },
  ])('of $minutes against 60 planned is the credibility mean', ({ minutes, usualRatio }) => {
    const own = minutes.reduce((sum, min) => sum + min / 60, 0) / minutes.length;
    const z = minutes.length / (minutes.length + 3);
    const pace = paceOf(minutes, { usualRatio });
    expect(pace?.ratio).toBeCloseTo(z * own + (1 - z) * usualRatio, 12);
    expect(pace).toMatchObject({ workKind: 'sewing', sessionCount: minutes.length, clampedCount: 0 });
  });

  test('five seams, each 1.64 times as long as given: factor 1.4', () => {
    const pace = paceOf([98.4, 98.4, 98.4, 98.4, 98.4]);
    expect(pace === undefined ? '' : ownPaceLine(pace)).toBe('your factor 1.4 (n = 5) for sewing');
  });

  test('a slip of the pen counts as 4 at most and 0.3 at least, and is said', () => {
    expect(paceOf([6000])?.ratio).toBeCloseTo((4 + 3) / 4, 12);
    expect(paceOf([1])?.ratio).toBeCloseTo((0.3 + 3) / 4, 12);
    const { jobs, entries } = sewn([6000]);
    expect(paceOf([6000])?.clampedCount).toBe(1);
    expect(paceNotes(workMeasures(entries, jobs)).map(({ text }) => text)[0]).toBe(
      'sew-0: 6000 min worked against 60 min planned is a factor of 100.00; it counts as 4.0, since only 0.3 to 4 is taken for pace.',
    );
  });

  test('no work in the log: no pace; work of one kind says nothing of another', () => {
    expect(ownPaces([], [job])).toEqual([]);
    expect(paceOf([90])?.workKind).toBe('sewing');
    const { jobs, entries } = sewn([90]);
    expect(ownPaces(entries, [...jobs, job]).map(({ workKind }) => workKind)).toEqual(['sewing']);
  });

  test('learned in two goes is learned at once', () => {
    const whole = paceOf([70, 100, 130, 65], { usualRatio: 1.1 });
    const half = paceOf([70, 100], { usualRatio: 1.1 });
    if (half === undefined) throw new Error('nothing learned');
    const again = paceOf([130, 65], { usualRatio: 1.1, known: { sewing: half } });
    expect(again?.ratio).toBeCloseTo(whole?.ratio ?? 0, 12);
    expect(again?.sessionCount).toBe(4);
  });

  test('goes into the watchkeeper beside what is known of other work', () => {
    const pace = paceOf([90]);
    if (pace === undefined) throw new Error('nothing learned');
    const { watchkeeper } = littlePassage([]);
    const known = { ...watchkeeper, paceByWork: { below: { ratio: 0.9, sessionCount: 2 } } };
    expect(withOwnPaces(known, [pace]).paceByWork).toEqual({
      below: { ratio: 0.9, sessionCount: 2 },
      sewing: { ratio: (1.5 + 3) / 4, sessionCount: 1 },
    });
    expect(withOwnPaces(watchkeeper, [])).toBe(watchkeeper);
  });

  test('what does not count is said, with what would make it count', () => {
    const notes = paceNotes(measures(event('drop', 'done', '12:00')));
    expect(notes).toMatchObject([{ code: 'log.pace-minutes-unknown', entryNumbers: [1] }]);
  });
});
