import type { AimLevel } from './aim.ts';
import { Aim } from './aim.ts';
import type { Budget } from './budget.ts';
import { fillCompletionTable, UNREACHABLE } from './completion-table.ts';
import type { FoundPlan } from './found-plan.ts';
import { planOfLabel } from './found-plan.ts';
import type { LabelStore } from './label-store.ts';
import { findMustTasksOfNodes } from './must-tasks.ts';
import type { OpenStarts } from './open-starts.ts';
import { runPass } from './pass.ts';
import type { SearchSpace } from './space.ts';
import { findTightStarts } from './tighten.ts';
import { i32 } from './typed-reads.ts';
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
  readonly labelCount: number;
  readonly peakOctetCount: number;
}

/** How far into the budget each level may go. */
const SHARE_OF_BUDGET: Readonly<Record<AimLevel, number>> = { priority: 0.4, joint: 0.65, conditional: 0.75, cost: 1 };

const OCTETS_OF_PLACE = 8;
const OCTETS_OF_CELL = 4;

/** What searches share from one to the next. */
export interface SearchTools {
  readonly workshop: Workshop;
  readonly budget: Budget;
  readonly beamWidths: readonly number[];
}

/** Searches level after level, each under what the ones before it reached, beginning with a plan that is known, if any. */
export function searchLevels(space: SearchSpace, tools: SearchTools, known: FoundPlan | null): LevelsResult {
  const search = new LevelSearch(space, tools, known);
  return search.run();
}

class LevelSearch {
  private readonly space: SearchSpace;
  private readonly store: LabelStore;
  private readonly budget: Budget;
  private readonly beamWidths: readonly number[];
  private readonly table: Int32Array;
  private readonly bounds = new Map<AimLevel, LevelBound>();
  private plan: FoundPlan | null;
  private labelCount = 0;
  private peakOctetCount = 0;

  constructor(space: SearchSpace, tools: SearchTools, known: FoundPlan | null) {
    this.space = space;
    this.store = tools.workshop.store;
    this.budget = tools.budget;
    this.beamWidths = tools.beamWidths;
    this.table = tools.workshop.table(space.cells.cellCount);
    this.plan = known;
  }

  run(): LevelsResult {
    const { jobs } = this.space.model.problem;
    this.search('priority');
    if (this.plan !== null) {
      this.search('joint');
      if (jobs.some((job) => job.conditional)) this.search('conditional');
      this.search('cost');
    }
    return {
      plan: this.plan,
      bounds: this.bounds,
      labelCount: this.labelCount,
      peakOctetCount: this.peakOctetCount,
    };
  }

  private search(level: AimLevel): void {
    this.budget.openTo(SHARE_OF_BUDGET[level]);
    let bound = this.firstBound(level);
    if (bound >= this.valueOf(level)) {
      this.bounds.set(level, { best: this.valueOf(level), bound });
      return;
    }
    let starts: LevelStarts | null = null;
    for (const width of this.beamWidths) {
      starts = this.startsFor(level, starts);
      const aim = this.aimAt(level, starts);
      const root = this.lowestAtStart(aim);
      bound = Math.max(bound, Math.min(root, aim.best));
      if (bound >= aim.best) break;
      if (this.budget.isSpent) break;
      const dropped = this.pass(aim, width);
      bound = Math.max(bound, Math.min(dropped, aim.best));
      if (bound >= aim.best) break;
    }
    this.bounds.set(level, { best: this.valueOf(level), bound });
  }

  /** What no plan of a level betters, without any table: everything done, or what each task keeps by itself. */
  private firstBound(level: AimLevel): number {
    const { model, masks } = this.space;
    if (level === 'cost') return -UNREACHABLE;
    if (level === 'joint') {
      const must = this.mustFor(level).flatMap((isMust, task) => (isMust ? (masks.bestWeight(task, 0) ?? []) : []));
      return -Math.floor(Math.min(model.scale.totalWeight, ...must) / model.problem.stepWeight);
    }
    const jobs = model.problem.jobs.filter((job) => job.conditional === (level === 'conditional'));
    return -jobs.reduce((sum, job) => sum + job.priorityWeight, 0);
  }

