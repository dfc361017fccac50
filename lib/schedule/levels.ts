import type { AimLevel } from './aim.ts';
import { Aim } from './aim.ts';
import type { Budget } from './budget.ts';
import { UNREACHABLE } from './completion-table.ts';
import type { FoundPlan } from './found-plan.ts';
import { planOfLabel } from './found-plan.ts';
import type { Model } from './model.ts';
import type { WantedWeights } from './must-tasks.ts';
import { doableJobs } from './must-tasks.ts';
import { corridorRound } from './neighbourhood.ts';
import { runPass } from './pass.ts';
import type { SearchLimits } from './space.ts';
import type { Stage, StageCare, StageRequest } from './stage.ts';
import { buildStage } from './stage.ts';
import { startableTasks } from './start-bounds.ts';
import type { Workshop } from './workshop.ts';

/** Value of the best plan of a level and a bound no plan lies below; equal: proven. */
export interface LevelBound {
  readonly best: number;
  readonly bound: number;
}

export interface LevelsResult {
  /** null: no legal plan was found. */
  readonly plan: FoundPlan | null;
  /** By level; missing: not looked at, since the level cannot differ. */
  readonly bounds: ReadonlyMap<AimLevel, LevelBound>;
  /** Some level had too many nodes or cells for tables. */
  readonly isTooLarge: boolean;
  /** Only a plan with every job was asked for, and none came up. */
  readonly isLeftOff: boolean;
  readonly labelCount: number;
  /** Cells of all tables made. */
  readonly cellCount: number;
  readonly peakOctetCount: number;
}

/** How far into the budget each level may go; the first, hopeful passes by themselves. */
const SHARE_OF_BUDGET: Readonly<Record<AimLevel, number>> = { priority: 0.4, joint: 0.65, conditional: 0.75, cost: 1 };
/** Bounds worth their while, level by level. */
const CARE: Readonly<Record<AimLevel, StageCare>> = {
  priority: 'light',
  joint: 'pairs',
  conditional: 'pairs',
  cost: 'pairs-and-sleep',
};
/** Beams tried for a plan with every job that can be started, before any is given up. */
const HOPEFUL_WIDTHS = 2;

/** Slots by which everything may move when a plan is made cheaper, one after the other while it helps. */
const POLISH_MARGINS = [0, 4, 16] as const;
const POLISH_WIDTHS = [40, 300] as const;
const SHARE_OF_POLISH = 0.75;

const OCTETS_OF_PLACE = 16;
const OCTETS_OF_CELL = 4;

/** What searches share from one to the next. */
export interface SearchTools {
  readonly workshop: Workshop;
  readonly budget: Budget;
  readonly beamWidths: readonly number[];
  /** Leaves off when the hopeful passes find no plan with every job. */
  readonly onlyWhole: boolean;
  /** A good plan is enough: no bounds made for a proof, and no search for the cheapest plan beyond the one at hand. */
  readonly isAdvice: boolean;
}

/** Searches level after level, each under what the ones before it reached, beginning with a plan that is known, if any. */
export function searchLevels(
  model: Model,
  limits: SearchLimits,
  tools: SearchTools,
  known: FoundPlan | null,
): LevelsResult {
  const search = new LevelSearch(model, limits, tools, known);
  return search.run();
}

class LevelSearch {
  private readonly model: Model;
  private readonly limits: SearchLimits;
  private readonly tools: SearchTools;
  private readonly bounds = new Map<AimLevel, LevelBound>();
  private readonly canStart: readonly boolean[];
  private plan: FoundPlan | null;
  private isTooLarge = false;
  private isLeftOff = false;
  private isLastRound = false;
  private labelCount = 0;
  private cellCount = 0;
  private peakOctetCount = 0;

  constructor(model: Model, limits: SearchLimits, tools: SearchTools, known: FoundPlan | null) {
    this.model = model;
    this.limits = limits;
    this.tools = tools;
    this.plan = known;
    this.canStart = startableTasks(model, limits.ranges);
  }

  run(): LevelsResult {
    this.searchPriority();
    if (this.plan !== null && !this.isLeftOff && !this.isTooLarge) {
      this.searchJoint(this.tools.beamWidths);
      this.searchLater();
      this.spendRest();
    }
    return {
      plan: this.plan,
      bounds: this.bounds,
      isTooLarge: this.isTooLarge,
      isLeftOff: this.isLeftOff,
      labelCount: this.labelCount,
      cellCount: this.cellCount,
      peakOctetCount: this.peakOctetCount,
    };
  }

