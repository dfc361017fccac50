import { didYouMean } from '../../result/index.ts';
import {
  itemKey,
  lotsOf,
  takeFrom,
  type Locker,
  type Lot,
  type MaterialShort,
  type Taking,
} from '../../stock/index.ts';
import type { Job } from '../job.ts';
import type { JobAmount, MaterialShortFinding, ReadinessFinding } from './finding.ts';
import { byImportance, jobsBefore } from './importance.ts';
import { isDone, lotsMadeAlready, lotsMadeBy, materialsLeft, type Progress } from './needs.ts';
import { offersForMaterial } from './offers.ts';
import { toolFindings } from './tools.ts';

/** Jobs and what is on board for them. */
export interface ReadinessInput {
  readonly jobs: readonly Job[];
  readonly locker: Locker;
  readonly progress: Progress;
}

/**
 * `ready`: all it needs is there. `later`: from an instant, or once jobs before it have made what it needs. `not`:
 * something is missing. `unknown`: what it needs was not counted, which never counts as ready. `done`: nothing is left.
 */
export type ReadinessStatus = 'ready' | 'later' | 'not' | 'unknown' | 'done';

/** Whether a job can be begun with what is on board. */
export interface JobReadiness {
  readonly jobId: string;
  readonly status: ReadinessStatus;
  /** Nothing it needs comes later; null: nothing is to be waited for but other jobs. */
  readonly fromEpochMs: number | null;
  /** Jobs before it that make what it needs. */
  readonly madeByIds: readonly string[];
  readonly findings: readonly ReadinessFinding[];
}

/**
 * Readiness of every job, in the order of the list.
 *
 * The more important job takes its materials first (see `byImportance`), a job that cannot be done takes none. What a job
 * makes is there for the jobs that come after it, directly or through others. Names are compared without regard to case.
 *
 * @param order jobs in the order they take from the locker; those left out take nothing and are not judged
 */
export function readinessOf(input: ReadinessInput, order: readonly Job[] = byImportance(input.jobs)): JobReadiness[] {
  const account = new Account(input);
  const found = new Map(order.map((job) => [job.id, account.judge(job)]));
  return input.jobs.flatMap(({ id }) => {
    const readiness = found.get(id);
    return readiness === undefined
      ? []
      : [{ ...readiness, findings: [...readiness.findings, ...account.leftShort(id)] }];
  });
}

/** Who has taken what. */
class Account {
  private readonly input: ReadinessInput;
  private lots: readonly Lot[];
  private readonly takenBy = new Map<string, readonly Lot[]>();
  private readonly barred = new Set<string>();
  private readonly shorts: { readonly jobId: string; readonly finding: MaterialShortFinding }[] = [];

  constructor(input: ReadinessInput) {
    this.input = input;
    this.lots = [...lotsOf(input.locker), ...lotsMadeAlready(input.jobs, input.progress, input.locker)];
  }

  judge(job: Job): JobReadiness {
    const { jobs, locker, progress } = this.input;
    const nothing = { jobId: job.id, fromEpochMs: null, madeByIds: [], findings: [] };
    if (isDone(progress, job)) return { ...nothing, status: 'done' };
    const before = jobsBefore(jobs, job);
    const taking = takeFrom(this.lots, materialsLeft(job, progress), (lot) => isOpen(lot, before));
    const findings = [
      ...job.after.filter((id) => this.barred.has(id)).map(afterBarred),
      ...this.shortFindings(job, taking, before),
      ...toolFindings({ jobs, locker, progress }, job),
      ...takenFindings(taking),
    ];
    const status = statusOf(findings);
    if (status === 'not') this.barred.add(job.id);
    else this.take(job, taking);
    const instants = findings.flatMap((of) => ('readyEpochMs' in of ? [of.readyEpochMs] : []));
    const makers = findings.flatMap((of) => (of.code === 'made-before' ? [of.makerId] : []));
    return {
      jobId: job.id,
      status,
      fromEpochMs: instants.length === 0 ? null : Math.max(...instants),
      madeByIds: [...new Set(makers)],
      findings,
    };
  }

