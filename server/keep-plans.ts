import { z } from 'zod';
import { readPlan } from '../lib/brief/index.ts';
import { type AfterLogOptions, effectiveEntries, type NumberedEntry } from '../lib/log/index.ts';
import { WORK_KINDS } from '../lib/person/index.ts';
import type { Plan } from '../lib/planner/index.ts';
import { failed, ok, type Problem, type Result } from '../lib/result/index.ts';
import type { Documents } from './documents/index.ts';
import type { PlannedOf } from './keep-log.ts';
import type { PassageView } from './presenters/plan-standing.ts';
import type { PlanSummary, Store } from './stores/index.ts';

const madeOf = z.object({
  version: z.number(),
  logNumber: z.number(),
  forecastBaseUtc: z.string(),
  jobs: z.object({ planned: z.number(), conditional: z.number(), unplanned: z.number(), done: z.number() }),
  allDoneProbability: z.number().nullable(),
  isStoppedEarly: z.boolean(),
  /** The plan before it was kept as it stood. */
  isKept: z.boolean(),
  usualPaceRatio: z.number(),
  paceByWork: z.partialRecord(z.enum(WORK_KINDS), z.object({ ratio: z.number(), sessionCount: z.number() })),
  /** The forecast against the log, in sentences. */
  match: z.array(z.string()),
});

/** What a plan was made of, and what it comes to. */
export type MadeOf = z.infer<typeof madeOf>;

/** A plan as its list shows it. */
export interface NumberedPlan {
  readonly number: number;
  readonly madeAtUtc: string;
  /** null: not known. */
  readonly madeOf: MadeOf | null;
}

export interface PlanOfNumber extends NumberedPlan {
  readonly plan: Plan;
  /** As it is published. */
  readonly json: string;
}

/** Every plan there was of the passage that is shown. */
export interface PlanHistory {
  /** In the order they were made. */
  readonly planHistory: () => Result<readonly NumberedPlan[]>;
  /** @returns `plan.no-such-number`, what is wrong with a plan of another version, or a failure of the store */
  readonly planOfNumber: (number: number) => Result<PlanOfNumber>;
}

export interface KeptPlans extends PlanHistory {
  /** Adds a plan; the same with its number. */
  readonly keepInHistory: (view: PassageView, of: PlannedOf) => Result<Plan>;
  /** The latest plan of a passage; null: there is none, or none that can be read. */
  readonly latestPlan: (passageNumber: number) => Plan | null;
  /** The last plans made before each event of a job in a log. */
  readonly plansOfWork: (passageNumber: number, log: readonly NumberedEntry[]) => readonly PlanOfWork[];
}

/** What of a kept plan tells how much slower its work was reckoned to go. */
export type PlanOfWork = NonNullable<AfterLogOptions['plans']>[number];

interface Options {
  readonly store: Pick<Store, 'plans'>;
  readonly documents: Pick<Documents, 'passageText'>;
  readonly nowEpochMs: () => number;
}

/** Keeps every finished plan in the store, numbered within its passage. */
export function keepPlans({ store, documents, nowEpochMs }: Options): KeptPlans {
  return {
    keepInHistory: (view, of) => {
      const { plan } = view;
      const added = store.plans.append({
        passageNumber: of.number,
        seed: plan.seed,
        madeAtUtc: plan.madeAtUtc,
        json: (planNumber) => JSON.stringify({ ...plan, planNumber }),
        madeOfJson: JSON.stringify(madeOfPlan(view, of)),
        writtenAtEpochMs: nowEpochMs(),
      });
      return added.ok ? ok({ ...plan, planNumber: added.value.number }) : added;
    },
    latestPlan: (passageNumber) => {
      const found = store.plans.latest(passageNumber);
      return found.ok && found.value !== null ? planIn(found.value) : null;
    },
    plansOfWork: (passageNumber, log) => {
      const list = store.plans.list(passageNumber);
      if (!list.ok) return [];
      return numbersOfWork(list.value, log).flatMap((number) => {
        const found = store.plans.get(passageNumber, number);
        const plan = found.ok && found.value !== null ? planIn(found.value) : null;
        return plan === null ? [] : [{ ...plan, entries: plan.entries.filter(({ kind }) => kind === 'work') }];
      });
    },
    planHistory: () => {
      const text = documents.passageText();
      if (!text.ok) return text;
      const list = store.plans.list(text.value.number);
      return list.ok ? ok(list.value.map(summaryOf)) : list;
    },
    planOfNumber: (number) => {
      const text = documents.passageText();
      if (!text.ok) return text;
      const found = store.plans.get(text.value.number, number);
      if (!found.ok) return found;
      return found.value === null ? failed(noSuchPlan(number)) : withPlan(found.value);
    },
  };
}

function withPlan(stored: PlanSummary & { readonly json: string }): Result<PlanOfNumber> {
  const read = readPlan(stored.json, `plan ${stored.number}`);
  return read.ok ? ok({ ...summaryOf(stored), plan: read.value, json: stored.json }) : read;
}

function planIn(stored: PlanSummary & { readonly json: string }): Plan | null {
  const read = withPlan(stored);
  return read.ok ? read.value.plan : null;
}

/** Plans made before an event that may hold its work; the last one that does is taken. */
const PLANS_BEFORE_COUNT = 3;

function numbersOfWork(plans: readonly PlanSummary[], log: readonly NumberedEntry[]): readonly number[] {
  const numbers = effectiveEntries(log).flatMap(({ statement, atEpochMs }) => {
    if (statement.kind !== 'job' || statement.event === 'started') return [];
    return plans
      .filter(({ madeAtUtc }) => Date.parse(madeAtUtc) <= atEpochMs)
      .slice(-PLANS_BEFORE_COUNT)
      .map(({ number }) => number);
  });
  return [...new Set(numbers)];
}

function summaryOf({ number, madeAtUtc, madeOfJson }: PlanSummary): NumberedPlan {
  const read = madeOf.safeParse(madeOfJson === null ? null : JSON.parse(madeOfJson));
  return { number, madeAtUtc, madeOf: read.success ? read.data : null };
}

function madeOfPlan({ plan, isStoppedEarly, fromLog }: PassageView, of: PlannedOf): MadeOf {
  const count = (status: Plan['jobs'][number]['status']): number =>
    plan.jobs.filter((job) => job.status === status).length;
  return {
    version: of.version,
    logNumber: of.logNumber,
    forecastBaseUtc: plan.forecast.baseTimeUtc,
    jobs: {
      planned: count('planned'),
      conditional: count('conditional'),
      unplanned: count('unplanned'),
      done: count('done'),
    },
    allDoneProbability: plan.totals.allDoneProbability,
    isStoppedEarly,
    isKept: plan.standing?.kept === true,
    usualPaceRatio: fromLog?.usualPaceRatio ?? 1,
    paceByWork: fromLog?.paceByWork ?? {},
    match: [...(fromLog?.match ?? [])],
  };
}

const noSuchPlan = (number: number): Problem => ({
  code: 'plan.no-such-number',
  where: 'the plans of this passage',
  what: `There is no plan ${number}.`,
  expected: 'the number of a plan in the list',
  remedy: 'Look at the list of plans.',
});
