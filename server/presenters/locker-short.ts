import { readinessOf, type ReadinessFinding } from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { itemKey, PIECES } from '../../lib/stock/index.ts';
import { type JobLink, jobPageHref } from './job-page.ts';
import { readinessViews } from './job-readiness.ts';
import { itemHref } from './locker-rows.ts';
import { timeTexts } from './time-texts.ts';

/** What one job lacks of the locker. */
export interface ShortJob {
  readonly job: JobLink;
  readonly lacks: readonly Lack[];
}

export interface Lack {
  readonly text: string;
  readonly remedies: readonly string[];
  /** Where it is put right; null: in no one line. */
  readonly fix: JobLink | null;
}

/** Jobs that lack something, or of which nobody has counted what they take, in the order of the jobs. */
export function shortJobs(passage: Passage): readonly ShortJob[] {
  const { jobs, locker, orders } = passage;
  const views = readinessViews(passage, timeTexts(passage.settings.shipTimeOffsetMin));
  return readinessOf({ jobs, locker, progress: orders.jobs }).flatMap(({ jobId, findings }) => {
    const said = views.get(jobId)?.findings ?? [];
    // The words stand in the order of the findings.
    const lacks = findings.flatMap((finding, index) => {
      const words = said[index];
      return words === undefined || !isOfLocker(finding) ? [] : [{ ...words, fix: fixOf(finding, passage) }];
    });
    const name = jobs.find(({ id }) => id === jobId)?.name ?? jobId;
    return lacks.length === 0 ? [] : [{ job: { href: jobPageHref(jobId), text: name }, lacks }];
  });
}

const isOfLocker = ({ code, effect }: ReadinessFinding): boolean =>
  effect === 'unknown' || code === 'material-short' || code === 'tool-missing';

/** The line of the item, or the form of a new one with what is known of it. */
function fixOf(finding: ReadinessFinding, { locker }: Passage): JobLink | null {
  const of =
    finding.code === 'material-short'
      ? { item: finding.item, unit: finding.unit, kind: '' }
      : finding.code === 'tool-missing'
        ? { item: finding.tool, unit: PIECES, kind: 'tool' }
        : null;
  if (of === null) return null;
  const index = locker.items.findIndex(({ item }) => itemKey(item) === itemKey(of.item));
  if (index >= 0) return { href: itemHref(index), text: `Change ${of.item}` };
  return { href: `/locker/items/new?${new URLSearchParams(of).toString()}`, text: `Add ${of.item} to the locker` };
}

/** What the locker comes to for the jobs, in a sentence. */
export function shortSummary({ jobs, locker }: Passage, short: readonly ShortJob[]): string {
  if (locker.items.length === 0)
    return 'Nothing is counted yet, so no job that takes anything is known to be ready. Add what is on board, or read it from a table.';
  if (jobs.length === 0) return 'There are no jobs to take anything.';
  if (short.length === 0) return 'All that the jobs take is on board, reserves kept.';
  return `${short.length === 1 ? 'One job lacks' : `${short.length} jobs lack`} something.`;
}