  private take(job: Job, taking: Taking): void {
    this.lots = [...taking.left, ...lotsMadeBy(job)];
    this.takenBy.set(job.id, taking.taken);
  }

  /** A locker that lists nothing says nothing of what is missing. */
  private shortFindings(job: Job, { shorts }: Taking, before: ReadonlySet<string>): ReadinessFinding[] {
    const { locker } = this.input;
    if (shorts.length === 0) return [];
    if (locker.items.length === 0)
      return [{ code: 'materials-not-counted', effect: 'unknown', items: shorts.map(({ item }) => item) }];
    const findings = shorts.map((short) => this.shortFinding(job, short, before));
    this.shorts.push(...findings.map((finding) => ({ jobId: job.id, finding })));
    return findings;
  }

  private shortFinding(job: Job, short: MaterialShort, before: ReadonlySet<string>): MaterialShortFinding {
    const { jobs, locker, progress } = this.input;
    const lines = locker.items.filter(({ item }) => itemKey(item) === itemKey(short.item));
    const makers = jobs.filter(
      (other) =>
        other.id !== job.id &&
        !before.has(other.id) &&
        !isDone(progress, other) &&
        other.makes.some(({ item }) => itemKey(item) === itemKey(short.item)),
    );
    const isListed = lines.length > 0 || makers.length > 0;
    return {
      ...short,
      code: 'material-short',
      effect: 'bars',
      onBoardAmount: lines.reduce((sum, line) => sum + line.onBoardAmount, 0),
      keepAmount: lines.reduce((sum, line) => sum + line.keepAmount, 0),
      takenBy: this.takersOf(short, before),
      makerIds: makers.map(({ id }) => id),
      nearName: isListed
        ? null
        : didYouMean(
            short.item,
            locker.items.map(({ item }) => item),
          ),
      offers: offersForMaterial(short, job),
    };
  }

  /** Jobs that have taken of an item what another might have. */
  private takersOf(short: MaterialShort, before: ReadonlySet<string>): JobAmount[] {
    return [...this.takenBy].flatMap(([jobId, taken]) => {
      const amount = taken
        .filter((lot) => itemKey(lot.item) === itemKey(short.item) && lot.unit === short.unit && isOpen(lot, before))
        .reduce((sum, lot) => sum + lot.amount, 0);
      return amount === 0 ? [] : [{ jobId, amount, unit: short.unit }];
    });
  }

  /** Less important jobs that are short of what this one takes, once all have been judged. */
  leftShort(jobId: string): ReadinessFinding[] {
    return this.shorts.flatMap(({ jobId: shortId, finding: { item, unit, shortAmount, takenBy } }) =>
      takenBy
        .filter((taker) => taker.jobId === jobId)
        .map((taker) => {
          const amount = Math.min(taker.amount, shortAmount);
          return { code: 'leaves-short', effect: 'note', jobId: shortId, item, amount, unit };
        }),
    );
  }
}

const isOpen = ({ makerId }: Lot, before: ReadonlySet<string>): boolean => makerId === null || before.has(makerId);

const afterBarred = (jobId: string): ReadinessFinding => ({ code: 'after-barred', effect: 'bars', jobId });

/** What of the taken is not there yet. */
const takenFindings = ({ taken }: Taking): ReadinessFinding[] =>
  taken.flatMap(({ item, amount, unit, makerId, readyEpochMs }): ReadinessFinding[] => {
    if (makerId !== null) return [{ code: 'made-before', effect: 'delays', item, amount, unit, makerId }];
    return readyEpochMs === null ? [] : [{ code: 'material-later', effect: 'delays', item, readyEpochMs }];
  });

function statusOf(findings: readonly ReadinessFinding[]): ReadinessStatus {
  const has = (effect: ReadinessFinding['effect']): boolean => findings.some((finding) => finding.effect === effect);
  if (has('bars')) return 'not';
  if (has('unknown')) return 'unknown';
  return has('delays') ? 'later' : 'ready';
}
