import { describe, expect, test } from 'vitest';
import { addPassage, type Claim, type Statements } from '../../scripts/studies/calibration-study.ts';
import { calibrationOf, type Statement } from '../../scripts/studies/statistics.ts';
import { CHEAP_SOLVE } from '../../scripts/studies/planner.ts';
import { longOrShort } from '../long-run.ts';
import { littleKind } from './little-study.ts';

// A small part of `npm run study-calibration`, with room for the noise of few passages: ten points instead of two.

const PASSAGE_COUNT = longOrShort(60, 12);
const settings = {
  memberCount: 15,
  reportingCount: 90,
  truthCount: 32,
  othersEveryCount: 3,
  solve: CHEAP_SOLVE,
  kind: (seed: number) => littleKind([0.4, 0.6, 0.8][seed % 3] ?? 0.8),
};
const statements: Statements = new Map();
for (let seed = 1; seed <= PASSAGE_COUNT; seed++) addPassage(seed, settings, statements);

/** By how much observed differs from stated, over all executions of a claim stated with such a probability. */
function offBy(claim: Claim, isMeant: (stated: number) => boolean = () => true): number {
  const own = (statements.get(claim) ?? []).filter(({ stated }) => isMeant(stated));
  const trialCount = total(own, (one) => one.trialCount);
  if (trialCount < 200) throw new Error(`hardly anything is stated: ${claim}`);
  return total(own, (one) => one.trueCount - one.stated * one.trialCount) / trialCount;
}

const total = (statementsOf: readonly Statement[], of: (statement: Statement) => number): number =>
  statementsOf.reduce((sum, one) => sum + of(one), 0);

describe('24 passages, stated and happened', () => {
  test('more than a thousand executions of jobs', () => {
    expect(calibrationOf(statements.get('job, truth as stated') ?? []).trialCount).toBeGreaterThan(1000);
  });

  test.each([
    ['likely jobs, stated 0.95 and more', (stated: number) => stated >= 0.95],
    ['less likely ones', (stated: number) => stated < 0.95],
  ] as const)('%s: ten points at most', (_which, isMeant) => {
    expect(Math.abs(offBy('job, truth as stated', isMeant))).toBeLessThan(0.1);
  });

  test.each<Claim>(['job, truth as stated', 'all jobs, truth as stated', 'job with durations drawn, truth as stated'])(
    '%s: on average within five points',
    (claim) => {
      expect(Math.abs(offBy(claim))).toBeLessThan(0.05);
    },
  );

  test('truths from a wrong model are found out: 2 kn more wind costs ten points', () => {
    expect(offBy('job, truth with 2 kn more wind')).toBeLessThan(-0.1);
  });
});
