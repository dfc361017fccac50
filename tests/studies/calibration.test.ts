import { describe, expect, test } from 'vitest';
import { addPassage, type Claim, type Statements } from '../../scripts/studies/calibration-study.ts';
import { calibrationOf, type Statement } from '../../scripts/studies/statistics.ts';
import { CHEAP_SOLVE } from '../../scripts/studies/planner.ts';
import { littleKind } from './little-study.ts';

// A small part of `npm run study-calibration`, with room for the noise of few passages: ten points instead of two.

const settings = {
  memberCount: 15,
  reportingCount: 90,
  truthCount: 16,
  othersEveryCount: 4,
  solve: CHEAP_SOLVE,
  kind: (seed: number) => littleKind([0.4, 0.6, 0.8][seed % 3] ?? 0.8),
};
const statements: Statements = new Map();
for (let seed = 1; seed <= 30; seed++) addPassage(seed, settings, statements);

/** Observed less stated over all statements of a claim. */
function offBy(claim: Claim): number {
  const own: readonly Statement[] = statements.get(claim) ?? [];
  const trials = own.reduce((sum, one) => sum + one.trialCount, 0);
  if (trials === 0) throw new Error(`nothing is stated: ${claim}`);
  return own.reduce((sum, one) => sum + one.trueCount - one.stated * one.trialCount, 0) / trials;
}

describe('30 passages, stated and happened', () => {
  test('jobs: ten points at most in every bin with 100 executions', () => {
    const { bins, trialCount } = calibrationOf(statements.get('job, truth as stated') ?? []);
    const judged = bins.filter((bin) => bin.trialCount >= 100);
    expect(trialCount).toBeGreaterThan(700);
    expect(judged.length).toBeGreaterThan(1);
    for (const bin of judged) expect(Math.abs(bin.difference)).toBeLessThan(0.1);
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
