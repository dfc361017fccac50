import { describe, expect, test } from 'vitest';
import { type JointRow, jointRow, summaryLines, summaryOf, type Way } from '../../scripts/studies/joint-study.ts';
import { CHEAP_SOLVE } from '../../scripts/studies/planner.ts';
import { longOrShort } from '../long-run.ts';
import { littleKind } from './little-study.ts';

// A small part of `npm run study-joint`: the planner must not be worth less than a list of windows, on draws none of the
// plans was made on. The full study is in DEVELOPERS.md.

const PASSAGE_COUNT = longOrShort(30, 5);
const settings = { memberCount: 15, reportingCount: 150, solve: CHEAP_SOLVE, kind: littleKind(0.8) };
const rows: readonly JointRow[] = Array.from({ length: PASSAGE_COUNT }, (_, k) => jointRow(301 + k, settings));
const summary = summaryOf(rows, 1);
const measure = (name: string) => {
  const found = summary.measures.find((one) => one.measure === name);
  if (found === undefined) throw new Error(name);
  return found;
};
/** By how much the planner is better than another way. */
const compared = (name: string, way: Way) => measure(name).others.find((other) => other.way === way)?.jointLess;
const jointLess = (name: string, way: Way): number => compared(name, way)?.mean ?? Number.NaN;

describe(`${PASSAGE_COUNT} passages planned three ways`, () => {
  test('there is something to plan: half of the jobs and more', () => {
    const jobCount = rows.reduce((sum, row) => sum + row.jobCount, 0);
    expect(measure('jobsPlannedCount').jointMean * rows.length).toBeGreaterThan(jobCount / 2);
  });

  test.each<Way>(['first fair', 'best window'])('planned jointly, more is promised and kept than by %s', (way) => {
    expect(jointLess('keptPriorityWeight', way)).toBeGreaterThan(0);
  });

  test.each<Way>(['first fair, what holds', 'best window, what holds'])(
    'planned jointly, more jobs are done on average than by %s',
    (way) => {
      expect(jointLess('expectedJobsCount', way)).toBeGreaterThan(0);
    },
  );

  test.each<Way>(['first fair, what holds', 'best window, what holds'])(
    'hardly ever does the planner promise and keep less than %s',
    (way) => {
      expect(compared('keptPriorityWeight', way)?.worseCount).toBeLessThanOrEqual(1);
    },
  );

  test('the same seed: the same study', () => {
    expect(jointRow(301, settings)).toEqual(rows[0]);
  });

  test('the summary says all six measures in words', () => {
    expect(summaryLines(summary)).toHaveLength(1 + 6 * 6);
    expect(summaryLines(summary).join('\n')).toMatch(/jobs done, expected\n {2}joint +\d/);
  });
});
