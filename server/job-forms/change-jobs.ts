import {
  chainJobs,
  chainOf,
  freeId,
  type Job,
  type JobFile,
  jobFile,
  libraryJob,
  libraryJobIds,
  type Proposal,
  unknownName,
} from '../../lib/jobs/index.ts';
import type { PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { parseJsonText, readShape } from '../../lib/shape/index.ts';

/** An id no job of the passage has, made of words. */
export function freeJobId(words: string, file: PassageFile): string {
  const taken = (file.jobs ?? []).map(({ id }) => id);
  const stem =
    words
      .normalize('NFKD')
      .toLowerCase()
      .replaceAll(/[^a-z0-9]+/g, '-')
      .replaceAll(/^-+|-+$/g, '')
      .slice(0, 40)
      .replace(/-+$/, '') || 'job';
  return freeId(stem, taken);
}

/**
 * An entry read by its shape; what else is wrong with it is found when the passage is checked.
 *
 * @param where the passage, as its problems name it
 * @param index place in its list of jobs
 */
export const readEntry = (raw: unknown, where: string, index: number): Result<JobFile> =>
  // As it was written: what the schema gives back has its keys in the order of the schema.
  isEntry(raw) ? ok(raw) : readShape(jobFile, raw, { where, path: ['jobs', index] });

const isEntry = (raw: unknown): raw is JobFile => jobFile.safeParse(raw).success;

/** Longest entry read [characters]. */
const MOST_CHARACTERS = 250_000;

/** An entry typed as JSON. */
export function readEntryText(text: string, where: string, index: number): Result<JobFile> {
  const json = parseJsonText(text, {
    where: `${where}, jobs[${index}]`,
    codeWord: 'jobs',
    kind: 'text',
    most: { characterCount: MOST_CHARACTERS, remedy: 'Leave out what no step needs.' },
  });
  return json.ok ? readEntry(json.value, where, index) : json;
}

/** The file with an entry in the place of another; a new id is followed by what refers to it. */
export function withEntry(file: PassageFile, jobId: string, entry: JobFile): PassageFile {
  const jobs = (file.jobs ?? []).map((one) => (one.id === jobId ? entry : renamedAfter(one, jobId, entry.id)));
  return entry.id === jobId ? { ...file, jobs } : { ...file, jobs, ...renamedForbidden(file, jobId, entry.id) };
}

const renamedAfter = (entry: JobFile, from: string, to: string): JobFile =>
  from === to || entry.after?.includes(from) !== true
    ? entry
    : { ...entry, after: entry.after.map((id) => (id === from ? to : id)) };

const renamedForbidden = ({ forbidden }: PassageFile, from: string, to: string): Pick<PassageFile, 'forbidden'> =>
  forbidden === undefined
    ? {}
    : { forbidden: forbidden.map((span) => (span.job === from ? { ...span, job: to } : span)) };

export const withAdded = (file: PassageFile, entries: readonly JobFile[]): PassageFile => ({
  ...file,
  jobs: [...(file.jobs ?? []), ...entries],
});

/** The entry of a library job, as it is; problem: there is none of this id. */
export function libraryAsEntry(libraryId: string, file: PassageFile): Result<JobFile> {
  if (libraryJob(libraryId) === null) return failed(noSuch('library job', libraryId));
  return ok({ id: freeJobId(libraryId, file), from: libraryId });
}

/** The entries of a chain, under a prefix that keeps their ids free. */
export function chainAsEntries(
  chainId: string,
  links: readonly string[],
  file: PassageFile,
): Result<readonly JobFile[]> {
  const chain = chainOf(chainId);
  if (!chain.ok) return chain;
  const optional = chain.value.links.filter(({ isCore }) => !isCore).map(({ id }) => id);
  const only = links.filter((id) => optional.includes(id));
  const taken = (file.jobs ?? []).map(({ id }) => id);
  for (let count = 1; ; count++) {
    const entries = chainJobs(chain.value, { only, prefix: count === 1 ? '' : `${count}-` });
    if (!entries.ok || !entries.value.some(({ id }) => taken.includes(id))) return entries;
  }
}

/** A proposal carried out: its entry added, and its orders given. */
export function withProposal(file: PassageFile, { add, orders }: Proposal): PassageFile {
  const jobs = [...(file.jobs ?? []), ...(add === null ? [] : [add])];
  return {
    ...file,
    jobs: jobs.map((entry) => {
      const own = orders.filter(({ jobId }) => jobId === entry.id).map(({ after }) => after);
      return own.length === 0 ? entry : { ...entry, after: [...new Set([...(entry.after ?? []), ...own])] };
    }),
  };
}

/** What a proposal is about, so that a button pressed late does not carry out another one. */
export const proposalKey = ({ kind, add, orders }: Proposal): string =>
  [kind, add?.id ?? '', ...orders.map(({ jobId, after }) => `${jobId}>${after}`)].join(' ');

/** A copy of a job, not begun and not locked to a start. */
export function copyOf(entry: JobFile, job: Job, file: PassageFile): JobFile {
  const { done: _, doneSteps: _1, doneMin: _2, startUtc: _3, ...rest } = entry;
  return { ...rest, id: freeJobId(entry.id, file), name: `${job.name} (copy)`.slice(0, 400) };
}

/** Ids of the jobs that come after one. */
const jobsAfter = (file: PassageFile, jobId: string): readonly string[] =>
  (file.jobs ?? []).filter(({ after }) => after?.includes(jobId) === true).map(({ id }) => id);

/**
 * The file without a job.
 *
 * @param isTakenOut jobs after it come after what it came after; else they stand against its removal
 */
export function withoutJob(
  file: PassageFile,
  job: Pick<Job, 'id' | 'name' | 'after'>,
  isTakenOut: boolean,
): Result<PassageFile> {
  const later = jobsAfter(file, job.id);
  if (later.length > 0 && !isTakenOut) return failed(othersAfter(job, later));
  const jobs = (file.jobs ?? [])
    .filter(({ id }) => id !== job.id)
    .map((entry) =>
      entry.after?.includes(job.id) === true
        ? { ...entry, after: [...new Set(entry.after.flatMap((id) => (id === job.id ? job.after : [id])))] }
        : entry,
    );
  const forbidden = file.forbidden?.filter((span) => span.job !== job.id);
  return ok({ ...file, jobs, ...(forbidden === undefined ? {} : { forbidden }) });
}

export const OTHERS_AFTER = 'jobs.others-after';

const othersAfter = ({ id, name }: Pick<Job, 'id' | 'name'>, later: readonly string[]): Problem => ({
  code: OTHERS_AFTER,
  where: `job ${id}`,
  what: `“${name}” cannot be taken out as it is: ${later.length === 1 ? 'a job comes' : `${later.length} jobs come`} after it (${later.join(', ')}).`,
  expected: 'a job that no other comes after',
  remedy: 'Take it out of their order too, or leave it.',
});

/** The place of a job in the list changed by one; unchanged where it is the first or the last already. */
export function withMovedJob(file: PassageFile, jobId: string, by: -1 | 1): PassageFile {
  const jobs = file.jobs ?? [];
  const at = jobs.findIndex(({ id }) => id === jobId);
  const entry = jobs[at];
  const to = at + by;
  if (entry === undefined || to < 0 || to >= jobs.length) return file;
  return { ...file, jobs: jobs.toSpliced(at, 1).toSpliced(to, 0, entry) };
}

const noSuch = (kind: string, name: string): Problem =>
  unknownName({ code: 'jobs.library-unknown', kind, name, known: libraryJobIds }, kind);
