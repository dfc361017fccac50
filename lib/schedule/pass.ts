import type { Aim, Space } from './aim.ts';
import { Ranking } from './beam.ts';
import type { Budget } from './budget.ts';
import { UNREACHABLE } from './completion-table.ts';
import { Extender } from './extend.ts';
import { Frontier } from './frontier.ts';
import type { LabelStore } from './label-store.ts';

/** What one pass of the beam found. */
export interface PassResult {
  /** Label the best plan ends with; −1: none better than what was known. */
  readonly label: number;
  /** Least bound of everything left out: by width, by `refusesHistory`, by the end of the budget. */
  readonly lowestDropped: number;
  readonly octetCount: number;
}

/** Labels after which it is known what one costs. */
const FEW_LABELS = 20;
const LEAST_WIDTH = 5;
/** An instant may take so many times its share of the budget left: in a beam all take much the same, without one few take most. */
const EVEN_SHARE = 1.5;
const UNEVEN_SHARE = 6;

/** Goes through the instants once, keeping at most `width` labels of each, and leaves the labels in the store. */
export function runPass(
  space: Space & { readonly doneShare: Float64Array },
  aim: Aim,
  store: LabelStore,
  how: { readonly width: number; readonly budget: Budget },
): PassResult {
  const pass = new Pass(space, aim, store, how);
  return pass.run();
}

class Pass {
  private readonly space: Space;
  private readonly aim: Aim;
  private readonly store: LabelStore;
  private readonly width: number;
  private readonly budget: Budget;
  private readonly frontier: Frontier;
  private readonly extender: Extender;
  private readonly ranking: Ranking;
  private steppedCount = 0;
  private best = -1;
  private lowestDropped = UNREACHABLE;

  constructor(
    space: Space & { readonly doneShare: Float64Array },
    aim: Aim,
    store: LabelStore,
    how: { readonly width: number; readonly budget: Budget },
  ) {
    this.space = space;
    this.aim = aim;
    this.store = store;
    this.width = how.width;
    this.budget = how.budget;
    this.frontier = new Frontier(store, space.cells, aim.level === 'cost');
    this.extender = new Extender(space, aim, { store, frontier: this.frontier });
    this.ranking = new Ranking(space.model, aim, store, space.doneShare);
  }

  run(): PassResult {
    const { slotCount } = this.space.model.problem;
    this.store.clear();
    this.store.addStart(this.space.model);
    this.aim.writeLowestAtStart(this.store);
    this.step([0]);
    for (let t = 1; t <= slotCount; t++) {
      const labels = this.frontier.take(t);
      const width = Math.min(this.width, this.widthInBudget(slotCount - t));
      if (labels.length <= width) this.step(labels);
      else {
        const { kept, dropped } = this.ranking.choose(labels, width);
        this.step(kept);
        this.drop(dropped);
      }
    }
    return {
      label: this.best,
      lowestDropped: Math.min(this.lowestDropped, this.extender.lowestRefused),
      octetCount: this.store.octetCount + this.frontier.octetCount,
    };
  }

  /** Labels that can be afforded at an instant when the budget shall last to the horizon: a pass that is cut off finds nothing. */
  private widthInBudget(slotsToGo: number): number {
    const perLabel = this.steppedCount < FEW_LABELS ? 1 : this.extender.extensionCount / this.steppedCount;
    const share = (this.width === Infinity ? UNEVEN_SHARE : EVEN_SHARE) / Math.max(1, slotsToGo);
    return Math.max(LEAST_WIDTH, Math.floor((this.budget.leftCount * share) / Math.max(1, perLabel)));
  }

  private step(labels: readonly number[]): void {
    const { aim, store, extender, budget } = this;
    for (const label of labels) {
      const value = aim.valueOfEnd(store, label);
      if (value < aim.best) {
        aim.improve(value);
        this.best = label;
      }
      const lowest = aim.lowestOf(store, label);
      if (lowest >= aim.best) continue;
      if (budget.isSpent) {
        this.lowestDropped = Math.min(this.lowestDropped, lowest);
        continue;
      }
      if (store.at[label] === this.space.model.problem.slotCount || !aim.canKeepWeight(store, label)) continue;
      this.steppedCount++;
      const before = extender.extensionCount;
      extender.extend(label);
      budget.spend(extender.extensionCount - before);
    }
  }

  private drop(labels: readonly number[]): void {
    for (const label of labels) this.lowestDropped = Math.min(this.lowestDropped, this.aim.lowestOf(this.store, label));
  }
}
