import { damageJobs, type Job, type JobFile, makeJob, type SailDrop, sailDropOf } from '../../lib/jobs/index.ts';
import type { Passage, PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { assessDamage, type TearReport } from '../../lib/sail/index.ts';
import { gone, sailPlace } from './change-sails.ts';

/** What is asked of a tear's jobs. */
export interface TearJobs {
  readonly sail: number;
  readonly tear: number;
  readonly isBelow: boolean;
}

/** The jobs a tear asks for, as entries, and what they stand between. */
export interface TearEntries {
  /** The sewing first. */
  readonly entries: readonly JobFile[];
  readonly after: Job | null;
  /** Waits for them. */
  readonly hoist: Job | null;
}

/**
 * The jobs of a tear. Those of a mainsail share the drop that is still to come, or the one that is done while its hoist is
 * still to come; another sail is not lowered by it, so they go with any sail state.
 */
export function tearEntries(
  { jobs, orders, boat }: Passage,
  { stitch, findings }: TearReport,
  of: { readonly isMainsail: boolean; readonly isBelow: boolean },
): TearEntries {
  const isOpen = ({ id }: Job): boolean => orders.jobs.get(id)?.isDone !== true;
  const drop = of.isMainsail ? dropOf(jobs, isOpen, (among) => sailDropOf(among, boat.sailStates)) : null;
  const entries = damageJobs(stitch, {
    id: freeTearId(stitch.damageId, jobs),
    isBelow: of.isBelow,
    after: drop === null ? [] : [drop.drop.id],
    priority: priorityOf(findings, stitch.canWaitWithReefNumber !== null),
  });
  return {
    entries: of.isMainsail ? entries : entries.map((entry) => ({ ...entry, sailStates: [] })),
    after: drop?.drop ?? null,
    hoist: drop?.hoist ?? null,
  };
}

function dropOf(
  jobs: readonly Job[],
  isOpen: (job: Job) => boolean,
  find: (jobs: readonly Job[]) => SailDrop | null,
): SailDrop | null {
  const ahead = find(jobs.filter(isOpen));
  if (ahead !== null) return ahead;
  const any = find(jobs);
  return any?.hoist !== undefined && any.hoist !== null && isOpen(any.hoist) ? any : null;
}

/** By how fast it runs under load; less where a reef surely takes it out of use, so that it can wait. Our defaults. */
function priorityOf(findings: TearReport['findings'], canWait: boolean): number {
  const load = findings.find((finding) => finding.code === 'tear.load');
  const byLoad = { urgent: 9, soon: 7, slow: 5 }[load?.urgency ?? 'urgent'];
  return canWait ? Math.min(byLoad, 7) : byLoad;
}

/** An id that is free for the sewing, and with `-patch` for the patch. */
function freeTearId(damageId: string, jobs: readonly Pick<Job, 'id'>[]): string {
  const taken = new Set(jobs.map(({ id }) => id));
  const stem = `sew-${damageId}`.slice(0, 48);
  const isFree = (id: string): boolean => !taken.has(id) && !taken.has(`${id}-patch`);
  let id = stem;
  for (let count = 2; !isFree(id); count++) id = `${stem}-${count}`;
  return id;
}

/**
 * The passage with the jobs of a tear, its hoist after them.
 *
 * @returns the passage and the id of the sewing, or that the tear is gone
 */
export function withTearJobs(
  file: PassageFile,
  passage: Passage,
  asked: TearJobs,
): Result<{ readonly file: PassageFile; readonly jobId: string }> {
  const found = passage.sails[asked.sail];
  const report = found === undefined ? null : assessDamage(found, sailPlace(asked.sail));
  const tear = report?.ok === true ? report.value.tears[asked.tear] : undefined;
  if (found === undefined || tear === undefined) return failed(gone(asked.sail));
  const { entries, hoist } = tearEntries(passage, tear, {
    isMainsail: found.sail.kind === 'mainsail',
    isBelow: asked.isBelow,
  });
  const ids = entries.map(({ id }) => id);
  const jobs = (file.jobs ?? []).map((job) =>
    job.id === hoist?.id ? { ...job, after: [...new Set([...(job.after ?? []), ...ids])] } : job,
  );
  return ok({ file: { ...file, jobs: [...jobs, ...entries] }, jobId: ids[0] ?? '' });
}

/** The jobs as they would be; those that cannot be made are left out, saving them says why. */
export const jobsMade = (entries: readonly JobFile[]): readonly Job[] =>
  entries.flatMap((entry) => {
    const made = makeJob(entry, entry.id);
    return made.ok ? [made.value] : [];
  });