  /**
   * First for a plan with every job that can be started: what is asked for so leaves few nodes, and is often to be had. Then
   * for any plan better than the one known.
   */
  private searchPriority(): void {
    const top = this.weightOfJobs(false);
    this.tools.budget.openTo(SHARE_OF_BUDGET.priority);
    let bound = -top;
    if (bound < this.valueOf('priority')) {
      const widths = this.tools.beamWidths.slice(0, HOPEFUL_WIDTHS);
      // Every plan of the hopeful passes has all jobs: when there is none, the best has less.
      const wanted = { priorityWeight: top, conditionalWeight: 0 };
      if (this.runWidths('priority', { widths, bound, wanted, limits: this.limits, care: 'light' }) > bound) bound++;
    }
    this.isLeftOff = this.tools.onlyWhole && this.valueOf('priority') > -top;
    // Without the jobs the hopeful passes insist on there would be more nodes, not fewer.
    if (this.isLeftOff || this.isTooLarge) this.bounds.set('priority', { best: this.valueOf('priority'), bound });
    else this.search('priority', bound);
  }

  private searchJoint(widths: readonly number[]): void {
    const { scale, problem } = this.model;
    const known = this.bounds.get('joint')?.bound ?? -Math.floor(scale.totalWeight / problem.stepWeight);
    this.search('joint', known, widths);
  }

  /** The levels after the joint one. */
  private searchLater(): void {
    if (this.model.problem.jobs.some((job) => job.conditional)) this.search('conditional', -this.weightOfJobs(true));
    this.polish();
    if (this.tools.isAdvice) this.bounds.set('cost', { best: this.valueOf('cost'), bound: -UNREACHABLE });
    else this.search('cost', -UNREACHABLE);
  }

  /** What the levels left over of the budget goes into a joint probability that is not proven yet. */
  private spendRest(): void {
    const joint = this.bounds.get('joint');
    this.isLastRound = true;
    this.tools.budget.openTo(1);
    if (joint === undefined || joint.bound >= joint.best || this.tools.isAdvice || this.tools.budget.isSpent) return;
    const before = this.plan;
    this.searchJoint(this.tools.beamWidths.slice(-1));
    if (this.plan !== before) this.searchLater();
  }

  /** Makes the plan at hand cheaper near to where it is: passes near a good plan find what passes over all do not. */
  private polish(): void {
    this.tools.budget.openTo(this.isLastRound ? 1 : SHARE_OF_POLISH);
    for (const marginSlots of POLISH_MARGINS) {
      const limits = corridorRound(this.model, this.plan, { free: new Set(), marginSlots });
      const before = this.plan;
      this.runWidths('cost', {
        widths: POLISH_WIDTHS,
        bound: -UNREACHABLE,
        wanted: null,
        limits,
        care: this.careFor('cost'),
      });
      if (this.tools.budget.isSpent || (marginSlots > 0 && this.plan === before)) return;
    }
  }

  private search(level: AimLevel, leastBound: number, widths: readonly number[] = this.tools.beamWidths): void {
    this.tools.budget.openTo(this.isLastRound ? 1 : SHARE_OF_BUDGET[level]);
    const bound = this.runWidths(level, {
      widths,
      bound: leastBound,
      wanted: null,
      limits: this.limits,
      care: this.careFor(level),
    });
    this.bounds.set(level, { best: this.valueOf(level), bound });
  }

  private careFor(level: AimLevel): StageCare {
    return this.tools.isAdvice ? 'light' : CARE[level];
  }

  /** Passes of growing width until the best plan of a level is proven or the budget spent; returns the bound. */
  private runWidths(level: AimLevel, asked: WidthsRequest): number {
    const { budget } = this.tools;
    let { bound } = asked;
    let stage: Stage | null = null;
    let before = { plan: this.plan, spentCount: 0 };
    for (let k = 0; ; k++) {
      const width = asked.widths[Math.min(k, asked.widths.length - 1)] ?? 0;
      // A complete pass that the budget cut is worth another while it finds better plans: there is less left to look at.
      if (k >= asked.widths.length && (width < Infinity || this.plan === before.plan)) break;
      if (bound >= this.valueOf(level)) break;
      // A wider pass takes more than the one before it: where that cannot be had it would be the narrower one.
      if (this.plan === before.plan && budget.leftCount < before.spentCount) break;
      const wanted = asked.wanted ?? this.wantedFor(level);
      stage = this.stageFor(level, { ...asked, wanted }, stage);
      if (stage === null) break;
      const { aim, lowest } = this.aimAt(level, stage);
      bound = Math.max(bound, Math.min(lowest, aim.best));
      if (bound >= aim.best || budget.isSpent) break;
      const [plan, fromCount] = [this.plan, budget.spentCount];
      bound = Math.max(bound, Math.min(this.pass(stage, aim, width), aim.best));
      before = { plan, spentCount: budget.spentCount - fromCount };
    }
    return bound;
  }

