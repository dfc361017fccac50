import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { jobStates, jobStateWords, type JobState, type JobStateOptions } from '../../lib/log/index.ts';
import { jobEvent, statements } from './any-log.ts';
import { at, demoPassage, entryOf, event, logOf, seen, utc } from './demo.ts';

// The demo's jobs by their blocks, as the library has them: "drop" settle, prepare, lower (never to be stopped), tame |
// flake, lash (anywhere); "stitch" lay-out, sew, fasten-off, all anywhere; "bench" measure, cut (anywhere) | bond, cure.

const { jobs } = demoPassage();

function stateOf(jobId: string, raws: readonly object[], options: JobStateOptions = {}): JobState {
  const state = jobStates(logOf(...raws), jobs, options).find((one) => one.jobId === jobId);
  if (state === undefined) throw new Error(`no job ${jobId}`);
  return state;
}

const stepsOf = (state: JobState): string[] => state.finishedSteps.map(({ stepId }) => stepId);
const codesOf = (state: JobState): string[] => state.notes.map(({ code }) => code);

describe('how far a job is', () => {
  test('no event: not begun', () => {
    expect(stateOf('drop', [seen('27 19:00', { airC: 14 })])).toMatchObject({ status: 'not-begun', finishedSteps: [] });
  });

  test('started: under way, nothing finished', () => {
    const state = stateOf('drop', [event('drop', 'started', '27 19:00')]);
    expect(state).toMatchObject({ status: 'under-way', startedEpochMs: at('27 19:00'), safePointStepId: null });
  });

  test('a safe point without its step is the next one; after it she is still at work', () => {
    const state = stateOf('drop', [event('drop', 'started', '27 19:00'), event('drop', 'safe-point', '27 20:10')]);
    expect(state).toMatchObject({ status: 'under-way', safePointStepId: 'tame' });
    expect(stepsOf(state)).toEqual(['settle', 'prepare', 'lower', 'tame']);
    expect(state.finishedSteps.every(({ atEpochMs }) => atEpochMs === at('27 20:10'))).toBe(true);
  });

  test('a safe point without its step where only the end is left: not the end, and said', () => {
    const state = stateOf('stitch', [
      event('stitch', 'started', '28 01:00'),
      event('stitch', 'safe-point', '28 02:00'),
    ]);
    expect(state.status).toBe('under-way');
    expect(stepsOf(state)).toEqual([]);
    expect(codesOf(state)).toContain('log.safe-point-unclear');
  });

  test('left in the core: back to the last safe point, and what was worked is lost', () => {
    const state = stateOf('drop', [
      event('drop', 'started', '27 19:00'),
      event('drop', 'stopped', '27 20:30', { stepId: 'lower', workedMin: 75 }),
    ]);
    expect(state).toMatchObject({ status: 'stopped', workedMin: 75, doneMin: 0, finishedSteps: [] });
    expect(codesOf(state)).toContain('log.not-a-safe-point');
  });

  // settle and prepare take 8 to 33 and 8 to 25 min, likely 15 and 14: up to 58 min she may still be in them.
  test.each([
    [20, 20],
    [40, 29],
    [58, 29],
    [59, 0],
  ])('left after %d min in a core that begins with work that can be left: %d min count', (workedMin, doneMin) => {
    const state = stateOf('drop', [
      event('drop', 'started', '27 19:00'),
      event('drop', 'stopped', '27 20:30', { workedMin }),
    ]);
    expect(state).toMatchObject({ workedMin, doneMin });
  });

  test('work that can be stopped anywhere: minutes of all sessions add up, brought to pace 1', () => {
    const raws = [
      event('stitch', 'started', '28 01:00'),
      event('stitch', 'stopped', '28 02:30', { workedMin: 60 }),
      event('stitch', 'started', '28 03:00'),
      event('stitch', 'stopped', '28 04:00', { workedMin: 45 }),
    ];
    expect(stateOf('stitch', raws)).toMatchObject({ status: 'stopped', workedMin: 105, doneMin: 105 });
    expect(stateOf('stitch', raws, { paceRatioOf: () => 1.25 })).toMatchObject({ workedMin: 105, doneMin: 84 });
  });

  test('a step of such work finished: it counts as finished, and minutes begin anew', () => {
    const state = stateOf('stitch', [
      event('stitch', 'started', '28 01:00'),
      event('stitch', 'stopped', '28 01:40', { stepId: 'lay-out', workedMin: 35 }),
      event('stitch', 'started', '28 02:00'),
      event('stitch', 'stopped', '28 02:50', { workedMin: 50 }),
    ]);
    expect(stepsOf(state)).toEqual(['lay-out']);
    expect(state).toMatchObject({ workedMin: 50, doneMin: 50, safePointStepId: null });
  });

  test('no minutes given: those of the clock, one session at most, and it is said', () => {
    const stopped = (when: string): JobState =>
      stateOf('stitch', [event('stitch', 'started', '28 01:00'), event('stitch', 'stopped', when)]);
    expect(stopped('28 01:50').workedMin).toBe(50);
    const session = jobs.find(({ id }) => id === 'stitch')?.steps.find(({ id }) => id === 'sew')?.session;
    expect(stopped('28 13:00').workedMin).toBe(session?.longestMin ?? 90);
    expect(codesOf(stopped('28 01:50'))).toEqual(['log.minutes-by-clock']);
  });

  test('done without a start: done, and said', () => {
    const state = stateOf('filter', [event('filter', 'done', '28 05:00', { workedMin: 40 })]);
    expect(state).toMatchObject({ status: 'done', doneEpochMs: at('28 05:00'), doneMin: 0 });
    expect(codesOf(state)).toEqual(['log.done-unstarted']);
  });

  test('the last step finished: done, by whatever word', () => {
    const state = stateOf('drop', [
      event('drop', 'started', '27 19:00'),
      event('drop', 'safe-point', '27 21:00', { stepId: 'lash' }),
    ]);
    expect(state).toMatchObject({ status: 'done', doneEpochMs: at('27 21:00') });
  });

  test('begun again after it was done: it stays done, and that is said', () => {
    const state = stateOf('drop', [event('drop', 'done', '27 21:00'), event('drop', 'started', '27 22:00')]);
    expect(state.status).toBe('done');
    expect(codesOf(state)).toEqual(['log.done-unstarted', 'log.after-done']);
  });

  test('done taken back by a correction: as it was before', () => {
    const raws = [
      event('drop', 'started', '27 19:00'),
      event('drop', 'done', '27 21:00'),
      { kind: 'correction', atUtc: utc('27 21:30'), corrects: 2, by: null },
    ];
    expect(stateOf('drop', raws)).toMatchObject({ status: 'under-way', finishedSteps: [] });
  });

  test('what the passage file says is done comes before the log', () => {
    const orders = new Map([
      ['drop', { isDone: false, doneStepIds: ['settle', 'prepare', 'lower', 'tame'], doneMin: 5 }],
    ]);
    expect(stateOf('drop', [], { orders })).toMatchObject({ status: 'stopped', doneMin: 5, safePointStepId: 'tame' });
    const state = stateOf('drop', [event('drop', 'stopped', '27 20:00', { stepId: 'flake' })], { orders });
    expect(state.finishedSteps.map(({ atEpochMs }) => atEpochMs)).toEqual([null, null, null, null, at('27 20:00')]);
  });

  test('in words', () => {
    const drop = jobs.find(({ id }) => id === 'drop');
    if (drop === undefined) throw new Error('no drop');
    const state = stateOf('drop', [event('drop', 'started', '27 19:00'), event('drop', 'safe-point', '27 20:10')]);
    expect(jobStateWords(state, drop)).toMatch(
      /^Drop and lash the mainsail: under way since 27 May 19:00Z, 4 of 6 steps finished, at the safe point after ".+"\.$/,
    );
  });
});

