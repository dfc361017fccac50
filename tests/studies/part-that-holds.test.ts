import { describe, expect, test } from 'vitest';
import { bestPartThatHolds } from '../../scripts/studies/part-that-holds.ts';
import { littleJob, littlePassage, littleStep } from '../planner/little-world.ts';

// Ten weathers that weigh the same; eight of them are enough. Bit w of a mask: the job holds in weather w.

const weights = Int32Array.from({ length: 10 }, () => 100_000);
const holdsBut = (...failing: readonly number[]): number =>
  [0, 1, 2, 3, 4, 5, 6, 7, 8, 9].filter((w) => !failing.includes(w)).reduce((bits, w) => bits + 2 ** w, 0);

interface Held {
  readonly id: string;
  readonly priorityWeight: number;
  readonly failsIn: readonly number[];
  readonly after?: readonly string[];
}

function partOf(held: readonly Held[]): string[] {
  const jobs = held.map(({ id, after = [] }) => littleJob(id, [littleStep(id, 40)], { after }));
  const passage = littlePassage(jobs, { wantedProbability: 0.8 });
  const outcomes = held.map(({ id, priorityWeight, failsIn }) => ({
    jobId: id,
    priorityWeight,
    mask: Uint32Array.of(holdsBut(...failsIn)),
    probability: 1 - failsIn.length / 10,
  }));
  return [...bestPartThatHolds(passage, { jobs: outcomes, weights })].toSorted();
}

describe('bestPartThatHolds', () => {
  test('all jobs hold together in eight of ten: all', () => {
    expect(
      partOf([
        { id: 'a', priorityWeight: 5, failsIn: [0, 1] },
        { id: 'b', priorityWeight: 5, failsIn: [0, 1] },
      ]),
    ).toEqual(['a', 'b']);
  });

  test('two that each hold in eight, together in six: the weightier', () => {
    expect(
      partOf([
        { id: 'a', priorityWeight: 5, failsIn: [0, 1] },
        { id: 'b', priorityWeight: 6, failsIn: [2, 3] },
      ]),
    ).toEqual(['b']);
  });

  test('of the same weight: the likelier', () => {
    expect(
      partOf([
        { id: 'a', priorityWeight: 5, failsIn: [0, 1] },
        { id: 'b', priorityWeight: 5, failsIn: [2] },
      ]),
    ).toEqual(['b']);
  });

  test('a job left out takes those that come after it along', () => {
    // `b` holds by itself but comes after `a`, which does not; together they weigh more than `c`.
    expect(
      partOf([
        { id: 'a', priorityWeight: 5, failsIn: [0, 1, 2] },
        { id: 'b', priorityWeight: 5, failsIn: [], after: ['a'] },
        { id: 'c', priorityWeight: 4, failsIn: [3] },
      ]),
    ).toEqual(['c']);
  });

  test('none holds: nothing', () => {
    expect(partOf([{ id: 'a', priorityWeight: 5, failsIn: [0, 1, 2] }])).toEqual([]);
  });
});
