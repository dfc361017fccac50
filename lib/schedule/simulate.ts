/** Carries out a given plan from the raw tables, without any of the search: what it is worth, or the rule it breaks. */
import type { Choice, ScheduleProblem, SlotSleep, Task } from './problem.ts';
import { isWaitOver, waitSlotsAt } from './wait-slots.ts';
import type { ScheduleEntry, ScheduleWorth, SleepEntry, WorkEntry } from './solution.ts';

/** Rules a plan may break, by the entry that breaks them first. */
export type ScheduleRule =
  | 'overlap'
  | 'horizon'
  | 'precedence'
  | 'config'
  | 'refused'
  | 'weather'
  | 'awake'
  | 'inertia'
  | 'alertness'
  | 'history'
  | 'sleep-not-allowed'
  | 'end-reserve';

export type SimulatedSchedule =
  | {
      readonly ok: true;
      readonly worth: ScheduleWorth;
      /** Scenarios in which all unconditional work holds. */
      readonly mask: Int32Array;
      /** At the instant the plan ends. */
      readonly lagAtEnd: number;
      readonly sAtEnd: number;
    }
  | { readonly ok: false; readonly at: number; readonly rule: ScheduleRule };

/**
 * Carries out entries in the order given; time between them is waiting, slot by slot.
 *
 * The plan ends at the instant, from its last entry on, at which S is enough and the cost least (the first of equals).
 * `at` is the index of the entry that breaks a rule; the number of entries for the reserve at the end.
 */
export function simulateSchedule(problem: ScheduleProblem, entries: readonly ScheduleEntry[]): SimulatedSchedule {
  const state = new Simulation(problem);
  for (const [at, entry] of entries.entries()) {
    const rule = state.doEntry(entry);
    if (rule !== null) return { ok: false, at, rule };
  }
  return state.end() ?? { ok: false, at: entries.length, rule: 'end-reserve' };
}

class Simulation {
  private readonly problem: ScheduleProblem;
  private t = 0;
  private config: number;
  private lag = 0;
  private cost = 0;
  private s: number;
  private woke: number;
  private readonly clear: number[];
  private readonly left: number[];
  private readonly finishedAt: number[];
  /** Earliest start of each task, as far as tools held and rests between its sessions say. */
  private readonly heldUntil: number[];
  private readonly sleeps: SlotSleep[] = [];
  private readonly mask: Int32Array;

  constructor(problem: ScheduleProblem) {
    this.problem = problem;
    this.config = problem.configs.start;
    this.s = problem.rest?.startS ?? 0;
    this.woke = problem.rest?.startWokeSlot ?? 0;
    this.clear = [...(problem.rest?.startClearSlots ?? [])];
    this.left = problem.tasks.map((task) => task.unitCount);
    this.finishedAt = problem.tasks.map(() => 0);
    this.heldUntil = problem.tasks.map(() => 0);
    this.mask = new Int32Array(Math.max(1, Math.ceil(problem.weights.length / 32)));
    problem.weights.forEach((_, w) => (this.mask[w >> 5] = (this.mask[w >> 5] ?? 0) | (1 << (w & 31))));
  }

  doEntry(entry: ScheduleEntry): ScheduleRule | null {
    if (entry.startSlot < this.t) return 'overlap';
    if (entry.endSlot > this.problem.slotCount) return 'horizon';
    while (this.t < entry.startSlot) this.waitOneSlot();
    return entry.kind === 'sleep' ? this.doSleep(entry) : this.doWork(entry);
  }

  private waitOneSlot(): void {
    this.fallBehind(this.quantaBetween(this.t, this.t + 1));
    this.s = this.problem.rest?.awakeS(this.s, 1) ?? this.s;
    this.config = this.problem.configs.afterWait[this.config] ?? this.config;
    this.t += 1;
  }

