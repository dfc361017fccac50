import { Budget } from './budget.ts';
import type { FoundPlan } from './found-plan.ts';
import type { LevelsResult, SearchTools } from './levels.ts';
import { searchLevels } from './levels.ts';
import type { Model } from './model.ts';
import { corridorRound, jobsByWorth, losers, nearInTime, plannedRanges, tasksByWorth } from './neighbourhood.ts';
import { item } from './typed-reads.ts';
import { isBetterWorth } from './worth.ts';

/** Tasks put into the plan at a time, or a few more: jobs are not divided, since half a job is worth nothing. */
const TASKS_AT_ONCE = 5;
/** Corridors tried one after the other: tasks free, and slots the others may move by. */
const CORRIDORS = [
  { freeCount: 4, marginSlots: 2 },
  { freeCount: 5, marginSlots: 6 },
  { freeCount: 4, marginSlots: 12 },
  { freeCount: 7, marginSlots: 4 },
  { freeCount: 3, marginSlots: 36 },
] as const;
const FILL_MARGIN_SLOTS = 6;
/** The plan is filled while so much of all scenarios is kept, then while less is: a poor start spoils what follows. */
const FILL_SHARES = [0.95, 0.8, 0.6, 0.3, 0] as const;
/** To win a lost scenario back: at most so many tasks are freed, the others move by so many slots. */
const MOST_LOSERS = 7;
const REGAIN_CORRIDORS = [{ marginSlots: 6 }, { marginSlots: 24 }] as const;
/** A corridor is searched for a while only: what it might still hide is left to the next. */
const CORRIDOR_WIDTHS = [40, 400] as const;
const CORRIDOR_EXTENSIONS = 250_000;
/** Work on tables, in cells that cost as much as an extension: so that the budget counts it too. */
const CELLS_PER_EXTENSION = 12;

export interface LargeResult {
  readonly plan: FoundPlan | null;
  readonly labelCount: number;
  readonly peakOctetCount: number;
}

/** Plans some tasks at a time, then frees a few after the other while the rest keeps near its place, until the budget ends. */
export function solveLarge(model: Model, tools: SearchTools, known: FoundPlan | null): LargeResult {
  const search = new LargeSearch(model, tools, known);
  for (const share of FILL_SHARES) search.fill(share);
  search.regain();
  search.improve();
  return search.result();
}

class LargeSearch {
  private readonly model: Model;
  private readonly tools: SearchTools;
  private plan: FoundPlan | null;
  private labelCount = 0;
  private peakOctetCount = 0;

  constructor(model: Model, tools: SearchTools, known: FoundPlan | null) {
    this.model = model;
    this.tools = tools;
    this.plan = known;
  }

  result(): LargeResult {
    return { plan: this.plan, labelCount: this.labelCount, peakOctetCount: this.peakOctetCount };
  }

  /** Puts jobs into the plan, a handful of tasks at a time, while it keeps such a share of all scenarios and the needed weight. */
  fill(leastShare: number): void {
    const { problem, scale } = this.model;
    const leastWeight = Math.max(problem.neededWeight, Math.round(scale.totalWeight * leastShare));
    const planned = plannedRanges(this.plan);
    const left = jobsByWorth(this.model).map((tasks) => tasks.filter((task) => planned.get(task)?.isFinished !== true));
    for (const free of handfuls(left)) {
      if (this.tools.budget.isSpent || (this.plan?.worth.jointWeight ?? leastWeight) < leastWeight) return;
      this.search(free, { marginSlots: FILL_MARGIN_SLOTS, leastWeight });
    }
  }

  /**
   * Frees all tasks that lose a scenario together, and so wins it back where that can be; the scenario that the fewest
   * tasks lose comes first. Ends when none can be won back, or with the budget.
   */
  regain(): void {
    for (const { marginSlots } of REGAIN_CORRIDORS)
      for (let turn = 0; this.plan !== null && !this.tools.budget.isSpent;) {
        const lost = losers(this.model, this.plan).filter((tasks) => tasks.size <= MOST_LOSERS);
        const tasks = lost[turn];
        if (tasks === undefined) break;
        turn = this.search(tasks, { marginSlots }) ? 0 : turn + 1;
      }
  }

  /** Frees the neighbours of each task in turn; ends when no corridor of any kind betters the plan, or with the budget. */
  improve(): void {
    const order = tasksByWorth(this.model);
    let idleCount = 0;
    for (let turn = 0; idleCount < order.length * CORRIDORS.length && !this.tools.budget.isSpent; turn++) {
      const corridor = item(CORRIDORS, Math.floor(turn / order.length) % CORRIDORS.length);
      const seedTask = item(order, turn % order.length);
      const free = nearInTime(this.model, this.plan, seedTask, corridor.freeCount);
      idleCount = this.search(free, corridor) ? 0 : idleCount + 1;
    }
  }

  /** Searches one corridor; true when the plan is better for it. */
  private search(
    free: ReadonlySet<number>,
    how: { readonly marginSlots: number; readonly leastWeight?: number },
  ): boolean {
    const { budget } = this.tools;
    const { problem } = this.model;
    const model = { ...this.model, problem: { ...problem, neededWeight: how.leastWeight ?? problem.neededWeight } };
    const limits = corridorRound(model, this.plan, { free, marginSlots: how.marginSlots });
    const own = new Budget({
      beamWidths: [],
      extensionBudget: CORRIDOR_EXTENSIONS,
      isCancelled: () => budget.isCancelled,
    });
    const found = searchLevels(
      model,
      limits,
      { ...this.tools, budget: own, beamWidths: CORRIDOR_WIDTHS, onlyWhole: false },
      this.plan,
    );
    budget.spend(own.spentCount + Math.ceil(found.cellCount / CELLS_PER_EXTENSION));
    this.note(found);
    if (found.plan === null || !isBetterWorth(this.model.problem, found.plan.worth, this.plan?.worth ?? null))
      return false;
    this.plan = found.plan;
    budget.tell(found.plan);
    return true;
  }

  private note(found: LevelsResult): void {
    this.labelCount += found.labelCount;
    this.peakOctetCount = Math.max(this.peakOctetCount, found.peakOctetCount);
  }
}

/** Groups put together until there are enough tasks in each; one empty handful where there are none. */
function handfuls(groups: readonly (readonly number[])[]): readonly ReadonlySet<number>[] {
  const found: Set<number>[] = [new Set()];
  for (const group of groups) {
    const last = found.at(-1);
    if (last === undefined || (last.size > 0 && last.size + group.length > TASKS_AT_ONCE)) found.push(new Set(group));
    else for (const task of group) last.add(task);
  }
  return found;
}
