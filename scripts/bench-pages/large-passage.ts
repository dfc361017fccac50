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

/**
 * Writes the passage with its forecasts into a folder.
 *
 * @param demoPath the demo's passage file, of which boat, track and twelve jobs are taken
 * @returns path of the passage file
 */
export function writeLargePassage(demoPath: string, folder: string): string {
  const demo: unknown = JSON.parse(readFileSync(demoPath, 'utf8'));
  if (!hasJobs(demo)) throw new Error(`${demoPath} has no jobs`);
  const files = manyMembers(MEMBER_COUNT);
  for (const { name, octets } of files) writeFileSync(join(folder, name), octets);
  const passage = {
    ...demo,
    name: 'Thirty jobs',
    jobs: [...demo.jobs, ...MORE_JOBS.map((from, i) => ({ id: `more-${from}`, from, priority: 1 + (i % 5) }))],
    forecasts: files.map(({ name }) => name),
  };
  const path = join(folder, 'thirty-jobs.json');
  writeFileSync(path, `${JSON.stringify(passage, null, 2)}\n`);
  return path;
}

const hasJobs = (value: unknown): value is { readonly jobs: readonly unknown[] } =>
  typeof value === 'object' && value !== null && 'jobs' in value && Array.isArray(value.jobs);
