import { describe, expect, it } from 'vitest';
import {
  differencesFrom,
  JOB_LIBRARY,
  libraryEntry,
  libraryJob,
  makeJob,
  provenanceOf,
  type Job,
  type JobFile,
} from '../../lib/jobs/index.ts';

function made(file: JobFile): Job {
  const result = makeJob(file, 'jobs[0]');
  if (!result.ok) throw new Error(result.problems[0].what);
  return result.value;
}

const differences = (file: JobFile) => {
  const library = libraryJob(file.from ?? '');
  if (library === null) throw new Error('a library job');
  return differencesFrom(library, made(file));
};

describe('differences from the library', () => {
  it.each(JOB_LIBRARY.map(({ id }) => id))('%s, taken as it is: none; nor when copied with all its figures', (id) => {
    expect(differences({ id: 'mine', from: id, priority: 3 })).toEqual([]);
    const entry = libraryEntry(id);
    if (entry === null) throw new Error('an entry');
    expect(differences({ ...entry, id: 'mine', from: id })).toEqual([]);
  });

  it('own minutes, an own limit, another name: each with both figures', () => {
    const file: JobFile = {
      id: 'mine',
      from: 'fuel-filter',
      name: 'Filter of the port tank',
      minutes: { change: { leastMin: 8, likelyMin: 25, mostMin: 38 } },
      limits: { rain: 'none' },
    };
    const library = libraryJob('fuel-filter');
    const wanted = [
      { stepId: null, key: 'name', library: library?.name, own: 'Filter of the port tank' },
      { stepId: 'change', key: 'work.likelyMin', library: '18', own: '25' },
      { stepId: 'change', key: 'limits.rain', library: 'any', own: 'none' },
      { stepId: 'bleed', key: 'limits.rain', library: 'any', own: 'none' },
    ];
    expect(differences(file)).toHaveLength(wanted.length);
    expect(differences(file)).toEqual(expect.arrayContaining(wanted));
  });

  it('a limit taken away, a step left out, one added, another order: all named', () => {
    const work = { leastMin: 1, likelyMin: 2, mostMin: 3 };
    const file: JobFile = {
      id: 'mine',
      from: 'hoist-main',
      steps: [
        { id: 'hoist' },
        { id: 'prepare', limits: { deckGustNoGoKn: null } },
        { id: 'look', name: 'Look', place: 'deck', work, limits: {} },
      ],
    };
    const found = differences(file).map(({ stepId, key, own }) => [stepId, key, own]);
    expect(found).toContainEqual(['prepare', 'limits.deckGustNoGoKn', null]);
    expect(found).toContainEqual(['trim', 'step', null]);
    expect(found).toContainEqual(['look', 'step', 'Look']);
    expect(found).toContainEqual([null, 'order of steps', 'hoist, prepare']);
  });

  it('whose figures: the user’s where the file gives them, the library’s elsewhere, and what the file says of itself', () => {
    const job = made({
      id: 'mine',
      from: 'fuel-filter',
      minutes: { change: { leastMin: 8, likelyMin: 25, mostMin: 38 } },
      limits: { rain: 'none' },
      provenance: { 'bleed.work': 'measured twice at anchor' },
    });
    expect([provenanceOf(job, 'change', 'work'), provenanceOf(job, 'bleed', 'rain')]).toEqual([
      'own figure',
      'own figure',
    ]);
    expect(provenanceOf(job, 'bleed', 'work')).toBe('measured twice at anchor');
    expect(provenanceOf(job, 'bleed', 'deckWindKn')).toBe('common practice, no source');
  });
});

describe('a step with a rate', () => {
  const file: JobFile = {
    id: 'mine',
    name: 'Grease twelve cars',
    steps: [
      {
        id: 'grease',
        name: 'Grease',
        place: 'deck',
        limits: {},
        rate: { amount: 12, unit: 'cars', slowestPerH: 6, likelyPerH: 12, fastestPerH: 24, setUpMin: 5 },
      },
    ],
  };

  it('its minutes: set-up, and the amount over the rate; the least at the fastest', () => {
    expect(made(file).steps[0]?.work).toEqual({ leastMin: 35, likelyMin: 65, mostMin: 125 });
  });

  it('another amount: other minutes; own minutes: no rate', () => {
    const [more] = made({ ...file, amounts: { grease: 24 } }).steps;
    expect([more?.work.likelyMin, more?.rate?.amount]).toEqual([125, 24]);
  });

  it.each([
    [
      'both minutes and a rate',
      'jobs.work-twice',
      { steps: [{ ...file.steps?.[0], id: 'grease', work: { leastMin: 1, likelyMin: 2, mostMin: 3 } }] },
    ],
    ['an amount for a step that is none', 'jobs.step-unknown', { amounts: { oil: 2 } }],
  ] as const)('%s: refused', (_, code, change) => {
    expect(makeJob({ ...file, ...change } as JobFile, 'jobs[0]')).toMatchObject({ ok: false, problems: [{ code }] });
  });

  it('an amount for a step without a rate: refused, with the way to say it', () => {
    expect(makeJob({ id: 'a', from: 'fuel-filter', amounts: { change: 2 } }, 'jobs[0]')).toMatchObject({
      ok: false,
      problems: [{ code: 'jobs.no-rate', where: 'jobs[0].amounts.change' }],
    });
  });
});