  private doSleep(sleep: SleepEntry): ScheduleRule | null {
    const { rest, slotCount } = this.problem;
    if (rest === null) return 'refused';
    const length = rest.sleepSlots.indexOf(sleep.wokeSlot - sleep.startSlot);
    if (length < 0 || sleep.endSlot !== sleep.wokeSlot + rest.lookoutSlots) return 'refused';
    for (let t = sleep.startSlot; t < sleep.wokeSlot; t++) {
      if (rest.sleepAllowed[t] !== 1) return 'sleep-not-allowed';
      this.cost += rest.sleepCostPoints[t] ?? 0;
    }
    this.fallBehind(this.quantaBetween(sleep.startSlot, sleep.endSlot));
    this.s = rest.awakeS(rest.asleepS(this.s, sleep.wokeSlot - sleep.startSlot), rest.lookoutSlots);
    this.woke = sleep.wokeSlot;
    rest.inertiaSlots.forEach((slots, inertiaClass) => {
      this.clear[inertiaClass] = this.woke + (slots[length * (slotCount + 1) + this.woke] ?? 0);
    });
    this.sleeps.push({ fromSlot: sleep.startSlot, toSlot: sleep.wokeSlot });
    this.config = this.problem.configs.afterWait[this.config] ?? this.config;
    this.t = sleep.endSlot;
    return null;
  }

  private doWork(work: WorkEntry): ScheduleRule | null {
    const task = this.problem.tasks[work.task];
    const choice = task?.choices[work.choice];
    if (task === undefined || choice === undefined) return 'refused';
    if (!this.isReady(task, work)) return 'precedence';
    if (!this.fitsUnits(choice, work)) return 'refused';
    const changeSlots = choice.changeSlots[this.config] ?? -1;
    if (changeSlots < 0 || work.beginSlot !== work.startSlot + changeSlots) return 'config';
    this.fallBehind(this.quantaBetween(work.startSlot, work.beginSlot));
    const row = (this.problem.rowOfLag[this.lag] ?? 0) * this.problem.slotCount + work.beginSlot;
    if (work.lag !== this.lag || !this.lastsSo(choice, work, row)) return 'refused';
    return this.checkWorker(choice, work) ?? this.meetWeather(choice, work, row) ?? this.finishWork(choice, work, row);
  }

  private isReady({ after }: Task, { task: own, startSlot }: WorkEntry): boolean {
    if (startSlot < (this.heldUntil[own] ?? 0)) return false;
    return after.every(
      ({ task, waitSlots }) =>
        this.left[task] === 0 && isWaitOver(waitSlots, { fromSlot: this.finishedAt[task] ?? 0, atSlot: startSlot }),
    );
  }

  private lastsSo({ table }: Choice, { beginSlot, endSlot }: WorkEntry, row: number): boolean {
    const duration = table.durationSlots[row] ?? 0;
    return duration > 0 && endSlot === beginSlot + duration;
  }

  private fitsUnits(choice: Choice, work: WorkEntry): boolean {
    const unitsLeft = (this.left[work.task] ?? 0) - choice.unitCount;
    return unitsLeft >= 0 && !(choice.onlyToFinish && unitsLeft > 0) && work.finishes === (unitsLeft === 0);
  }

  private checkWorker(choice: Choice, work: WorkEntry): ScheduleRule | null {
    const { rest } = this.problem;
    if (rest === null) return null;
    const { gate } = choice;
    if (gate !== null) {
      if (work.endSlot - this.woke > gate.longestAwakeSlots) return 'awake';
      if (gate.inertiaClass >= 0 && work.beginSlot < (this.clear[gate.inertiaClass] ?? 0)) return 'inertia';
      const changeSlots = work.beginSlot - work.startSlot;
      const atBegin = changeSlots === 0 ? this.s : rest.awakeS(this.s, changeSlots);
      const atEnd = rest.awakeS(this.s, work.endSlot - work.startSlot);
      if (atBegin + (rest.rhythmPoints[work.beginSlot] ?? 0) < gate.leastStartPoints) return 'alertness';
      if (atEnd + (rest.rhythmPoints[work.endSlot] ?? 0) < gate.leastEndPoints) return 'alertness';
    }
    return rest.refusesHistory?.(choice, work, this.sleeps) === true ? 'history' : null;
  }

