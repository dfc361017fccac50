import {
  type Job,
  type JobReadiness,
  type ReadinessFinding,
  readinessOf,
  readinessWords,
} from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import type { TimeTexts } from './time-texts.ts';

/** Whether a job can be begun with what is on board. */
export interface ReadinessView {
  readonly status: JobReadiness['status'];
  /** `ready`, `ready from Thu 28 May 14:00`, `not ready` */
  readonly words: string;
  /** The one thing that decides; empty: nothing. */
  readonly reason: string;
  readonly findings: readonly {
    readonly text: string;
    readonly remedies: readonly string[];
    readonly effect: string;
  }[];
}

/** Readiness of every job of a passage by its id. */
export function readinessViews(passage: Passage, times: TimeTexts): ReadonlyMap<string, ReadinessView> {
  const { jobs, locker, orders } = passage;
  const found = readinessOf({ jobs, locker, progress: orders.jobs });
  return new Map(found.map((readiness) => [readiness.jobId, viewOf(readiness, jobs, times)]));
}

function viewOf(readiness: JobReadiness, jobs: readonly Job[], times: TimeTexts): ReadinessView {
  const findings = readiness.findings.map((finding) => {
    const said = readinessWords(finding);
    const named = (text: string): string => withNames(text, idsIn(finding), jobs);
    const { effect, code } = finding;
    return { text: withTimes(named(said.text), times), remedies: said.remedies.map(named), effect, code };
  });
  const decides = { not: 'bars', unknown: 'unknown', later: 'delays' }[readiness.status as string];
  return {
    status: readiness.status,
    words: wordsOf(readiness, times),
    reason: deciding(findings.filter(({ effect }) => effect === decides)),
    findings,
  };
}

/** What the job itself lacks comes before what jobs before it lack. */
const deciding = (findings: readonly { readonly text: string; readonly code: string }[]): string =>
  (findings.find(({ code }) => code !== 'after-barred') ?? findings[0])?.text ?? '';

function wordsOf({ status, fromEpochMs }: JobReadiness, times: TimeTexts): string {
  if (status === 'later')
    return fromEpochMs === null ? 'ready after jobs before it' : `ready from ${times.dayTime(fromEpochMs)}`;
  return { ready: 'ready', not: 'not ready', unknown: 'not known', done: 'done' }[status];
}

/** Ids of jobs that a finding speaks of. */
function idsIn(finding: ReadinessFinding): readonly string[] {
  const one = 'jobId' in finding ? [finding.jobId] : [];
  const many = 'jobIds' in finding ? finding.jobIds : [];
  const makers = 'makerIds' in finding ? finding.makerIds : 'makerId' in finding ? [finding.makerId] : [];
  const holders = 'heldByIds' in finding ? finding.heldByIds : [];
  const takers = 'takenBy' in finding ? finding.takenBy.map(({ jobId }) => jobId) : [];
  return [...one, ...many, ...makers, ...holders, ...takers];
}

/** Ids in quotation marks as the names of their jobs. */
const withNames = (text: string, ids: readonly string[], jobs: readonly Job[]): string =>
  ids.reduce((said, id) => said.replaceAll(`"${id}"`, `“${jobs.find((job) => job.id === id)?.name ?? id}”`), text);

/** Instants in UTC as the ship's clock has them. */
const withTimes = (text: string, times: TimeTexts): string =>
  text.replaceAll(/\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(?::\d{2})?Z/g, (utc) => times.full(Date.parse(utc)));
