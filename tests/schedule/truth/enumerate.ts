/**
 * The best worth a plan can have, by trying every decision at every instant: no dominance, no bounds, nothing of the engine
 * but the types. For problems of a few tasks and a dozen slots.
 */
import type {
  Choice,
  RestModel,
  ScheduleProblem,
  ScheduleWorth,
  SlotSleep,
  WaitSlots,
  WorkSpan,
} from '../../../lib/schedule/index.ts';

export interface Enumerated {
  /** `jointWeight` is in whole steps times the step; null: no plan may end anywhere. */
  readonly worth: ScheduleWorth | null;
  readonly nodeCount: number;
}

/** Everything a decision changes. */
interface Moment {
  readonly t: number;
  readonly config: number;
  readonly lag: number;
  readonly costPoints: number;
  readonly mask: readonly number[];
  readonly weight: number;
  readonly priorityWeight: number;
  readonly conditionalWeight: number;
  readonly s: number;
  readonly wokeSlot: number;
  readonly clearSlots: readonly number[];
  readonly sleeps: readonly SlotSleep[];
}

/** Scenarios left, and what they weigh. */
type Left = Pick<Moment, 'mask' | 'weight'>;
type Gained = Pick<Moment, 'priorityWeight' | 'conditionalWeight'>;

export function enumerateSchedule(problem: ScheduleProblem): Enumerated {
  return new Enumeration(problem).run();
}

const at = (values: ArrayLike<number>, index: number): number => {
  const value = values[index];
  if (value === undefined) throw new Error(`no entry ${index}`);
  return value;
};

/** Positive: the first is worth more. */
export function compareWorth(a: ScheduleWorth, b: ScheduleWorth, stepWeight: number): number {
  const steps = (worth: ScheduleWorth): number => Math.floor(worth.jointWeight / stepWeight);
  return (
    a.priorityWeight - b.priorityWeight ||
    steps(a) - steps(b) ||
    a.conditionalWeight - b.conditionalWeight ||
    b.costPoints - a.costPoints
  );
}

class Enumeration {
  private readonly problem: ScheduleProblem;
  private readonly unitsLeft: number[];
  private readonly finishedAt: number[];
  /** End of the last session that left units over. */
  private readonly sessionEndedAt: number[];
  private readonly conditionalOfTask: boolean[];
  private best: ScheduleWorth | null = null;
  private nodeCount = 0;

  constructor(problem: ScheduleProblem) {
    this.problem = problem;
    this.unitsLeft = problem.tasks.map(({ unitCount }) => unitCount);
    this.finishedAt = problem.tasks.map(() => -1);
    this.sessionEndedAt = problem.tasks.map(() => -1);
    this.conditionalOfTask = problem.tasks.map((_, task) =>
      problem.jobs.some((job) => job.conditional && job.tasks.includes(task)),
    );
  }

  run(): Enumerated {
    const { weights, configs, rest } = this.problem;
    const words = Array.from({ length: Math.ceil(weights.length / 32) }, () => 0);
    for (let w = 0; w < weights.length; w++) words[w >> 5] = at(words, w >> 5) | (1 << (w & 31));
    this.visit({
      t: 0,
      config: configs.start,
      lag: 0,
      costPoints: 0,
      mask: words,
      weight: this.weigh(words),
      priorityWeight: 0,
      conditionalWeight: 0,
      s: rest?.startS ?? 0,
      wokeSlot: rest?.startWokeSlot ?? 0,
      clearSlots: rest === null ? [] : [...rest.startClearSlots],
      sleeps: [],
    });
    return { worth: this.best, nodeCount: this.nodeCount };
  }

  private visit(now: Moment): void {
    this.nodeCount++;
    this.tryEnd(now);
    if (now.t >= this.problem.slotCount) return;
    this.tryWait(now);
    if (this.problem.rest !== null) this.trySleeps(now, this.problem.rest);
    for (const [task, { choices }] of this.problem.tasks.entries()) {
      if (!this.mayStart(task, now.t)) continue;
      for (const choice of choices) this.tryWork(now, task, choice);
    }
  }

