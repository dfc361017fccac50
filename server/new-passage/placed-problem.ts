import type { Problem } from '../../lib/result/index.ts';

/** A problem with the input it belongs to; null: none of them. */
export interface PlacedProblem {
  readonly input: string | null;
  readonly problem: Problem;
}

/** Where the values of the passage file come from, the longer paths first. */
const INPUTS: readonly (readonly [path: string, input: string])[] = [
  ['name', 'name'],
  ['track', 'track'],
  ['start.sailState', 'sailState'],
  ['start.timeUtc', 'departure'],
  ['start', 'track'],
  ['boat.name', 'boatName'],
  ['boat.instrumentHeightM', 'instrumentHeightM'],
  ['boat', 'speeds'],
  ['watchkeeper.sleeps', 'night1H'],
  ['watchkeeper.usualSleepLocal', 'usualSleepLocal'],
  ['watchkeeper.wantedSleepHPer24H', 'wantedSleepH'],
  ['jobs', 'jobs'],
  ['forecasts', 'forecast'],
];

/** The input a value of the passage file comes from, by its path; null: none. */
export function inputOf(where: string): string | null {
  const path = where.slice(where.indexOf(', ') + 2);
  const found = INPUTS.find(
    ([start]) => path === start || (path.startsWith(start) && /^[.[,]/.test(path.slice(start.length))),
  );
  return found?.[1] ?? null;
}

/** Problems of the passage as a whole, at the inputs they come from. */
export const placedIn = (problems: readonly Problem[]): readonly PlacedProblem[] =>
  problems.map((problem) => ({ input: inputOf(problem.where), problem }));
