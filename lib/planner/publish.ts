import { formatUtc, MS_PER_H, slotEpochMs } from '../time/index.ts';
import type { Job, Step } from '../jobs/index.ts';
import { LIGHTS } from '../voyage/index.ts';
import type { Light } from '../voyage/index.ts';
import type { JobWindows } from '../windows/index.ts';
import { deckWindUnder } from '../voyage/index.ts';
import { intersect, quantileAt, totalWeight } from '../windows/index.ts';
import { cautionsFor } from './cautions.ts';
import { effortRestMin } from './effort-rest.ts';
import { entryFactors } from './entry-factors.ts';
import { fallbackPlan, waitingOf } from './fallback-plan.ts';
import { jobChecks, runAround } from './job-checks.ts';
import { nearestMissOf } from './nearest-miss.ts';
import { notEarlier } from './not-earlier.ts';
import type { Plan, PlanEntry, PlannedJob } from './plan.ts';
import type { Preparation } from './prepare.ts';
import { restEntries, waitEntries } from './rest-entries.ts';
import { publishedFinding } from './published-finding.ts';
import { rounded } from './rounded.ts';
import { sleepFirst } from './sleep-first.ts';
import type { Report, ReportedEntry } from './report.ts';
import { probabilityOf } from './report.ts';
import type { Solution } from './solve.ts';
import type { Rehearsal } from '../rehearsal/index.ts';
import { wouldBuyFor } from './would-buy.ts';
import type { StartRun } from './start-runs.ts';
import { startRuns } from './start-runs.ts';
import type { PlanState } from './state.ts';
import { decisionsOf, isJobConditional, isJobDone } from './state.ts';
import { whyNotEarlier, whyThen } from './why.ts';
import { plannedWatch } from './watch.ts';
import { bindingLimit, ofHundred } from './words.ts';

/** What the plan says about the forecast it was made on. */
export interface PublishedForecast {
  readonly memberCount: number;
  readonly missing: readonly string[];
  readonly notes: readonly string[];
}

export interface Publication {
  readonly preparation: Preparation;
  readonly solution: Solution;
  readonly windows: ReadonlyMap<string, JobWindows>;
  readonly forecast: PublishedForecast;
  readonly nowEpochMs: number;
  /** The search was stopped: what would be searched anew beside the plan (fallbacks, what to wait for) is left out. */
  readonly isHurried: boolean;
}

/** The plan as it goes out: entries in order of time, every job with its reasons. */
export function publish(publication: Publication): Plan {
  const { preparation, solution, forecast, nowEpochMs } = publication;
  const { passage, weather } = preparation;
  const { report } = solution;
  const entries = [
    ...workEntries(preparation, report),
    ...restEntries(preparation, report),
    ...waitEntries(preparation, report),
  ];
  return {
    planNumber: null,
    seed: passage.settings.seed,
    madeAtUtc: formatUtc(nowEpochMs),
    passageName: passage.name,
    forecast: {
      baseTimeUtc: formatUtc(weather.baseEpochMs),
      ageH: rounded((nowEpochMs - weather.baseEpochMs) / MS_PER_H, 1),
      members: forecast.memberCount,
      missing: forecast.missing,
      endUtc: formatUtc(weather.endEpochMs),
    },
    entries: entries.toSorted((a, b) => (a.startUtc < b.startUtc ? -1 : Number(a.startUtc > b.startUtc))),
    jobs: passage.jobs.map((job) => plannedJob(publication, job)),
    totals: totals(preparation, solution.report, solution.rehearsal),
    firstFair: firstFairOf(solution, passage.jobs),
    waiting: publication.isHurried ? null : waitingOf(preparation, solution, nowEpochMs),
    standing: solution.standing,
    solver: solverOf(solution),
    watch: plannedWatch(preparation, solution.report, endSlotOf(preparation, solution.report)),
    cautions: cautionsFor(preparation, solution.report, forecast.notes),
  };
}

/** End of the last work or sleep. */
const endSlotOf = (preparation: Preparation, { entries, sleeps }: Report): number =>
  Math.max(preparation.fromSlot, ...entries.map(({ placed }) => placed.endSlot), ...sleeps.map(({ toSlot }) => toSlot));