  private meetWeather(choice: Choice, work: WorkEntry, row: number): ScheduleRule | null {
    const own = this.mask.map((_, word) => choice.table.masks[word]?.[row] ?? 0);
    const owners = this.problem.jobs.filter((job) => job.tasks.includes(work.task));
    if (owners.length > 0 && owners.every((job) => job.conditional))
      return this.weigh(own) < this.problem.neededWeight ? 'weather' : null;
    own.forEach((bits, word) => (this.mask[word] = (this.mask[word] ?? 0) & bits));
    return this.weigh(this.mask) === 0 ? 'weather' : null;
  }

  private finishWork(choice: Choice, work: WorkEntry, row: number): null {
    this.cost += choice.table.costPoints[row] ?? 0;
    this.fallBehind(choice.table.lossQuanta[row] ?? 0);
    this.s = this.problem.rest?.awakeS(this.s, work.endSlot - work.startSlot) ?? this.s;
    this.left[work.task] = (this.left[work.task] ?? 0) - choice.unitCount;
    this.config = work.finishes ? choice.configFinished : choice.configAfter;
    this.t = work.endSlot;
    this.hold(work);
    if (work.finishes) {
      this.finishedAt[work.task] = this.t;
      this.cost += this.problem.tasks[work.task]?.finishCostPoints?.[this.t] ?? 0;
    }
    return null;
  }

  private hold({ task, finishes }: WorkEntry): void {
    const { restSlots = 0, holds = [] } = this.problem.tasks[task] ?? {};
    if (!finishes) this.heldUntil[task] = this.t + restSlots;
    else
      for (const held of holds)
        this.heldUntil[held.task] = Math.max(this.heldUntil[held.task] ?? 0, this.t + waitSlotsAt(held.slots, this.t));
  }

  /** Waits on to the cheapest instant at which the plan may end; null: there is none. */
  end(): SimulatedSchedule | null {
    const { slotCount, endCostPoints, rest } = this.problem;
    let best: SimulatedSchedule | null = null;
    let least = Infinity;
    for (;;) {
      const cost = this.cost + (endCostPoints?.[this.config * (slotCount + 1) + this.t] ?? 0);
      if ((rest === null || this.s >= rest.leastEndS) && cost < least) {
        least = cost;
        best = { ok: true, worth: this.worth(cost), mask: this.mask, lagAtEnd: this.lag, sAtEnd: this.s };
      }
      if (this.t === slotCount) return best;
      this.waitOneSlot();
    }
  }

  private worth(costPoints: number): ScheduleWorth {
    const jointWeight = this.weigh(this.mask);
    const done = (conditional: boolean): number =>
      this.problem.jobs
        .filter((job) => job.conditional === conditional && job.tasks.every((task) => this.left[task] === 0))
        .reduce((sum, job) => sum + job.priorityWeight, 0);
    const priorityWeight = jointWeight >= this.problem.neededWeight ? done(false) : 0;
    return { priorityWeight, jointWeight, conditionalWeight: done(true), costPoints };
  }

  private weigh(mask: Int32Array): number {
    return this.problem.weights.reduce(
      (sum, weight, w) => sum + ((((mask[w >> 5] ?? 0) >> (w & 31)) & 1) === 1 ? weight : 0),
      0,
    );
  }

  private quantaBetween(fromSlot: number, toSlot: number): number {
    const { slotCount, configs } = this.problem;
    const base = this.config * (slotCount + 1);
    return (configs.waitQuanta[base + toSlot] ?? 0) - (configs.waitQuanta[base + fromSlot] ?? 0);
  }

  /** Charges the whole loss; the lag kept stays within the table. */
  private fallBehind(quanta: number): void {
    this.cost += quanta * this.problem.costPerQuantum;
    this.lag = Math.min(this.problem.lagCount - 1, Math.max(0, this.lag + quanta));
  }
}