  private tryEnd(now: Moment): void {
    const { rest, endCostPoints, slotCount, stepWeight, neededWeight } = this.problem;
    if ((rest !== null && now.s < rest.leastEndS) || now.weight < neededWeight) return;
    const endCost = endCostPoints === null ? 0 : at(endCostPoints, now.config * (slotCount + 1) + now.t);
    const worth = {
      priorityWeight: now.priorityWeight,
      jointWeight: Math.floor(now.weight / stepWeight) * stepWeight,
      conditionalWeight: now.conditionalWeight,
      costPoints: now.costPoints + endCost,
    };
    if (this.best === null || compareWorth(worth, this.best, stepWeight) > 0) this.best = worth;
  }

  private tryWait(now: Moment): void {
    const later = this.drift(now, now.t + 1);
    const s = this.problem.rest?.awakeS(now.s, 1) ?? now.s;
    this.visit({ ...later, s, config: at(this.problem.configs.afterWait, now.config) });
  }

  private trySleeps(now: Moment, rest: RestModel): void {
    const { slotCount, configs } = this.problem;
    for (const [index, slots] of rest.sleepSlots.entries()) {
      const wokeSlot = now.t + slots;
      const endSlot = wokeSlot + rest.lookoutSlots;
      if (endSlot > slotCount) continue;
      let allowed = true;
      let costPoints = 0;
      for (let t = now.t; t < wokeSlot; t++) {
        if (at(rest.sleepAllowed, t) === 0) allowed = false;
        costPoints += at(rest.sleepCostPoints, t);
      }
      if (!allowed) continue;
      const later = this.drift(now, endSlot);
      this.visit({
        ...later,
        costPoints: later.costPoints + costPoints,
        config: at(configs.afterWait, now.config),
        s: rest.awakeS(rest.asleepS(now.s, slots), rest.lookoutSlots),
        wokeSlot,
        clearSlots: rest.inertiaSlots.map((row) => wokeSlot + at(row, index * (slotCount + 1) + wokeSlot)),
        sleeps: [...now.sleeps, { fromSlot: now.t, toSlot: wokeSlot }],
      });
    }
  }

  private mayStart(task: number, t: number): boolean {
    if (this.unitsLeft[task] === 0) return false;
    const { after = [], restSlots = 0 } = this.problem.tasks[task] ?? {};
    const sessionEnded = at(this.sessionEndedAt, task);
    if (sessionEnded >= 0 && t < sessionEnded + restSlots) return false;
    if (this.isToolHeld(task, t)) return false;
    return after.every(({ task: earlier, waitSlots }) => {
      const finished = at(this.finishedAt, earlier);
      return finished >= 0 && t >= finished + waitAt(waitSlots, finished);
    });
  }

  private isToolHeld(task: number, t: number): boolean {
    return this.problem.tasks.some(({ holds = [] }, holder) => {
      const finished = at(this.finishedAt, holder);
      return finished >= 0 && holds.some((held) => held.task === task && t < finished + waitAt(held.slots, finished));
    });
  }

  private tryWork(now: Moment, task: number, choice: Choice): void {
    const left = at(this.unitsLeft, task);
    const changeSlots = at(choice.changeSlots, now.config);
    const beginSlot = now.t + changeSlots;
    if (choice.unitCount > left || (choice.onlyToFinish && choice.unitCount !== left)) return;
    if (changeSlots < 0 || beginSlot >= this.problem.slotCount) return;
    const begun = this.drift(now, beginSlot);
    const cell = at(this.problem.rowOfLag, begun.lag) * this.problem.slotCount + beginSlot;
    const duration = at(choice.table.durationSlots, cell);
    const endSlot = beginSlot + duration;
    if (duration === 0 || endSlot > this.problem.slotCount) return;
    const s = this.sAfterWork(now, choice, beginSlot, endSlot);
    const mask = this.maskAfter(begun, choice, cell, this.conditionalOfTask[task] ?? false);
    if (s === null || mask === null) return;
    const worked = { ...this.worked(begun, choice, cell, endSlot), ...mask, s };
    this.unitsLeft[task] = left - choice.unitCount;
    if (choice.unitCount === left) this.finish(worked, task, choice);
    else this.leave(worked, task);
    this.unitsLeft[task] = left;
  }

  /** Lag, cost, config and instant after work that leaves units of the task. */
  private worked(begun: Moment, choice: Choice, cell: number, endSlot: number): Moment {
    const lost = at(choice.table.lossQuanta, cell);
    const points = lost * this.problem.costPerQuantum + at(choice.table.costPoints, cell);
    return {
      ...begun,
      lag: this.lagAfter(begun, lost),
      t: endSlot,
      costPoints: begun.costPoints + points,
      config: choice.configAfter,
    };
  }

