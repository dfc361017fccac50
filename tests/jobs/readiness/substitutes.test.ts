import { describe, expect, it } from 'vitest';
import {
  COMMON_PRACTICE,
  JOB_LIBRARY,
  makeJob,
  readinessWords,
  SUBSTITUTES,
  type Job,
} from '../../../lib/jobs/index.ts';
import { line, readiness, tool } from './little-jobs.ts';

// What replaces what: common practice, no source. Twine of a row: facts of the seam, 6 times its length, doubled, 15 % for
// ends (common practice, no source): 1 m of one row takes 1 · 6 · 2 · 1.15 = 13.8 m.

function sewn(rows: number): Job {
  const made = makeJob({ id: 'stitch', from: 'stitch-tear', lengthM: 1, rows }, 'stitch');
  if (!made.ok) throw new Error(made.problems[0].what);
  return { ...made.value, needsTools: [] };
}
const locker = (twineM: number) => [
  line('waxed twine', twineM, { unit: 'm' }),
  ...sewn(2)
    .steps.flatMap(({ materials }) => materials)
    .filter(({ item }) => item !== 'waxed twine')
    .map(({ item, unit }) => line(item, 100, { unit })),
];
const shortOf = (job: Job, twineM: number) => {
  const [finding] = readiness([job], locker(twineM)).get('stitch')?.findings ?? [];
  if (finding?.code !== 'material-short') throw new Error('not short');
  return finding;
};

describe('substitutes', () => {
  it('two rows, twine for one: a row less saves 13.8 m, which is enough', () => {
    const finding = shortOf(sewn(2), 20);
    const offer = finding.offers.find(({ id }) => id === 'fewer-rows');
    expect(offer?.saves?.amount).toBeCloseTo(13.8, 9);
    expect(offer?.isEnough).toBe(true);
    expect(readinessWords(finding).remedies.join('\n')).toContain('Saves 13.8 m, which is enough.');
  });

  it('three rows, twine for less than two: a row less is not enough alone', () => {
    expect(shortOf(sewn(3), 20).offers.find(({ id }) => id === 'fewer-rows')).toMatchObject({ isEnough: false });
  });

  it('one row: none less to sew; a deeper reef and tape are offered instead, twine of the core of a rope too', () => {
    const ids = shortOf(sewn(1), 2).offers.map(({ id }) => id);
    expect(ids).toEqual(['deeper-reef', 'tape-for-twine', 'yarns-for-twine']);
  });

  it('no main halyard: the spinnaker halyard or the topping lift', () => {
    const freshen = makeJob({ id: 'freshen', from: 'halyard-freshen' }, 'freshen');
    if (!freshen.ok) throw new Error(freshen.problems[0].what);
    const found = readiness(
      [{ ...freshen.value, needsTools: [] }],
      [line('main halyard', 40, { unit: 'm', keepAmount: 40 })],
    );
    const halyard = found
      .get('freshen')
      ?.findings.find((of) => of.code === 'material-short' && of.item === 'main halyard');
    if (halyard?.code !== 'material-short') throw new Error('not short');
    expect(halyard.offers.map(({ instead }) => instead)).toEqual([
      'Use the spinnaker halyard or the topping lift as main halyard.',
    ]);
  });

  it('no drill for a sail repair: an awl; for an engine job there is no such offer', () => {
    const job: Job = { ...sewn(1), needsTools: ['drill'] };
    const missing = (of: Job) =>
      readiness([of], [...locker(100), tool('pliers')])
        .get('stitch')
        ?.findings.find(({ code }) => code === 'tool-missing');
    expect(missing(job)).toMatchObject({ offers: [{ id: 'awl-for-drill' }] });
    expect(missing({ ...job, group: 'engine' })).toMatchObject({ offers: [] });
  });

  it('table: ids differ, every one has its reason and whose word it is', () => {
    expect(new Set(SUBSTITUTES.map(({ id }) => id)).size).toBe(SUBSTITUTES.length);
    for (const { because, instead, provenance } of SUBSTITUTES) {
      expect(because.length, instead).toBeGreaterThan(20);
      expect(provenance).toBe(COMMON_PRACTICE);
    }
  });

  it('table: materials and tools of the library, and jobs of the library', () => {
    const known = new Set(
      JOB_LIBRARY.flatMap(({ steps, needsTools, makes }) => [
        ...steps.flatMap(({ materials }) => materials.map(({ item }) => item)),
        ...makes.map(({ item }) => item),
        ...needsTools,
      ]),
    );
    for (const { id, insteadOf, jobs } of SUBSTITUTES) {
      expect(
        insteadOf.some((item) => known.has(item)),
        id,
      ).toBe(true);
      for (const job of jobs) expect(JOB_LIBRARY.map((of) => of.id)).toContain(job);
    }
  });
});
