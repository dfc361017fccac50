import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parsePassage } from '../../lib/passage/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { sample, type Sample } from './sample.ts';
import { longOrShort } from '../long-run.ts';

function problemsOf(file: unknown): readonly Problem[] {
  const text = typeof file === 'string' ? file : JSON.stringify(file);
  const result = parsePassage(text, 'a.json');
  return result.ok ? [] : result.problems;
}

/** The sample with something else laid over one part of it. */
const spoiled = (spoil: (file: Sample) => object): object => ({ ...sample(), ...spoil(sample()) });
const firstJob = (more: object): object =>
  spoiled(({ jobs }) => ({ jobs: [{ ...jobs[0], ...more }, ...jobs.slice(1)] }));
const setting = (settings: object): object => spoiled(() => ({ settings }));
const ownStep = { id: 'a', name: 'A', place: 'deck', work: { leastMin: 5, likelyMin: 8, mostMin: 12 }, limits: {} };

/** What is wrong, what says so, and where; the remedy where it must suggest something. */
const cases: readonly [name: string, file: object, code: string, where: string, remedy?: string][] = [
  [
    'unknown key at the top',
    spoiled(() => ({ lokcer: [] })),
    'passage.key-unknown',
    'a.json, lokcer',
    'Did you mean "locker"?',
  ],
  [
    'unknown key deep inside',
    firstJob({ steps: [{ ...ownStep, wrok: 1 }] }),
    'passage.key-unknown',
    'a.json, jobs[0].steps[0].wrok',
    'Did you mean "work"?',
  ],
  [
    'unknown key in the boat',
    spoiled(({ boat }) => ({ boat: { ...boat, draft: 2 } })),
    'passage.key-unknown',
    'a.json, boat.draft',
  ],
  ['no start', spoiled(() => ({ start: undefined })), 'passage.missing', 'a.json, start'],
  ['start without time', spoiled(() => ({ start: { lat: 0, lon: 0 } })), 'passage.missing', 'a.json, start.timeUtc'],
  ['another version', spoiled(() => ({ slatch: 2 })), 'passage.version', 'a.json, slatch'],
  [
    'time without offset',
    spoiled(({ start }) => ({ start: { ...start, timeUtc: '2026-05-27T18:00' } })),
    'time.not-an-instant',
    'a.json, start.timeUtc',
  ],
  [
    'latitude beyond the pole',
    spoiled(({ start }) => ({ start: { ...start, lat: -96.3 } })),
    'passage.value',
    'a.json, start.lat',
  ],
  ['clock that is none', spoiled(() => ({ clock: 'lvie' })), 'passage.value', 'a.json, clock'],
  ['track of one point', spoiled(({ track }) => ({ track: track.slice(0, 1) })), 'passage.value', 'a.json, track'],
  [
    'same waypoint twice',
    spoiled(({ track }) => ({ track: [...track, track[2]] })),
    'passage.track-same-place',
    'a.json, track[3]',
  ],
  [
    'sail state of the start',
    spoiled(({ start }) => ({ start: { ...start, sailState: 'deepreef' } })),
    'passage.sail-state-unknown',
    'a.json, start.sailState',
    'Did you mean "deep-reef"?',
  ],
  [
    'speed table of no sail state',
    spoiled(({ boat }) => ({
      boat: { ...boat, speedTables: { ...boat.speedTables, 'full-mian': boat.speedTables['full-main'] } },
    })),
    'boat.sail-state-unknown',
    'a.json, boat.speedTables',
    'Did you mean "full-main"?',
  ],
  [
    'new handling without limits',
    spoiled(({ boat }) => ({
      boat: {
        ...boat,
        handlings: [
          { id: 'tow', heading: 'course', sailStates: [], limits: { seaHeightM: { ideal: 1, caution: 2, noGo: 3 } } },
        ],
      },
    })),
    'passage.missing',
    'a.json, boat.handlings[0].limits.trueWindKn',
  ],
  [
    'levels of a usual handling out of order: its place in the file, not among all handlings',
    spoiled(({ boat }) => ({
      boat: {
        ...boat,
        handlings: [
          { id: 'hold-course', speedRatio: 0.9 },
          { id: 'heave-to', limits: { seaHeightM: { ideal: 3, caution: 2, noGo: 4 } } },
        ],
      },
    })),
    'boat.levels-order',
    'a.json, boat.handlings[1].limits.seaHeightM',
  ],
  [
    'handling with two headings',
    spoiled(({ boat }) => ({ boat: { ...boat, handlings: [{ id: 'run-off', heading: 'course', twaDeg: 170 }] } })),
    'passage.two-headings',
    'a.json, boat.handlings[0]',
  ],
  [
    'library job',
    firstJob({ from: 'drop-mian' }),
    'jobs.library-unknown',
    'a.json, jobs[0].from',
    'Did you mean "drop-main"?',
  ],
  [
    'job without steps or library',
    firstJob({ from: undefined, name: 'own' }),
    'jobs.no-steps',
    'a.json, jobs[0].steps',
  ],
  ['own job without a name', firstJob({ from: undefined, steps: [ownStep] }), 'jobs.no-name', 'a.json, jobs[0].name'],
  [
    'own step without limits',
    firstJob({ from: undefined, name: 'own', steps: [{ ...ownStep, limits: undefined }] }),
    'jobs.step-incomplete',
    'a.json, jobs[0].steps[0].limits',
  ],
  [
    'after an unknown job',
    firstJob({ after: ['hosit'] }),
    'jobs.after-unknown',
    'a.json, jobs[0].after[0]',
    'Did you mean "hoist"?',
  ],
  ['after itself', firstJob({ after: ['drop'] }), 'jobs.after-itself', 'a.json, jobs[0].after[0]'],
  ['ring', firstJob({ after: ['hoist'] }), 'jobs.after-ring', 'a.json, jobs[0].after'],
  [
    'handling',
    firstJob({ handlings: ['run-of'] }),
    'passage.handling-unknown',
    'a.json, jobs[0].handlings[0]',
    'Did you mean "run-off"?',
  ],
  [
    'handling that never exists with the sails',
    firstJob({ handlings: ['close-reach-headsail'] }),
    'passage.no-handling',
    'a.json, jobs[0].handlings',
  ],
  [
    'sail state of a job',
    firstJob({ sailStates: ['full-mein'] }),
    'passage.sail-state-unknown',
    'a.json, jobs[0].sailStates[0]',
    'Did you mean "full-main"?',
  ],
  ['two jobs of one id', spoiled(({ jobs }) => ({ jobs: [...jobs, jobs[2]] })), 'passage.twice', 'a.json, jobs[3].id'],
  ['priority out of range', firstJob({ priority: 10 }), 'passage.value', 'a.json, jobs[0].priority'],
  [
    'negative minutes',
    firstJob({ minutes: { settle: { leastMin: -5, likelyMin: 8, mostMin: 12 } } }),
    'passage.value',
    'a.json, jobs[0].minutes.settle.leastMin',
  ],
  [
    'minutes that fall',
    firstJob({ minutes: { settle: { leastMin: 9, likelyMin: 8, mostMin: 12 } } }),
    'passage.value',
    'a.json, jobs[0].minutes.settle',
  ],
  [
    'minutes of no step',
    firstJob({ minutes: { setle: ownStep.work } }),
    'jobs.step-unknown',
    'a.json, jobs[0].minutes.setle',
    'Did you mean "settle"?',
  ],
  [
    'limit levels that fall',
    firstJob({ limits: { deckWindKn: { ideal: 20, caution: 15, noGo: 25 } } }),
    'passage.value',
    'a.json, jobs[0].limits.deckWindKn',
  ],
  ['seam on a job that is not sewn', firstJob({ lengthM: 1 }), 'jobs.no-seam', 'a.json, jobs[0].lengthM'],
  [
    'cloth',
    spoiled(({ jobs }) => ({ jobs: [jobs[0], { ...jobs[1], cloth: 'woven-heay' }, jobs[2]] })),
    'jobs.cloth-unknown',
    'a.json, jobs[1].cloth',
    'Did you mean "woven-heavy"?',
  ],
  [
    'place',
    firstJob({ steps: [{ ...ownStep, place: 'alof' }] }),
    'passage.value',
    'a.json, jobs[0].steps[0].place',
    'Did you mean "aloft"?',
  ],
  [
    'locker unit',
    spoiled(() => ({ locker: [{ item: 'waxed twine', unit: 'ft', onBoard: 200 }] })),
    'stock.unit-mismatch',
    'a.json, locker, waxed twine',
  ],
  [
    'item twice',
    spoiled(({ locker }) => ({ locker: [...locker, locker[0]] })),
    'passage.item-twice',
    'a.json, locker[2].item',
  ],
  [
    'overlapping sleeps',
    spoiled(({ watchkeeper }) => ({
      watchkeeper: { sleeps: [...watchkeeper.sleeps, { startUtc: '2026-05-27T13:00Z', endUtc: '2026-05-27T15:00Z' }] },
    })),
    'passage.sleep-overlap',
    'a.json, watchkeeper.sleeps[2]',
  ],
  [
    'sleep that ends before it begins',
    spoiled(() => ({ watchkeeper: { sleeps: [{ startUtc: '2026-05-27T13:00Z', endUtc: '2026-05-27T11:00Z' }] } })),
    'passage.sleep-order',
    'a.json, watchkeeper.sleeps[0]',
  ],
  [
    'no sleep before the start',
    spoiled(() => ({ watchkeeper: { sleeps: [{ startUtc: '2026-05-28T13:00Z', endUtc: '2026-05-28T15:00Z' }] } })),
    'passage.sleep-none-before-start',
    'a.json, watchkeeper.sleeps',
  ],
  [
    'bedtime',
    spoiled(() => ({ watchkeeper: { usualSleepLocal: '25:00' } })),
    'passage.value',
    'a.json, watchkeeper.usualSleepLocal',
  ],
  ['slot that does not divide an hour', setting({ slotMin: 25 }), 'passage.value', 'a.json, settings.slotMin'],
  ['probability above 1', setting({ wantedProbability: 80 }), 'passage.value', 'a.json, settings.wantedProbability'],
  ['text for a number', setting({ seed: '1' }), 'passage.type', 'a.json, settings.seed'],
  ['traffic', setting({ traffic: 'ocaen' }), 'passage.value', 'a.json, settings.traffic', 'Did you mean "ocean"?'],
  ['jobs that are no list', spoiled(() => ({ jobs: {} })), 'passage.type', 'a.json, jobs'],
];