/** What is proven: on the scenarios searched, with limits as tight as they were searched with. */
function solverOf({ state, searched, labelCount }: Solution): Plan['solver'] {
  const unproven = { optimal: false, gap: null, costGapShare: null, labels: labelCount };
  // A standing plan that is kept is not what the search proved, unless it is the same plan.
  if (searched === null || !isSamePlan(state, searched.state)) return unproven;
  const { solution, problem } = searched;
  const { worth, bound } = solution;
  if (worth.priorityWeight < bound.priorityWeight) return unproven;
  const gap = Math.max(0, bound.jointWeight - worth.jointWeight) / totalWeight(problem.weights);
  const isProbable = solution.provenProbability;
  const costGap = Math.max(0, worth.costPoints - bound.costPoints) / Math.max(1, worth.costPoints);
  return {
    optimal: solution.proven,
    gap: isProbable ? 0 : rounded(gap, 4),
    costGapShare: isProbable ? rounded(Math.min(1, costGap), 4) : null,
    labels: labelCount,
  };
}

const isSamePlan = (a: PlanState, b: PlanState): boolean =>
  a === b || JSON.stringify(decisionsOf(a)) === JSON.stringify(decisionsOf(b));

/** Slot instant as text. */
const utcAt = (preparation: Preparation, slotIndex: number): string =>
  formatUtc(slotEpochMs(preparation.grid, slotIndex));

function workEntries(preparation: Preparation, report: Report): PlanEntry[] {
  return report.entries.map((entry) => {
    const { placed, conditions, startIndex } = entry;
    const unit = preparation.units[placed.unit];
    if (unit === undefined) throw new Error('a plan holds an entry its problem does not know');
    const handling = unit.handlings[placed.handling];
    return {
      startUtc: utcAt(preparation, placed.startSlot),
      endUtc: utcAt(preparation, placed.endSlot),
      kind: 'work',
      jobId: unit.job.id,
      stepIds: unit.block.steps.map((step) => step.id),
      handling: handling?.id ?? null,
      sailState: placed.sailStateId,
      place: unit.block.steps.find((step) => step.place !== 'below')?.place ?? 'below',
      lat: rounded(conditions.course.lat[startIndex] ?? 0, 3),
      lon: rounded(conditions.course.lon[startIndex] ?? 0, 3),
      deckWindKn: handling === undefined ? null : deckWindSpread(entry, handling),
      light: lightAtSlot(conditions.light[startIndex]),
      kssStart: rounded(placed.kssStart, 2),
      kssEnd: rounded(placed.kssEnd, 2),
      settleMin: placed.settleSlots * preparation.grid.slotMin,
      ...entryFactors(entry, preparation.passage.watchkeeper, unit.job),
      restAfterMin: Math.ceil(effortRestMin(unit, preparation.passage.watchkeeper)),
    };
  });
}

const lightAtSlot = (index: number | undefined): Light => LIGHTS[index ?? 3] ?? 'night';

