import type { Plan, PlanEntry, PlannedJob, StandingPlan } from '../../../lib/planner/index.ts';
import type { FromLog, PassageView, PlanStanding } from '../plan-standing.ts';
import { sentenceIn, sentenceOrNullIn } from './sentence.ts';
import { isPlain, type ShownUnits } from './shown-units.ts';

/** The standing with every sentence of its plan in the reader's units; figures stay as they are, in kn, m and °C. */
export const standingIn = (standing: PlanStanding, units: ShownUnits): PlanStanding =>
  standing.kind === 'ready' ? { ...standing, view: viewIn(standing.view, units) } : standing;

/** As standingIn, for the view alone; the plan before it is only compared, and stays as it is. */
export function viewIn(view: PassageView, units: ShownUnits): PassageView {
  if (isPlain(units)) return view;
  const { fromLog } = view;
  return {
    ...view,
    plan: planIn(view.plan, units),
    ...(fromLog === undefined ? {} : { fromLog: fromLogIn(fromLog, units) }),
  };
}

/** A plan with every sentence in the reader's units. */
export function planIn(plan: Plan, units: ShownUnits): Plan {
  if (isPlain(units)) return plan;
  return {
    ...plan,
    waiting: textIn(plan.waiting, units),
    standing: standingPlanIn(plan.standing, units),
    cautions: plan.cautions.map((caution) => sentenceIn(caution, units)),
    entries: plan.entries.map((entry) => entryIn(entry, units)),
    jobs: plan.jobs.map((job) => jobIn(job, units)),
  };
}

function textIn<T extends { readonly text: string } | null>(said: T, units: ShownUnits): T {
  return said === null ? said : { ...said, text: sentenceIn(said.text, units) };
}

function standingPlanIn(standing: StandingPlan | null, units: ShownUnits): StandingPlan | null {
  if (standing === null) return null;
  return { ...textIn(standing, units), overdue: standing.overdue.map((one) => textIn(one, units)) };
}

const entryIn = (entry: PlanEntry, units: ShownUnits): PlanEntry => ({
  ...entry,
  factors: entry.factors.map((factor) => textIn(factor, units)),
});

function jobIn(job: PlannedJob, units: ShownUnits): PlannedJob {
  const miss = job.nearestMiss;
  return {
    ...job,
    why: sentenceOrNullIn(job.why, units),
    whyNotEarlier: sentenceOrNullIn(job.whyNotEarlier, units),
    standardCriterion: textIn(job.standardCriterion, units),
    sleepFirst: textIn(job.sleepFirst, units),
    fallbackPlan: textIn(job.fallbackPlan, units),
    goCheck: job.goCheck.map((line) => sentenceIn(line, units)),
    nearestMiss: miss === null ? null : { ...textIn(miss, units), wouldHelp: sentenceIn(miss.wouldHelp, units) },
    wouldBuy: job.wouldBuy.map((bought) => textIn(bought, units)),
  };
}

/** Own pace has no wind or sea in it. */
const fromLogIn = (fromLog: FromLog, units: ShownUnits): FromLog => ({
  ...fromLog,
  notes: fromLog.notes.map((note) => sentenceIn(note, units)),
  match: fromLog.match.map((line) => sentenceIn(line, units)),
});