  /** One pass; the plan it found, if any, replaces the one known. Returns the least bound of what it left out. */
  private pass(aim: Aim, width: number): number {
    const { space, store, budget } = this;
    const result = runPass(space, aim, store, { width, budget });
    if (result.label >= 0) this.plan = planOfLabel(space, store, result.label);
    this.labelCount += store.count;
    const { placeCount, cellCount } = space.cells;
    const tables = placeCount * OCTETS_OF_PLACE + cellCount * OCTETS_OF_CELL;
    this.peakOctetCount = Math.max(this.peakOctetCount, result.octetCount + tables);
    return result.lowestDropped;
  }

  private lowestAtStart(aim: Aim): number {
    this.store.clear();
    this.store.addStart(this.space.model);
    return aim.lowestOf(this.store, 0);
  }

  private aimAt(level: AimLevel, starts: LevelStarts): Aim {
    const asked = { level, best: this.valueOf(level), leastWeight: starts.leastWeight, must: this.mustFor(level) };
    return new Aim(this.space, asked, { open: starts.open, table: this.table, endValue: starts.endValue });
  }

  /** Open starts and completion table of a level; made anew only when the weight asked for has changed. */
  private startsFor(level: AimLevel, before: LevelStarts | null): LevelStarts {
    const { space } = this;
    const leastWeight = this.leastWeightFor(level);
    if (before !== null && before.leastWeight === leastWeight) return before;
    const open = findTightStarts(space.model, leastWeight, { ranges: space.limits.ranges, must: this.mustFor(level) });
    const endValue = this.endValues(level);
    fillCompletionTable(space, { open, endValue, countsCost: level === 'cost' }, this.table);
    return { leastWeight, open, endValue };
  }

  private leastWeightFor(level: AimLevel): number {
    const { problem, scale } = this.space.model;
    const { stepWeight } = problem;
    // More than there is to keep: then nothing may be done, but a plan that does nothing is a plan.
    const neededWeight = Math.min(problem.neededWeight, scale.totalWeight);
    if (level === 'priority' || this.plan === null) return neededWeight;
    const steps = this.stepsReached() + (level === 'joint' ? 1 : 0);
    return Math.max(neededWeight, steps * stepWeight);
  }

  private stepsReached(): number {
    return Math.floor((this.plan?.worth.jointWeight ?? 0) / this.space.model.problem.stepWeight);
  }

  /** Value of ending at each node, before its cost. */
  private endValues(level: AimLevel): Int32Array {
    const { nodes } = this.space;
    const { priorityWeight = 0, conditionalWeight = 0 } = this.plan?.worth ?? {};
    return Int32Array.from({ length: nodes.nodeCount }, (_, node) => {
      if (level === 'priority') return -i32(nodes.priorityDone, node);
      if (i32(nodes.priorityDone, node) < priorityWeight) return UNREACHABLE;
      if (level === 'conditional') return -i32(nodes.conditionalDone, node);
      return level === 'joint' || i32(nodes.conditionalDone, node) >= conditionalWeight ? 0 : UNREACHABLE;
    });
  }

  private mustFor(level: AimLevel): readonly boolean[] {
    const { priorityWeight, conditionalWeight } = this.plan?.worth ?? { priorityWeight: -1, conditionalWeight: 0 };
    const { nodes, cells, limits } = this.space;
    const must = findMustTasksOfNodes(nodes, cells.isReached, {
      priorityWeight: priorityWeight + (level === 'priority' ? 1 : 0),
      conditionalWeight: level === 'cost' ? conditionalWeight : level === 'conditional' ? conditionalWeight + 1 : 0,
    });
    return must.map((isMust, task) => isMust || limits.must[task] === true);
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

interface LevelStarts {
  readonly leastWeight: number;
  readonly open: OpenStarts;
  readonly endValue: Int32Array;
}