  /** Goes on after a session that leaves units over. */
  private leave(worked: Moment, task: number): void {
    const before = at(this.sessionEndedAt, task);
    this.sessionEndedAt[task] = worked.t;
    this.visit(worked);
    this.sessionEndedAt[task] = before;
  }

  private finish(worked: Moment, task: number, choice: Choice): void {
    const gained = this.gainedBy(task);
    this.finishedAt[task] = worked.t;
    this.visit({
      ...worked,
      costPoints: worked.costPoints + (this.problem.tasks[task]?.finishCostPoints?.[worked.t] ?? 0),
      config: choice.configFinished,
      priorityWeight: worked.priorityWeight + gained.priorityWeight,
      conditionalWeight: worked.conditionalWeight + gained.conditionalWeight,
    });
    this.finishedAt[task] = -1;
  }

  /** S when the work is over; null when the worker may not do it. */
  private sAfterWork(now: Moment, choice: Choice, beginSlot: number, endSlot: number): number | null {
    const { rest } = this.problem;
    if (rest === null) return now.s;
    const s = rest.awakeS(now.s, endSlot - now.t);
    const { gate } = choice;
    if (gate === null) return this.refuses(rest, choice, { beginSlot, endSlot }, now) ? null : s;
    const sAtBegin = beginSlot === now.t ? now.s : rest.awakeS(now.s, beginSlot - now.t);
    const isAlert =
      sAtBegin + at(rest.rhythmPoints, beginSlot) >= gate.leastStartPoints &&
      s + at(rest.rhythmPoints, endSlot) >= gate.leastEndPoints;
    const isFresh = endSlot - now.wokeSlot <= gate.longestAwakeSlots;
    const isClear = gate.inertiaClass < 0 || beginSlot >= at(now.clearSlots, gate.inertiaClass);
    return isAlert && isFresh && isClear && !this.refuses(rest, choice, { beginSlot, endSlot }, now) ? s : null;
  }

  private refuses(rest: RestModel, choice: Choice, work: WorkSpan, { sleeps }: Moment): boolean {
    return rest.refusesHistory?.(choice, work, sleeps) ?? false;
  }

  /** Scenarios left; null when they weigh too little. A conditional job needs its own and takes none away. */
  private maskAfter(now: Moment, choice: Choice, cell: number, conditional: boolean): Left | null {
    const own = choice.table.masks.map((word) => at(word, cell));
    const mask = conditional ? own : now.mask.map((word, i) => word & at(own, i));
    const weight = this.weigh(mask);
    if (weight < this.problem.neededWeight) return null;
    return conditional ? { mask: now.mask, weight: now.weight } : { mask, weight };
  }

  /** Weights of the jobs that a task, now finished, completes. */
  private gainedBy(task: number): Gained {
    let [priorityWeight, conditionalWeight] = [0, 0];
    for (const job of this.problem.jobs) {
      if (!job.tasks.includes(task) || job.tasks.some((other) => this.unitsLeft[other] !== 0)) continue;
      if (job.conditional) conditionalWeight += job.priorityWeight;
      else priorityWeight += job.priorityWeight;
    }
    return { priorityWeight, conditionalWeight };
  }

  private weigh(mask: readonly number[]): number {
    const { weights } = this.problem;
    let sum = 0;
    for (let w = 0; w < weights.length; w++) if ((at(mask, w >> 5) >>> (w & 31)) & 1) sum += at(weights, w);
    return sum;
  }

  /** Waiting, asleep or changing in the present config until an instant. */
  private drift(now: Moment, toSlot: number): Moment {
    const { configs, slotCount, costPerQuantum } = this.problem;
    const row = now.config * (slotCount + 1);
    const lost = at(configs.waitQuanta, row + toSlot) - at(configs.waitQuanta, row + now.t);
    const lag = this.lagAfter(now, lost);
    return { ...now, lag, t: toSlot, costPoints: now.costPoints + lost * costPerQuantum };
  }

  private lagAfter(now: Moment, quanta: number): number {
    return Math.min(this.problem.lagCount - 1, Math.max(0, now.lag + quanta));
  }
}

/** Slots of a wait that begins at an instant. */
const waitAt = (wait: WaitSlots, slot: number): number =>
  typeof wait === 'number' ? wait : at(wait, Math.min(slot, wait.length - 1));