describe('parsePassage, one mistake', () => {
  it('the sample itself: none', () => {
    expect(problemsOf(sample())).toEqual([]);
  });

  it.each(cases)('%s: exactly that problem', (...[, file, code, where, remedy]) => {
    const problems = problemsOf(file);
    expect(problems.map((problem) => [problem.code, problem.where])).toEqual([[code, where]]);
    expect(problems[0]?.remedy).toBe(remedy ?? problems[0]?.remedy);
    expect(problems[0]?.expected).not.toBe('');
  });

  it('a ring: is named as the way round', () => {
    expect(problemsOf(firstJob({ after: ['hoist'] }))[0]?.what).toContain('drop after hoist after stitch after drop');
  });

  it('a comma too many: line and column', () => {
    expect(problemsOf('{\n "slatch": 1,\n}')[0]).toMatchObject({
      code: 'passage.not-json',
      where: 'a.json, line 3, column 1',
    });
  });
});

describe('parsePassage, many mistakes', () => {
  it('one in each part: all of them at once', () => {
    const file = {
      ...sample(),
      extra: 1,
      start: { ...sample().start, lon: 1000 },
      track: [],
      watchkeeper: { paceRatio: -1 },
      jobs: [
        { id: 'a', from: 'nothing-like-it' },
        { id: 'b', from: 'aloft', after: ['c'], handlings: ['fly'] },
      ],
      locker: [{ item: 'needles', unit: 'pieces', onBoard: -1 }],
      settings: { seed: 1.5, gustRatio: 0 },
    };
    expect(
      problemsOf(file)
        .map((problem) => problem.where.replace('a.json, ', ''))
        .toSorted(),
    ).toEqual([
      'extra',
      'jobs[0].from',
      'jobs[1].after[0]',
      'jobs[1].handlings[0]',
      'locker[0].onBoard',
      'settings.gustRatio',
      'settings.seed',
      'start.lon',
      'track',
      'watchkeeper.paceRatio',
    ]);
  });

  it('any JSON at all: an answer, never an exception', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.constantFrom(...Object.keys(sample())), (value, key) => {
        expect(problemsOf(value).length).toBeGreaterThan(0);
        expect(Array.isArray(problemsOf({ ...sample(), [key]: value }))).toBe(true);
      }),
      { seed: 3, numRuns: longOrShort(300, 100) },
    );
  });
});
