import type { JobFile } from '../../lib/jobs/index.ts';
import type { PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { shipTimeOf, utcOfShipTime } from '../presenters/ship-time.ts';
import { ORDER_INSTANTS } from './order-fields.ts';

type Texts = ReadonlyMap<string, string>;
type OrderKey = (typeof ORDER_INSTANTS)[number] | 'lockHandling';

/** What the form of a job's hours shows, by the name of the input. */
export const orderTexts = (entry: JobFile, shipTimeOffsetMin: number): Texts =>
  new Map([
    ...ORDER_INSTANTS.map((key): [string, string] => [key, shownInstant(entry[key], shipTimeOffsetMin)]),
    ['lockHandling', entry.lockHandling ?? ''],
  ]);

/** The texts of a lock: its start [UTC] on the ship's clock, its handling unless that is empty and stays as it is. */
export function lockTexts(lock: { startUtc: string; handlingId: string }, shipTimeOffsetMin: number): Texts {
  const start: [string, string] = ['startUtc', shownInstant(lock.startUtc, shipTimeOffsetMin)];
  return new Map([start, ...(lock.handlingId === '' ? [] : [['lockHandling', lock.handlingId] as const])]);
}

/** The passage with what is fixed about a job as the texts say; names that are not among them stay as they are. */
export function withOrders(file: PassageFile, jobId: string, texts: Texts): Result<PassageFile> {
  const offsetMin = file.settings?.shipTimeOffsetMin ?? 0;
  return withEntry(file, jobId, (entry) => {
    const shown = orderTexts(entry, offsetMin);
    let changed = entry;
    for (const [name, before] of shown) {
      const text = texts.get(name)?.trim() ?? before;
      if (text === before) continue;
      const key = orderKey(name);
      changed = withOrder(changed, key, key === 'lockHandling' ? text : utcOfShipTime(text, offsetMin));
    }
    return changed;
  });
}

/** The passage with the lock of a job taken off: neither its start nor its handling is fixed. */
export const withoutLock = (file: PassageFile, jobId: string): Result<PassageFile> =>
  withEntry(file, jobId, (entry) => withOrder(withOrder(entry, 'startUtc', ''), 'lockHandling', ''));

const shownInstant = (utc: string | undefined, offsetMin: number): string =>
  utc === undefined ? '' : shipTimeOf(utc, offsetMin);

const orderKey = (name: string): OrderKey => ORDER_INSTANTS.find((key) => key === name) ?? 'lockHandling';

function withOrder(entry: JobFile, key: OrderKey, text: string): JobFile {
  if (text !== '') return { ...entry, [key]: text };
  const { [key]: _, ...rest } = entry;
  return rest;
}

function withEntry(file: PassageFile, jobId: string, change: (entry: JobFile) => JobFile): Result<PassageFile> {
  const jobs = file.jobs ?? [];
  if (!jobs.some(({ id }) => id === jobId)) return failed(goneJob(jobId));
  return ok({ ...file, jobs: jobs.map((entry) => (entry.id === jobId ? change(entry) : entry)) });
}

const goneJob = (jobId: string): Problem => ({
  code: 'passage.entry-gone',
  where: 'jobs',
  what: `The job “${jobId}” is not in the passage any more.`,
  expected: 'a job that is there',
  remedy: 'Look at the list of jobs.',
});
