import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  blocksOf,
  DEFAULT_SESSION,
  JOB_DEFAULTS,
  NO_LIMITS,
  STEP_DEFAULTS,
  WAIT_DEFAULTS,
  type Job,
  type Step,
} from '../../lib/jobs/index.ts';

const step = (id: string, more: Partial<Step> = {}): Step => ({
  ...STEP_DEFAULTS,
  id,
  name: id,
  place: 'deck',
  work: { leastMin: 5, likelyMin: 10, mostMin: 20 },
  limits: NO_LIMITS,
  ...more,
});

const jobOf = (...steps: readonly Step[]): Job => ({
  ...JOB_DEFAULTS,
  id: 'job',
  name: 'Job',
  handlings: ['run-off'],
  steps,
  provenance: { '*': 'test' },
});

const idsOf = (job: Job): readonly (readonly string[])[] =>
  blocksOf(job).map((block) => block.steps.map(({ id }) => id));

describe('blocksOf', () => {
  it('no safe point on the way: one block', () => {
    expect(idsOf(jobOf(step('a'), step('b'), step('c')))).toEqual([['a', 'b', 'c']]);
  });

  it('a safe point after the second step: ends a block there', () => {
    expect(idsOf(jobOf(step('a'), step('b', { safePointAfter: true }), step('c')))).toEqual([['a', 'b'], ['c']]);
  });

  it('a soak after a step: ends a block and is its wait', () => {
    const job = jobOf(
      step('oil', { waitAfter: { ...WAIT_DEFAULTS, kind: 'soak', leastH: 6, likelyH: 14, mostH: 48 } }),
      step('turn'),
    );
    expect(blocksOf(job).map(({ index, waitAfter }) => [index, waitAfter?.likelyH])).toEqual([
      [0, 14],
      [1, undefined],
    ]);
  });

  it('a cure after the last step: waits after the only block', () => {
    const job = jobOf(
      step('bond', { waitAfter: { ...WAIT_DEFAULTS, kind: 'cure', leastH: 6, likelyH: 16, mostH: 36 } }),
    );
    expect(blocksOf(job).map(({ waitAfter }) => waitAfter?.likelyH)).toEqual([16]);
  });

  it('one step that cannot be stopped anywhere: the block cannot be divided', () => {
    const anywhere = step('a', { stop: 'anywhere' });
    expect(blocksOf(jobOf(anywhere, step('b', { stop: 'anywhere' }))).map(({ session }) => session !== null)).toEqual([
      true,
    ]);
    expect(blocksOf(jobOf(anywhere, step('b', { stop: 'never' }))).map(({ session }) => session !== null)).toEqual([
      false,
    ]);
  });

  it('steps with different sessions: the shortest session and the longest rest', () => {
    const short = { ...DEFAULT_SESSION, longestMin: 45 };
    const tiring = { ...DEFAULT_SESSION, restMin: 40 };
    const [block] = blocksOf(
      jobOf(step('a', { stop: 'anywhere', session: short }), step('b', { stop: 'anywhere', session: tiring })),
    );
    expect(block?.session).toEqual({ ...DEFAULT_SESSION, longestMin: 45, restMin: 40 });
  });

  it('no session said: the default one', () => {
    expect(blocksOf(jobOf(step('a', { stop: 'anywhere' })))[0]?.session).toEqual({
      longestMin: 90,
      restMin: 20,
      leastUsefulMin: 30,
      resumeMin: 5,
      makeSafeMin: 10,
    });
  });

  it('sails changed by a step: by the end of its block', () => {
    const lower = step('lower', { sailStateAfter: 'headsail-only', safePointAfter: true });
    expect(blocksOf(jobOf(step('a'), lower, step('lash'))).map(({ sailStateAfter }) => sailStateAfter)).toEqual([
      'headsail-only',
      null,
    ]);
  });

  it('any job: every step in exactly one block, in order', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 1, maxLength: 12 }), (safePoints) => {
        const steps = safePoints.map((safePointAfter, index) => step(`s${index}`, { safePointAfter }));
        expect(idsOf(jobOf(...steps)).flat()).toEqual(steps.map(({ id }) => id));
      }),
      { seed: 5, numRuns: 100 },
    );
  });
});