  /** One pass; the plan it found, if any, replaces the one known. Returns the least bound of what it left out. */
  private pass({ space }: Stage, aim: Aim, width: number): number {
    const { workshop, budget } = this.tools;
    const result = runPass(space, aim, workshop.store, { width, budget });
    if (result.label >= 0) {
      this.plan = planOfLabel(space, workshop.store, result.label);
      budget.tell(this.plan);
    }
    this.labelCount += workshop.store.count;
    const { placeCount, cellCount } = space.cells;
    const tables = placeCount * OCTETS_OF_PLACE + cellCount * OCTETS_OF_CELL;
    this.peakOctetCount = Math.max(this.peakOctetCount, result.octetCount + tables);
    return result.lowestDropped;
  }

  /** What the level looks for, with the bound of everything that begins at the start. */
  private aimAt(
    level: AimLevel,
    { space, bounds, must, leastWeight }: Stage,
  ): { readonly aim: Aim; readonly lowest: number } {
    const { store } = this.tools.workshop;
    const aim = new Aim(space, { level, best: this.valueOf(level), leastWeight, must }, bounds);
    if (space.nodes.nodeCount === 0) return { aim, lowest: UNREACHABLE };
    store.clear();
    store.addStart(this.model);
    aim.writeLowestAtStart(store);
    return { aim, lowest: aim.lowestOf(store, 0) };
  }

  /** Nodes, cells and bounds of a level; made anew only when what is asked for has changed. */
  private stageFor(
    level: AimLevel,
    { wanted, care, limits }: Pick<StageRequest, 'wanted' | 'care' | 'limits'>,
    before: Stage | null,
  ): Stage | null {
    const leastWeight = this.leastWeightFor(level);
    const isSame =
      before !== null &&
      before.leastWeight === leastWeight &&
      before.wanted.priorityWeight === wanted.priorityWeight &&
      before.wanted.conditionalWeight === wanted.conditionalWeight;
    if (isSame) return before;
    const { canStart, model } = this;
    const stage = buildStage(model, this.tools.workshop, { level, leastWeight, wanted, care, limits, canStart });
    if (stage === null) this.isTooLarge = true;
    else this.cellCount += stage.space.cells.cellCount;
    return stage;
  }

  /** More than the plan at hand has on the level looked at, and as much on those before it. */
  private wantedFor(level: AimLevel): WantedWeights {
    const { priorityWeight, conditionalWeight } = this.plan?.worth ?? { priorityWeight: -1, conditionalWeight: 0 };
    if (level === 'priority') return { priorityWeight: priorityWeight + 1, conditionalWeight: 0 };
    if (level === 'joint') return { priorityWeight, conditionalWeight: 0 };
    return { priorityWeight, conditionalWeight: conditionalWeight + (level === 'conditional' ? 1 : 0) };
  }

  private leastWeightFor(level: AimLevel): number {
    const { problem, scale } = this.model;
    const { stepWeight } = problem;
    // More than there is to keep: then nothing may be done, but a plan that does nothing is a plan.
    const neededWeight = Math.min(problem.neededWeight, scale.totalWeight);
    if (level === 'priority' || this.plan === null) return neededWeight;
    const steps = this.stepsReached() + (level === 'joint' ? 1 : 0);
    return Math.max(neededWeight, steps * stepWeight);
  }

  private weightOfJobs(conditional: boolean): number {
    return doableJobs(this.model.problem, this.canStart)
      .filter((job) => job.conditional === conditional)
      .reduce((sum, job) => sum + job.priorityWeight, 0);
  }

  private stepsReached(): number {
    return Math.floor((this.plan?.worth.jointWeight ?? 0) / this.model.problem.stepWeight);
  }

  /** What the plan at hand is worth on a level; without one, worse than any plan. */
  private valueOf(level: AimLevel): number {
    if (this.plan === null) return 1;
    const { worth } = this.plan;
    if (level === 'priority') return -worth.priorityWeight;
    if (level === 'joint') return -this.stepsReached();
    return level === 'conditional' ? -worth.conditionalWeight : worth.costPoints;
  }
}

interface WidthsRequest {
  readonly widths: readonly number[];
  readonly bound: number;
  /** null: more than the plan at hand has. */
  readonly wanted: WantedWeights | null;
  readonly limits: SearchLimits;
  readonly care: StageCare;
}
