import type { AimLevel } from './aim.ts';
import { Budget } from './budget.ts';
import type { FoundPlan } from './found-plan.ts';
import type { LevelBound, LevelsResult, SearchTools } from './levels.ts';
import { searchLevels } from './levels.ts';
import type { Model } from './model.ts';
import { buildModel } from './model.ts';
import { findOpenStarts } from './open-starts.ts';
import type { ScheduleProblem } from './problem.ts';
import type { ScheduleSettings } from './settings.ts';
import { DEFAULT_SCHEDULE_SETTINGS } from './settings.ts';
import { simulateSchedule } from './simulate.ts';
import type { ScheduleSolution, ScheduleWorth } from './solution.ts';
import { solveLarge } from './solve-large.ts';
import { boundByStarts } from './start-bounds.ts';
import { Workshop } from './workshop.ts';
import { jointSteps } from './worth.ts';

/** Worth of no plan at all. */
const NOTHING: ScheduleWorth = { priorityWeight: 0, jointWeight: 0, conditionalWeight: 0, costPoints: 0 };

/**
 * The best plan, level by level, with a bound for each level; exact unless the budget ends first or the problem is too
 * large for tables (then piece by piece, with a weaker bound). Refuses nothing: a problem without any legal plan has the
 * empty one.
 *
 * @see sources.IRNICH_DESAULNIERS_2005 (dominance of partial plans), sources.KUROIWA_BECK_2023 (complete anytime beam search)
 */
export function solveSchedule(
  problem: ScheduleProblem,
  settings: ScheduleSettings = DEFAULT_SCHEDULE_SETTINGS,
): ScheduleSolution {
  const model = buildModel(problem);
  const budget = new Budget(settings);
  budget.report();
  const known = knownPlan(problem, settings);
  const { beamWidths, onlyWhole = false, isAdvice = false } = settings;
  const tools = { workshop: new Workshop(model), budget, beamWidths, onlyWhole, isAdvice };
  const whole = searchLevels(model, { ranges: null, must: problem.tasks.map(() => false) }, tools, known);
  const found = whole.isTooLarge ? inPieces(model, tools, whole.plan) : whole;
  return toSolution(model, found, budget.spentCount);
}

/** A problem too large for tables; its bounds look at each task by itself. */
function inPieces(model: Model, tools: SearchTools, known: FoundPlan | null): LevelsResult {
  const { plan, labelCount, peakOctetCount } = solveLarge(model, tools, known);
  const { worth } = plan ?? { worth: NOTHING };
  const bound = boundByStarts(model, findOpenStarts(model, model.problem.neededWeight, null), worth);
  const bounds = new Map<AimLevel, LevelBound>([
    ['priority', { best: plan === null ? 1 : -worth.priorityWeight, bound: -bound.priorityWeight }],
    [
      'joint',
      { best: -jointSteps(model.problem, worth.jointWeight), bound: -jointSteps(model.problem, bound.jointWeight) },
    ],
    ['cost', { best: worth.costPoints, bound: bound.costPoints }],
  ]);
  if (model.problem.jobs.some((job) => job.conditional))
    bounds.set('conditional', { best: -worth.conditionalWeight, bound: -bound.conditionalWeight });
  return { plan, bounds, isTooLarge: true, isLeftOff: false, labelCount, cellCount: 0, peakOctetCount };
}

/** The plan the settings bring along, when it keeps every rule. */
function knownPlan(problem: ScheduleProblem, { incumbent }: ScheduleSettings): FoundPlan | null {
  if (incumbent === undefined) return null;
  const run = simulateSchedule(problem, incumbent);
  const isGood = run.ok && run.worth.jointWeight >= problem.neededWeight;
  return isGood ? { entries: incumbent, worth: run.worth, mask: run.mask } : null;
}

function toSolution(model: Model, found: LevelsResult, extensionCount: number): ScheduleSolution {
  const { plan, bounds } = found;
  const worth = plan?.worth ?? NOTHING;
  const isProven = (level: AimLevel): boolean => isEqual(bounds.get(level));
  const hasPlan = plan !== null;
  return {
    entries: plan?.entries ?? [],
    worth,
    bound: boundOf(model, worth, bounds),
    proven: isProven('priority') && (!hasPlan || (isProven('joint') && isProven('cost') && conditionalProven(bounds))),
    provenProbability: isProven('priority') && (!hasPlan || isProven('joint')),
    isLeftOff: found.isLeftOff,
    mask: plan?.mask ?? model.scale.fullMask(model.problem.weights.length),
    labelCount: found.labelCount,
    extensionCount,
    peakOctetCount: found.peakOctetCount,
  };
}

const isEqual = (level: LevelBound | undefined): boolean => level !== undefined && level.bound >= level.best;

const conditionalProven = (bounds: LevelsResult['bounds']): boolean =>
  !bounds.has('conditional') || isEqual(bounds.get('conditional'));

/** Bounds in the units of the worth; a joint weight within the step reached is as good as another. */
function boundOf({ scale, problem }: Model, worth: ScheduleWorth, bounds: LevelsResult['bounds']): ScheduleWorth {
  const joint = bounds.get('joint');
  const steps = joint === undefined ? Infinity : -joint.bound;
  const jointWeight = isEqual(joint) ? worth.jointWeight : (steps + 1) * problem.stepWeight - 1;
  const conditional = bounds.get('conditional');
  return {
    priorityWeight: Math.max(0, -(bounds.get('priority')?.bound ?? 0)),
    jointWeight: Math.min(scale.totalWeight, jointWeight),
    conditionalWeight: conditional === undefined ? worth.conditionalWeight : Math.max(0, -conditional.bound),
    costPoints: bounds.get('cost')?.bound ?? worth.costPoints,
  };
}
