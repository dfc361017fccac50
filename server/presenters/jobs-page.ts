import { CHAINS, JOB_LIBRARY, type Job, proposalsFor } from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { totalMinutes } from '../../lib/brief/index.ts';
import { ownFigures, proposalKey } from '../job-forms/index.ts';
import type { Clock } from './clock.ts';
import { documentClock, type JobDocument } from './job-document.ts';
import { type JobLink, jobPageHref } from './job-page.ts';
import { type PlanWords, planWords } from './job-plan-words.ts';
import { type ReadinessView, readinessViews } from './job-readiness.ts';
import { groupWords, priorityText } from './job-words.ts';
import { versionText } from './notices.ts';
import type { PlanStanding } from './plan-standing.ts';
import { limitText } from './amount-texts.ts';
import { timeTexts } from './time-texts.ts';
import { standingIn } from './units/plan-texts.ts';
import { sentenceIn } from './units/sentence.ts';
import { PLAIN_UNITS, type ShownUnits } from './units/shown-units.ts';

/** The jobs of the passage in their order, what could be added, and what the program proposes. */
export interface JobsPage {
  readonly kind: 'jobs';
  readonly name: string;
  readonly clock: Clock;
  readonly version: string;
  /** What the list comes to, in a sentence. */
  readonly summary: string;
  readonly rows: readonly JobsRow[];
  readonly proposals: readonly ProposalView[];
  readonly library: readonly LibraryGroup[];
  readonly chains: readonly ChainView[];
}

export interface JobsRow extends JobLink {
  readonly jobId: string;
  readonly status: ReadinessView['status'];
  readonly readiness: string;
  readonly reason: string;
  readonly priority: string;
  readonly minutes: string;
  readonly after: readonly JobLink[];
  readonly plan: PlanWords;
  /** `3 of its own`, `all its own`; empty: as in the library. */
  readonly own: string;
  readonly canGoUp: boolean;
  readonly canGoDown: boolean;
}

export interface ProposalView {
  /** What the form of its button sends. */
  readonly key: string;
  readonly text: string;
  /** Empty: nothing can be added, it is to be known. */
  readonly button: string;
}

export interface LibraryGroup {
  readonly title: string;
  readonly jobs: readonly {
    readonly id: string;
    readonly name: string;
    readonly line: string;
    readonly isThere: boolean;
  }[];
}

export interface ChainView {
  readonly id: string;
  readonly name: string;
  readonly what: string;
  readonly links: readonly {
    readonly id: string;
    readonly name: string;
    readonly why: string;
    /** It is left out only with the whole chain. */
    readonly isCore: boolean;
  }[];
}

export function jobsPage(input: {
  readonly document: JobDocument;
  readonly standing: PlanStanding;
  readonly nowEpochMs: number;
  /** Of the reader; absent: kn, m and °C. */
  readonly units?: ShownUnits;
}): JobsPage {
  const { document, nowEpochMs, units = PLAIN_UNITS } = input;
  const standing = standingIn(input.standing, units);
  const { passage } = document;
  return {
    kind: 'jobs',
    name: passage.name,
    clock: documentClock(passage, nowEpochMs),
    version: versionText(document),
    summary: summaryText(document),
    rows: rowsOf(document, standing),
    proposals: proposalViews(document, units),
    library: libraryGroups(passage.jobs, units),
    chains: CHAINS.map(({ id, name, what, links }) => ({
      id,
      name,
      what,
      links: links.map((link) => ({
        id: link.id,
        name: JOB_LIBRARY.find((job) => job.id === link.from)?.name ?? link.from,
        why: link.why,
        isCore: link.isCore,
      })),
    })),
  };
}

