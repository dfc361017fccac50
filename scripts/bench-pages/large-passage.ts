/** A passage with more of everything than a lone sailor should have: 30 jobs in the weather of 51 runs. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { manyMembers } from './many-members.ts';

/** With the control: 51 runs. */
const MEMBER_COUNT = 50;

/** Jobs of the library beside those of the demo, to 30. */
const MORE_JOBS = [
  'preventer',
  'stow-trim',
  'pole',
  'jib-furl',
  'sheet-swap',
  'liferaft-lash',
  'deck-walk',
  'splice',
  'track-clean',
  'rudder-bearing',
  'quadrant',
  'pilot-ram',
  'bilge-pump',
  'hull-leak',
  'oil-change',
  'engine-check',
  'watermaker',
  'comms-mend',
] as const;

/** Every job there is: twelve of the demo, eighteen of the library. Those of any first few need none that comes after. */
const MOST_JOBS = 12 + MORE_JOBS.length;

/**
 * The demo's passage with so many jobs, 30 at most.
 *
 * @param demoText the demo's passage file, of which boat, track and twelve jobs are taken
 */
export function passageOfJobs(demoText: string, jobCount: number): object {
  const demo: unknown = JSON.parse(demoText);
  if (!hasJobs(demo)) throw new Error('the demo has no jobs');
  const more = MORE_JOBS.map((from, i) => ({ id: `more-${from}`, from, priority: 1 + (i % 5) }));
  return { ...demo, jobs: [...demo.jobs, ...more].slice(0, jobCount) };
}

/**
 * Writes the passage with its forecasts into a folder.
 *
 * @param demoPath the demo's passage file, of which boat, track and twelve jobs are taken
 * @returns path of the passage file
 */
export function writeLargePassage(demoPath: string, folder: string): string {
  const files = manyMembers(MEMBER_COUNT);
  for (const { name, octets } of files) writeFileSync(join(folder, name), octets);
  const passage = {
    ...passageOfJobs(readFileSync(demoPath, 'utf8'), MOST_JOBS),
    name: 'Thirty jobs',
    forecasts: files.map(({ name }) => name),
  };
  const path = join(folder, 'thirty-jobs.json');
  writeFileSync(path, `${JSON.stringify(passage, null, 2)}\n`);
  return path;
}

const hasJobs = (value: unknown): value is { readonly jobs: readonly unknown[] } =>
  typeof value === 'object' && value !== null && 'jobs' in value && Array.isArray(value.jobs);
