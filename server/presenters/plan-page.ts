import { solverText } from '../../lib/brief/index.ts';
import type { Plan, PlanPicture } from '../../lib/planner/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import { of100, plusMinus } from './amount-texts.ts';
import { type Clock, clockOf } from './clock.ts';
import type { JobDocument } from './job-document.ts';
import { type JobReason, jobReasons } from './job-reasons.ts';
import { type Changes, planChangesSaid } from './plan-changes.ts';
import { planLine } from './plan-line.ts';
import { planNotes, type PlanNotes } from './plan-notes.ts';
import { planStrip } from './plan-strip.ts';
import type { PlanStanding } from './plan-standing.ts';
import { type StatePage, statePage } from './state-page.ts';
import type { StripModel } from './strip-model.ts';
import { timeTexts } from './time-texts.ts';
import { viewIn } from './units/plan-texts.ts';
import { PLAIN_UNITS, type ShownUnits } from './units/shown-units.ts';
import { type WatchBill, watchBill } from './watch-bill.ts';
import { watchSentences } from './watch-sentences.ts';

export type PlanPage = StatePage | WholePlanPage;

/** The plan as a whole: the bill, and why it is so. */
export interface WholePlanPage {
  readonly kind: 'plan';
  readonly name: string;
  /** `Plan 3, made Thu 08:12`; of one that could not be kept without its number. */
  readonly number: string;
  readonly clock: Clock;
  /** Why it could not be made again; empty: nothing went wrong. */
  readonly notRenewed: readonly Problem[];
  /** How sure, against what, and whether it could be better. */
  readonly sentences: readonly string[];
  /** What changed since the plan that stood before; null: there was none. */
  readonly changes: Changes | null;
  readonly strip: StripModel;
  readonly bill: WatchBill;
  /** How awake the watchkeeper is, in words; the rest is a page of its own. */
  readonly watch: readonly string[];
  readonly reasons: readonly JobReason[];
  readonly notes: PlanNotes;
}

interface PlanReader {
  readonly units?: ShownUnits;
  /** The hour to read; null: the first one ahead. */
  readonly hourEpochMs?: number | null;
}

/**
 * @param document the passage as it is kept now, for what is fixed in it; null: it cannot be read
 */
export function planPage(
  standing: PlanStanding,
  nowEpochMs: number,
  document: JobDocument | null = null,
  { units = PLAIN_UNITS, hourEpochMs = null }: PlanReader = {},
): PlanPage {
  if (standing.kind !== 'ready') return statePage(standing, { href: '/plan', nowEpochMs });
  const view = viewIn(standing.view, units);
  const { plan, picture } = view;
  const times = timeTexts(picture.shipTimeOffsetMin, units);
  return {
    kind: 'plan',
    name: plan.passageName,
    number: planLine(plan, times),
    clock: clockOf(picture, nowEpochMs),
    notRenewed: [...(standing.notRenewed ?? []), ...(standing.notKept ?? [])],
    sentences: [
      ...wholeSentences(plan, picture),
      ...[plan.waiting?.text, plan.standing?.text].filter((text) => text !== undefined),
      ...(plan.standing?.overdue ?? []).map(({ text }) => text),
      ...(view.isStoppedEarly
        ? [
            'The search was stopped before it was done. Not worked out: what to do when a window passes, what waiting is worth, what would open a window.',
          ]
        : []),
      solverText(plan),
    ],
    changes: planChangesSaid(standing.view, times),
    strip: planStrip(view, times, hourEpochMs),
    bill: watchBill(view, times),
    watch: watchSentences(view, times),
    reasons: jobReasons(view, times, document),
    notes: planNotes(plan, picture, times),
  };
}

function wholeSentences({ jobs, totals, firstFair }: Plan, picture: PlanPicture): string[] {
  const planned = jobs.filter((job) => job.status === 'planned').length;
  const conditional = jobs.filter((job) => job.status === 'conditional').length;
  const left = jobs.filter((job) => job.status === 'unplanned').length;
  const rest = [
    ...(conditional === 0 ? [] : [`${conditional} more ${conditional === 1 ? 'stands' : 'stand'} under a condition`]),
    ...(left === 0 ? [] : [`${left} could not be planned`]),
  ];
  const counted = rest.length === 0 ? '' : ` ${rest.join(', and ')}.`;
  if (totals.allDoneProbability === null) return [`No job is planned without a condition.${counted}`];
  const chance = `${of100(totals.allDoneProbability)} of 100 ${plusMinus(totals.allDoneProbabilitySd)}`.trim();
  const wanted = of100(picture.wantedProbability);
  const together = `${planned === 1 ? 'The one planned job stays inside its limits' : `All ${planned} planned jobs together stay inside their limits`} in ${chance}; you want ${wanted}.${counted}`;
  return [together, ...firstFairSentences(firstFair, planned)];
}

function firstFairSentences(firstFair: Plan['firstFair'], planned: number): string[] {
  if (firstFair === null) return [];
  const count = firstFair.plannedJobIds.length;
  const placed = count === planned ? `places ${count}` : `places ${count} instead of ${planned}`;
  const { allDoneProbability } = firstFair;
  const chance = allDoneProbability === null ? 'in an unknown share' : `in ${of100(allDoneProbability)} of 100`;
  return [`Taking each job’s first fair window ${placed} and keeps them all inside their limits ${chance}.`];
}