/** What is left to do, and how much of it could be begun. */
function summaryText({ passage }: JobDocument): string {
  const times = timeTexts(passage.settings.shipTimeOffsetMin);
  const states = [...readinessViews(passage, times).values()].map(({ status }) => status);
  if (states.length === 0)
    return 'No jobs yet. Add what is broken: from the library, as a chain, or as a job of your own.';
  const count = (...wanted: readonly string[]): number => states.filter((status) => wanted.includes(status)).length;
  const parts = [
    [count('ready'), 'ready'],
    [count('later'), 'ready later'],
    [count('not'), 'not ready'],
    [count('unknown'), 'not known'],
    [count('done'), 'done'],
  ] as const;
  const said = parts.filter(([number]) => number > 0).map(([number, word]) => `${number} ${word}`);
  return `${states.length === 1 ? '1 job' : `${states.length} jobs`}: ${said.join(', ')}.`;
}

function rowsOf({ passage, file }: JobDocument, standing: PlanStanding): readonly JobsRow[] {
  const times = timeTexts(passage.settings.shipTimeOffsetMin);
  const readiness = readinessViews(passage, times);
  return passage.jobs.map((job, index) => {
    const { p50Min, p90Min } = totalMinutes(job);
    const ready = readiness.get(job.id);
    const entry = (file.jobs ?? []).find(({ id }) => id === job.id);
    const ownCount = entry === undefined ? 0 : ownFigures(entry, job).filter(({ place }) => place !== 'name').length;
    return {
      jobId: job.id,
      href: jobPageHref(job.id),
      text: job.name,
      status: ready?.status ?? 'unknown',
      readiness: ready?.words ?? 'not known',
      reason: ready?.reason ?? '',
      priority: priorityText(job.priorityWeight),
      minutes: `${Math.round(p50Min)} (${Math.round(p90Min)}) min`,
      after: passage.jobs
        .filter(({ id }) => job.after.includes(id))
        .map((one) => ({ href: jobPageHref(one.id), text: one.name })),
      plan: planWords(standing, job.id, times),
      own: ownWords(job, ownCount),
      canGoUp: index > 0,
      canGoDown: index < passage.jobs.length - 1,
    };
  });
}

function ownWords({ from }: Job, ownCount: number): string {
  if (from === null) return 'all its own';
  return ownCount === 0 ? '' : `${ownCount} of its own`;
}

/** Jobs that are not finished: proposals are about them. */
export const openJobs = ({ jobs, orders }: Passage): readonly Job[] =>
  jobs.filter(({ id }) => orders.jobs.get(id)?.isDone !== true);

function proposalViews({ passage }: JobDocument, units: ShownUnits): readonly ProposalView[] {
  return proposalsFor({ jobs: openJobs(passage), sailStates: passage.boat.sailStates }).map((proposal) => ({
    key: proposalKey(proposal),
    text: sentenceIn(withNames(proposal.text, passage.jobs), units),
    button: buttonOf(proposal),
  }));
}

function buttonOf({ add, orders }: { add: object | null; orders: readonly unknown[] }): string {
  if (add !== null) return 'Add it';
  return orders.length > 0 ? 'Put it in this order' : '';
}

/** Ids in quotation marks as the names of their jobs. */
const withNames = (text: string, jobs: readonly Job[]): string =>
  text.replaceAll(/"([A-Za-z0-9_-]+)"/g, (quoted, id: string) => {
    const job = jobs.find((one) => one.id === id);
    return job === undefined ? quoted : `“${job.name}”`;
  });

function libraryGroups(jobs: readonly Job[], units: ShownUnits): readonly LibraryGroup[] {
  return Object.entries(groupWords).map(([group, title]) => ({
    title,
    jobs: JOB_LIBRARY.filter((job) => job.group === group).map((job) => {
      const { p50Min, p90Min } = totalMinutes(job);
      return {
        id: job.id,
        name: job.name,
        line: `${Math.round(p50Min)} (${Math.round(p90Min)}) min${windLine(job, units)}`,
        isThere: jobs.some(({ from }) => from === job.id),
      };
    }),
  }));
}

function windLine({ steps }: Job, units: ShownUnits): string {
  const noGoKn = steps.flatMap(({ limits }) => limits.deckWindKn?.noGo ?? []);
  return noGoKn.length === 0 ? '' : `, up to ${limitText(Math.min(...noGoKn), 'kn', units)} over the deck`;
}
