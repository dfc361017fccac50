import { formatUtc, MS_PER_H, slotEpochMs } from '../time/index.ts';
import type { ScheduleSettings } from '../schedule/index.ts';
import { totalWeight, weightOf } from '../windows/index.ts';
import type { Fallback } from './fallback.ts';
import { fallbackOf, waitingUntil } from './fallback.ts';
import type { FallbackPlan, Plan } from './plan.ts';
import type { Preparation } from './prepare.ts';
import type { ReportedEntry } from './report.ts';
import { rounded } from './rounded.ts';
import type { Searched } from './search.ts';
import type { Solution } from './solve.ts';
import type { StartRun } from './start-runs.ts';
import type { PlanState } from './state.ts';
import { isJobDone, placedInOrder } from './state.ts';
import { amountText, limitWords, ofHundred, shipTime } from './words.ts';

/** Plans for what may happen are searched with one beam: they are advice beside the plan, and there are many of them. */
const FALLBACK_SEARCH: ScheduleSettings = { beamWidths: [120], extensionBudget: 60_000, isAdvice: true };

/** Hours between forecasts taken when nothing says otherwise: the global models run every six. */
const NEXT_FORECAST_H = 6;

/** Decisions farther off than this are made on a newer forecast: no plan is worked out for them. */
const DECIDED_NOW_H = 24;

/** The plan left when a job does not begin in its window, worked out anew; null: that is not for today to decide. */
export function fallbackPlan(
  preparation: Preparation,
  solution: Solution,
  of: { entry: ReportedEntry; jobId: string; own: StartRun },
): FallbackPlan | null {
  const { searched } = solution;
  const { firstSlot, lastSlot } = of.own;
  const aheadH = ((lastSlot - preparation.fromSlot) * preparation.grid.slotMin) / 60;
  if (searched === null || aheadH > DECIDED_NOW_H) return null;
  const found = fallbackOf(searched, { jobId: of.jobId, firstSlot, lastSlot, decideSlot: lastSlot }, FALLBACK_SEARCH);
  const later = placedInOrder(found.state).filter(({ startSlot }) => startSlot >= lastSlot);
  const entries = later.map((placed) => ({
    jobId: preparation.units[placed.unit]?.job.id ?? '',
    startUtc: formatUtc(slotEpochMs(preparation.grid, placed.startSlot)),
    handling: preparation.units[placed.unit]?.handlings[placed.handling]?.id ?? '',
  }));
  const leavesOut = searched.problem.jobs.filter(
    (job) => isJobDone(searched.state, searched.problem, job.id) && !isJobDone(found.state, searched.problem, job.id),
  );
  const isAnyDone = searched.problem.jobs.some((job) => isJobDone(found.state, searched.problem, job.id));
  return {
    decideByUtc: formatUtc(slotEpochMs(preparation.grid, lastSlot)),
    allDoneProbability: isAnyDone ? rounded(found.jointShare, 4) : null,
    entries,
    leavesOutJobIds: leavesOut.map((job) => job.id),
    text: [
      condition(preparation, of),
      nextText(preparation, later[0]),
      leftText(leavesOut),
      worthText(found, isAnyDone),
    ]
      .filter((part) => part !== '')
      .join(' '),
  };
}

/** `If at Fri 29 May 14:30 the wind over the deck is still above 13.0 kn:` */
function condition(preparation: Preparation, of: { entry: ReportedEntry; own: StartRun }): string {
  const { grid, passage } = preparation;
  const at = shipTime(slotEpochMs(grid, of.own.lastSlot), passage.settings.shipTimeOffsetMin);
  const margin = of.entry.marginsOf().find(({ marginSd }) => marginSd !== null);
  if (margin === undefined) return `If it has not begun by ${at}:`;
  return `If at ${at} ${limitWords(margin.limit)} is still above ${amountText(margin.required, margin.unit)}:`;
}

function nextText(preparation: Preparation, next: ReturnType<typeof placedInOrder>[number] | undefined): string {
  if (next === undefined) return 'nothing more can be done before the plan ends.';
  const unit = preparation.units[next.unit];
  const at = shipTime(slotEpochMs(preparation.grid, next.startSlot), preparation.passage.settings.shipTimeOffsetMin);
  return `next is "${unit?.job.name ?? ''}" on ${at}.`;
}

const leftText = (jobs: readonly { readonly name: string }[]): string =>
  jobs.length === 0 ? '' : `Left out: ${jobs.map((job) => `"${job.name}"`).join(', ')}.`;

const worthText = (found: Fallback, isAnyDone: boolean): string =>
  isAnyDone ? `What is planned then holds together in ${ofHundred(found.jointShare)} of the scenarios searched.` : '';

/** What waiting for the next forecast is worth, against beginning now. */
export function waitingOf(preparation: Preparation, solution: Solution, nowEpochMs: number): Plan['waiting'] {
  const { searched } = solution;
  const { grid, passage, weather } = preparation;
  const untilEpochMs = nextForecastEpochMs(weather.baseEpochMs, nowEpochMs);
  const untilSlot = Math.ceil((untilEpochMs - grid.firstEpochMs) / (grid.slotMin * 60_000));
  if (searched === null || !beginsBefore(searched, untilSlot)) return null;
  const found = waitingUntil(searched, untilSlot, FALLBACK_SEARCH);
  const doneIn = (state: PlanState): string[] =>
    searched.problem.jobs.filter((job) => isJobDone(state, searched.problem, job.id)).map((job) => job.id);
  const [now, later] = [doneIn(searched.state), doneIn(found.state)];
  const nowShare = weightOf(searched.state.mask, searched.problem.weights) / totalWeight(searched.problem.weights);
  const at = shipTime(untilEpochMs, passage.settings.shipTimeOffsetMin);
  return {
    untilUtc: formatUtc(untilEpochMs),
    plannedJobIds: later,
    allDoneProbability: later.length === 0 ? null : rounded(found.jointShare, 4),
    allDoneProbabilityNow: rounded(nowShare, 4),
    text: waitingText({ at, nowCount: now.length, laterCount: later.length, nowShare, laterShare: found.jointShare }),
  };
}

function waitingText(of: {
  at: string;
  nowCount: number;
  laterCount: number;
  nowShare: number;
  laterShare: number;
}): string {
  const begin = `Beginning as planned keeps ${of.nowCount} jobs in ${ofHundred(of.nowShare)} of the scenarios searched`;
  return of.laterCount === 0
    ? `${begin}; waiting for the next forecast (${of.at}) leaves nothing that can be done.`
    : `${begin}; waiting for the next forecast (${of.at}) leaves ${of.laterCount} in ${ofHundred(of.laterShare)}.`;
}

function beginsBefore({ state }: Searched, slot: number): boolean {
  return placedInOrder(state).some(({ startSlot }) => startSlot < slot);
}

/** The next run's base time and as long again until it is there as this one has taken, at most a cycle. */
function nextForecastEpochMs(baseEpochMs: number, nowEpochMs: number): number {
  const cycleMs = NEXT_FORECAST_H * MS_PER_H;
  return nowEpochMs + cycleMs - ((nowEpochMs - baseEpochMs) % cycleMs);
}