function deckWindSpread(entry: ReportedEntry, handling: Parameters<typeof deckWindUnder>[1]): PlanEntry['deckWindKn'] {
  const deck = deckWindUnder(entry.conditions, handling, entry.placed.sailStateId);
  const at = (quantileProbability: number): number =>
    rounded(quantileAt(deck.meanKn, entry.conditions.weather, { i: entry.startIndex, quantileProbability }), 1);
  return Number.isNaN(at(0.5)) ? null : { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
}

function plannedJob(publication: Publication, job: Job): PlannedJob {
  const { preparation, solution } = publication;
  const { problem, state, report } = solution;
  if (preparation.passage.orders.jobs.get(job.id)?.isDone === true) return { ...bareJob(job), status: 'done' };
  const entries = report.entries.filter((entry) => preparation.units[entry.placed.unit]?.job.id === job.id);
  const [first] = entries;
  const unit = preparation.units[first?.placed.unit ?? -1];
  const isKnown = problem.jobs.some(({ id }) => id === job.id);
  if (!isKnown || first === undefined || unit === undefined || !isJobDone(state, problem, job.id)) {
    return unplannedJob(publication, job);
  }
  const endSlot = Math.max(...entries.map((entry) => entry.placed.endSlot));
  const explained = { preparation, solution, unit, entry: first };
  const runs = startRuns(problem, unit, first.placed);
  const stretches = notEarlier({ problem, state, report, unit, placed: first.placed });
  const rehearsed = solution.rehearsal?.jobs.find(({ jobId }) => jobId === job.id);
  return {
    ...bareJob(job),
    status: isJobConditional(state, problem, job.id) ? 'conditional' : 'planned',
    startUtc: utcAt(preparation, first.placed.startSlot),
    endUtc: utcAt(preparation, endSlot),
    handling: unit.handlings[first.placed.handling]?.id ?? null,
    ...roomOf(entries, report),
    ...startsOf(publication, { unit, first, runs }),
    sleepFirst: sleepFirst(explained, runs),
    doneInsideLimitsProbability: rehearsed === undefined ? null : rounded(rehearsed.doneInsideLimitsProbability, 4),
    coreInterruptedProbability: rehearsed === undefined ? null : rounded(rehearsed.coreInterruptedProbability, 4),
    why: whyThen(explained),
    whyNotEarlier: whyNotEarlier(explained, stretches),
    notEarlier: stretches.map((stretch) => ({
      firstStartUtc: utcAt(preparation, stretch.firstStartSlot),
      lastStartUtc: utcAt(preparation, stretch.lastStartSlot),
      finding: stretch.finding === null ? null : publishedFinding(stretch.finding),
    })),
    ...jobChecks(preparation, { unit, first, entries, runs, report }),
  };
}

/** A job with nothing planned of it and no reason given. */
function bareJob(job: Job): PlannedJob {
  return {
    jobId: job.id,
    name: job.name,
    status: 'unplanned',
    startUtc: null,
    endUtc: null,
    handling: null,
    startBetween: null,
    probability: null,
    marginSd: null,
    bindingLimit: null,
    unknownLimits: [],
    standardCriterion: null,
    why: null,
    whyNotEarlier: null,
    sleepFirst: null,
    notEarlier: [],
    doneInsideLimitsProbability: null,
    coreInterruptedProbability: null,
    fallback: null,
    decideByUtc: null,
    fallbackPlan: null,
    goCheck: [],
    startCheck: null,
    nearestMiss: null,
    wouldBuy: [],
  };
}

function unplannedJob(publication: Publication, job: Job): PlannedJob {
  const { preparation, solution } = publication;
  const { problem, state } = solution;
  const windows = publication.windows.get(job.id) ?? { jobId: job.id, windows: [], nearestMisses: [] };
  return {
    ...bareJob(job),
    nearestMiss: nearestMissOf(preparation, { job, problem, state, windows }),
    wouldBuy: publication.isHurried ? [] : wouldBuyFor(preparation, job, windows),
  };
}

type Room = Pick<PlannedJob, 'probability' | 'marginSd' | 'bindingLimit' | 'unknownLimits' | 'standardCriterion'>;

/** How sure, how much room, and what binds, over all entries of a job. */
function roomOf(entries: readonly ReportedEntry[], report: Report): Room {
  const mask = entries.map((entry) => entry.mask).reduce((a, b) => intersect(a, b));
  const margins = entries
    .flatMap((entry) => entry.marginsOf())
    .toSorted((a, b) => (a.marginSd ?? Infinity) - (b.marginSd ?? Infinity));
  const marginSd = margins[0]?.marginSd ?? null;
  const standard = margins.find((margin) => margin.standard !== null)?.standard ?? null;
  return {
    probability: rounded(probabilityOf(mask, report).probability, 4),
    marginSd: marginSd === null ? null : rounded(marginSd, 2),
    bindingLimit: bindingLimit(margins[0]),
    unknownLimits: [...new Set(entries.flatMap((entry) => entry.unknownLimits))],
    standardCriterion:
      standard === null
        ? null
        : { ...standard, alphaRatio: rounded(standard.alphaRatio, 2), text: standardText(standard) },
  };
}

/** When it may start, until when to decide, and what is left if not. */
function startsOf(
  publication: Publication,
  of: { unit: Parameters<typeof startRuns>[1]; first: ReportedEntry; runs: readonly StartRun[] },
): Pick<PlannedJob, 'startBetween' | 'fallback' | 'decideByUtc' | 'fallbackPlan'> {
  const { preparation, solution } = publication;
  const { startSlot } = of.first.placed;
  const { runs } = of;
  const own = runAround(runs, startSlot);
  const utc = (slotIndex: number): string => utcAt(preparation, slotIndex);
  return {
    startBetween: own === undefined ? null : { firstUtc: utc(own.firstSlot), lastUtc: utc(own.lastSlot) },
    fallback: fallbackOf(publication, { ...of, own }),
    decideByUtc: own === undefined ? null : utc(own.lastSlot),
    fallbackPlan:
      own === undefined || publication.isHurried
        ? null
        : fallbackPlan(preparation, solution, { entry: of.first, jobId: of.unit.job.id, own }),
  };
}

function standardText(standard: { alphaRatio: number; met: boolean }): string {
  const share = `${Math.round(standard.alphaRatio * 100)} % of the limit`;
  if (standard.alphaRatio === 0)
    return 'So far ahead no forecast can promise a limit this low (α-factor method): look again with the next forecast.';
  return standard.met
    ? `The forecast stays within ${share}, as the α-factor method of marine operations asks.`
    : `The α-factor method of marine operations asks the forecast to stay within ${share}; it does not. Look again with the next forecast.`;
}

function fallbackOf(
  publication: Publication,
  of: {
    unit: Parameters<typeof startRuns>[1];
    first: ReportedEntry;
    runs: readonly StartRun[];
    own: StartRun | undefined;
  },
): PlannedJob['fallback'] {
  const { preparation, solution } = publication;
  const next = of.runs.find((run) => run.firstSlot > (of.own?.lastSlot ?? of.first.placed.startSlot));
  if (next === undefined) return null;
  return {
    startUtc: utcAt(preparation, next.bestSlot),
    lastStartUtc: utcAt(preparation, next.lastSlot),
    probability: rounded(next.bestWeight / totalWeight(solution.problem.weights), 4),
    handling: of.unit.handlings[of.first.placed.handling]?.id ?? '',
  };
}

/** Figures of the plan from its beginning to the end of its horizon. */
function totals(preparation: Preparation, report: Report, rehearsal: Rehearsal | null): Plan['totals'] {
  const joint = report.jointMask === null ? null : probabilityOf(report.jointMask, report);
  const { slotMin } = preparation.grid;
  const elapsedH = ((preparation.untilSlot - preparation.fromSlot) * slotMin) / 60;
  const sleptMin = report.sleeps.reduce((sum, sleep) => sum + (sleep.toSlot - sleep.fromSlot) * slotMin, 0);
  const deckMin = report.entries
    .filter((entry) => preparation.units[entry.placed.unit]?.block.steps.some((step) => step.place !== 'below'))
    .reduce((sum, entry) => sum + entry.placed.plannedMin, 0);
  return {
    allDoneProbability: joint === null ? null : rounded(joint.probability, 4),
    allDoneProbabilitySd: joint === null ? null : rounded(joint.probabilitySd, 4),
    deckH: rounded(deckMin / 60, 1),
    lostNm: rounded(report.lostNm, 1),
    sleepHPer24H: elapsedH <= 0 ? 0 : rounded((sleptMin / 60 / elapsedH) * 24, 1),
    unwatchedMin: Math.round(sleptMin + workWithoutLookoutMin(preparation, report)),
    expectedJobsDone: rehearsal === null ? null : rounded(rehearsal.expectedJobsDoneCount, 2),
  };
}

/** Minutes of work in steps that leave no eye for the sea. */
function workWithoutLookoutMin(preparation: Preparation, report: Report): number {
  return report.entries.reduce((sumMin, { placed }) => {
    const steps = preparation.units[placed.unit]?.block.steps ?? [];
    const likelyMin = (of: readonly Step[]): number => of.reduce((sum, step) => sum + step.work.likelyMin, 0);
    const share = likelyMin(steps.filter((step) => step.lookout === 'none')) / Math.max(1, likelyMin(steps));
    return sumMin + placed.plannedMin * share;
  }, 0);
}

function firstFairOf({ firstFair, problem }: Solution, jobs: readonly Job[]): Plan['firstFair'] {
  const { jointMask, conditionalJobIds } = firstFair.report;
  // The share below counts none that stands under a condition, so neither does the list.
  const plannedJobIds = jobs
    .filter((job) => isJobDone(firstFair.state, problem, job.id) && !conditionalJobIds.includes(job.id))
    .map((job) => job.id);
  if (plannedJobIds.length === 0) return null;
  const allDoneProbability =
    jointMask === null ? null : rounded(probabilityOf(jointMask, firstFair.report).probability, 4);
  return { allDoneProbability, plannedJobIds };
}

/** One sentence for terminal and page. */
export function comparisonText(plan: Plan): string | null {
  if (plan.firstFair === null || plan.totals.allDoneProbability === null) return null;
  const planned = plan.jobs.filter((job) => job.status === 'planned').length;
  const first = plan.firstFair.allDoneProbability;
  return `Taking each job's first fair window would place ${plan.firstFair.plannedJobIds.length} jobs and keep all of them inside their limits in ${first === null ? 'an unknown share' : ofHundred(first)}; this plan places ${planned} and keeps them in ${ofHundred(plan.totals.allDoneProbability)}.`;
}