describe('properties of job states', () => {
  test('after any prefix of any log: finished steps are how the job begins, all of them exactly when it is done', () => {
    fc.assert(
      fc.property(statements, (entries) => {
        for (let count = 0; count <= entries.length; count++) {
          for (const state of jobStates(entries.slice(0, count), jobs)) {
            const job = jobs.find(({ id }) => id === state.jobId);
            const all = job?.steps.map(({ id }) => id) ?? [];
            expect(stepsOf(state)).toEqual(all.slice(0, state.finishedSteps.length));
            expect(state.status === 'done').toBe(state.finishedSteps.length === all.length);
            expect(state.doneMin).toBeGreaterThanOrEqual(0);
            expect(state.doneMin).toBeLessThanOrEqual(state.workedMin);
            expect(state.status === 'not-begun').toBe(state.lastEpochMs === null);
          }
        }
      }),
      { seed: 11, numRuns: 25 },
    );
  });

  test('finished work never comes back: no further entry, of whatever hour, makes less of it', () => {
    fc.assert(
      fc.property(statements, fc.array(jobEvent, { maxLength: 4 }), (entries, more) => {
        const after = [...entries, ...more.map((raw, k) => ({ number: entries.length + k + 1, entry: entryOf(raw) }))];
        const before = jobStates(entries, jobs);
        jobStates(after, jobs).forEach((state, k) =>
          expect(state.finishedSteps.length).toBeGreaterThanOrEqual(before[k]?.finishedSteps.length ?? Infinity),
        );
      }),
      { seed: 12, numRuns: 80 },
    );
  });
});
