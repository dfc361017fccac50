import type { Aim, Space, Standing } from './aim.ts';
import { sleeplessBefore } from './cells.ts';
import { UNREACHABLE } from './completion-table.ts';
import type { Frontier } from './frontier.ts';
import type { LabelStore } from './label-store.ts';
import { BY_WAITING, bySleep, sleepsOf } from './label-store.ts';
import type { ModelChoice, Release } from './model.ts';
import { START_COST, START_LOSS, START_STRIDE } from './open-starts.ts';
import type { ChoiceGate, RestModel, ScheduleProblem, SlotSleep } from './problem.ts';
import { f64, i16, i32, item, u16, u8 } from './typed-reads.ts';
import { waitSlotsAt } from './wait-slots.ts';

/** Sleeps, from the rest model: lengths, and sums that answer for any stretch at once. */
interface Sleeping {
  readonly mayNot: Int32Array;
  readonly costBefore: Int32Array;
}

/** Makes the successors of labels: one slot of waiting, every sleep, every piece of work the bounds leave hope for. */
export class Extender {
  /** Successors looked at. */
  extensionCount = 0;
  /** Least bound of the successors that only `refusesHistory` kept out. */
  lowestRefused = UNREACHABLE;
  private readonly space: Space;
  private readonly problem: ScheduleProblem;
  private readonly aim: Aim;
  private readonly store: LabelStore;
  private readonly frontier: Frontier;
  private readonly sleeping: Sleeping;
  private readonly mostLag: number;
  /** S after so many slots awake from the label at hand, with the label it was worked out for. */
  private readonly awakeS: Float64Array;
  private readonly awakeFor: Int32Array;
  /** Sleeps on the way to the label at hand, with the label they were read for. */
  private sleeps: readonly SlotSleep[] = [];
  private sleepsFor = -1;

  constructor(space: Space, aim: Aim, into: { readonly store: LabelStore; readonly frontier: Frontier }) {
    this.space = space;
    this.problem = space.model.problem;
    this.aim = aim;
    this.store = into.store;
    this.frontier = into.frontier;
    this.mostLag = this.problem.lagCount - 1;
    this.sleeping = { mayNot: sleeplessBefore(space.model), costBefore: sleepCosts(this.problem) };
    this.awakeS = new Float64Array(this.problem.slotCount + 1);
    this.awakeFor = new Int32Array(this.problem.slotCount + 1).fill(-1);
  }

  extend(label: number): void {
    const { store, space } = this;
    const node = i32(store.node, label);
    const next = i32(space.nodes.afterWait, node);
    if (next >= 0) this.wait(label, next);
    if (next >= 0 && this.problem.rest !== null) this.sleep(label, next, this.problem.rest);
    for (let arc = i32(space.nodes.arcFrom, node); arc < i32(space.nodes.arcTo, node); arc++) this.work(label, arc);
  }

  private wait(label: number, next: number): void {
    const { store, aim } = this;
    const t = i32(store.at, label) + 1;
    if (t > i32(this.space.nodes.lastSlot, next)) return;
    const loss = this.waitLoss(label, t);
    const to = this.standing(next, t, i32(store.lag, label) + loss);
    const cost = i32(store.cost, label) + loss * this.problem.costPerQuantum;
    this.extensionCount++;
    const lowest = aim.lowest(to, cost, i32(store.weight, label));
    if (lowest >= aim.best) return;
    const s = this.sAfterAwake(label, 1);
    const rested = aim.lowestRested(lowest, to, s);
    if (rested >= aim.best) return;
    const draft = store.draftFrom(label);
    this.write(draft, to, { cost, act: BY_WAITING, s, lowest: rested });
    this.frontier.offer(t, to.cell);
  }

  private sleep(label: number, next: number, rest: RestModel): void {
    const { store } = this;
    const from = i32(store.at, label);
    for (let k = 0; k < rest.sleepSlots.length; k++) {
      const woke = from + item(rest.sleepSlots, k);
      const end = woke + rest.lookoutSlots;
      if (end > i32(this.space.nodes.lastSlot, next)) continue;
      if (i32(this.sleeping.mayNot, woke) > i32(this.sleeping.mayNot, from)) continue;
      this.extensionCount++;
      this.trySleep(label, { lengthIndex: k, from, woke, end, next }, rest);
    }
  }

  private trySleep(label: number, { lengthIndex, from, woke, end, next }: Sleep, rest: RestModel): void {
    const { store, aim, sleeping } = this;
    const loss = this.waitLoss(label, end);
    const slept = i32(sleeping.costBefore, woke) - i32(sleeping.costBefore, from);
    const cost = i32(store.cost, label) + loss * this.problem.costPerQuantum + slept;
    const to = this.standing(next, end, i32(store.lag, label) + loss);
    const lowest = aim.lowest(to, cost, i32(store.weight, label));
    if (lowest >= aim.best) return;
    const s = rest.awakeS(rest.asleepS(store.sOf(label), woke - from), rest.lookoutSlots);
    const rested = aim.lowestRested(lowest, to, s);
    if (rested >= aim.best) return;
    const draft = store.draftFrom(label);
    this.write(draft, to, { cost, act: bySleep(lengthIndex), s, lowest: rested });
    store.woke[draft] = woke;
    this.wakeFrom(draft, lengthIndex, woke, rest);
    this.frontier.offer(end, to.cell);
  }

  /** After waking, each class of work waits as long as this sleep and hour ask. */
  private wakeFrom(draft: number, lengthIndex: number, woke: number, rest: RestModel): void {
    const { inertiaClasses } = this.space.model;
    for (let k = 0; k < inertiaClasses.length; k++) {
      const slots = i16(
        item(rest.inertiaSlots, item(inertiaClasses, k)),
        lengthIndex * (this.problem.slotCount + 1) + woke,
      );
      this.store.memories[draft * this.store.memoryCount + k] = woke + slots;
    }
  }

  private work(label: number, arc: number): void {
    const { store, space } = this;
    const choiceIndex = i32(space.nodes.arcChoice, arc);
    const start = i32(store.at, label);
    const begin = start + i32(space.nodes.arcChangeSlots, arc);
    if (begin >= this.problem.slotCount || u8(item(this.aim.open.isOpen, choiceIndex), begin) === 0) return;
    const change = this.waitLoss(label, begin);
    const beginLag = this.clamped(i32(store.lag, label) + change);
    const row = i32(this.problem.rowOfLag, beginLag);
    const starts = item(this.aim.open.starts, choiceIndex);
    const firstRow = (begin - i32(this.aim.open.firstSlot, choiceIndex)) * this.problem.rowCount;
    const startAt = (firstRow + row) * START_STRIDE;
    const end = begin + i32(starts, startAt);
    const node = i32(space.nodes.arcNext, arc);
    if (end === begin || end > i32(space.nodes.lastSlot, node)) return;
    this.extensionCount++;
    this.tryWork(label, {
      choice: item(space.model.choices, choiceIndex),
      choiceIndex,
      start,
      begin,
      end,
      node,
      endLag: this.clamped(beginLag + i32(starts, startAt + START_LOSS)),
      cost: change * this.problem.costPerQuantum + i32(starts, startAt + START_COST),
      maskCell: row * this.problem.slotCount + begin,
    });
  }

  private tryWork(label: number, work: Work): void {
    const { store, aim } = this;
    const to = this.standing(work.node, work.end, work.endLag);
    const isFinished = this.finishes(work);
    const cost = i32(store.cost, label) + work.cost + (isFinished ? this.finishCost(work) : 0);
    if (aim.lowest(to, cost, i32(store.weight, label)) >= aim.best) return;
    if (!this.isFit(label, work) || !this.isReleased(label, work)) return;
    const draft = store.draftFrom(label);
    this.narrow(draft, work);
    const narrowed = aim.lowest(to, cost, i32(store.weight, draft));
    if (narrowed >= aim.best) return;
    const s = this.sAfterAwake(label, work.end - work.start);
    const lowest = aim.lowestRested(narrowed, to, s);
    if (lowest >= aim.best) return;
    if (this.isRefused(label, work)) {
      this.lowestRefused = Math.min(this.lowestRefused, lowest);
      return;
    }
    this.write(draft, to, { cost, act: work.choiceIndex, s, lowest });
    this.release(draft, work, isFinished ? 'finished' : 'session');
    this.frontier.offer(work.end, to.cell);
  }

  /** Alertness at both ends of the work, slots awake, and inertia. */
  private isFit(label: number, { choice, start, begin, end }: Work): boolean {
    const { rest } = this.problem;
    const { gate } = choice.choice;
    if (rest === null || gate === null) return true;
    const { store } = this;
    if (end - i32(store.woke, label) > gate.longestAwakeSlots) return false;
    const memory = choice.inertiaMemoryIndex;
    if (memory >= 0 && begin < i32(store.memories, label * store.memoryCount + memory)) return false;
    return this.isAlert(label, gate, { start, begin, end });
  }

  private isAlert(label: number, gate: ChoiceGate, { start, begin, end }: Stretch): boolean {
    const { rest } = this.problem;
    if (rest === null) return true;
    return (
      this.sAfterAwake(label, begin - start) + f64(rest.rhythmPoints, begin) >= gate.leastStartPoints &&
      this.sAfterAwake(label, end - start) + f64(rest.rhythmPoints, end) >= gate.leastEndPoints
    );
  }

  /** Whether the waits after predecessors, for tools and since the last session are over. */
  private isReleased(label: number, { choice, start }: Work): boolean {
    const { store } = this;
    for (const { memoryIndex, earlierSlots } of choice.waits)
      if (start < i32(store.memories, label * store.memoryCount + memoryIndex) - earlierSlots) return false;
    return true;
  }

  private isRefused(label: number, { choice, begin, end }: Work): boolean {
    const { rest } = this.problem;
    if (rest === null || rest.refusesHistory === null) return false;
    if (this.sleepsFor !== label) {
      this.sleeps = sleepsOf(this.store, label, rest.sleepSlots);
      this.sleepsFor = label;
    }
    return rest.refusesHistory(choice.choice, { beginSlot: begin, endSlot: end }, this.sleeps);
  }

  /** Keeps the scenarios in which the work stays inside its limits; a conditional job keeps them all. */
  private narrow(draft: number, { choice, maskCell }: Work): void {
    if (!choice.narrows) return;
    const { store } = this;
    const { scale } = this.space.model;
    const { masks } = choice.choice.table;
    let isNarrower = false;
    for (let word = 0; word < store.wordCount; word++) {
      const at = draft * store.wordCount + word;
      const before = i32(store.masks, at);
      const after = before & i32(item(masks, word), maskCell);
      store.masks[at] = after;
      if (after !== before) isNarrower = true;
    }
    if (isNarrower) store.weight[draft] = scale.weigh(store.masks, draft * store.wordCount);
  }

  private release(draft: number, { choice, end }: Work, reached: Release['when']): void {
    const { inertiaClasses, releases } = this.space.model;
    for (let k = 0; k < releases.length; k++) {
      const { task, when, longestWaitSlots } = item(releases, k);
      if (task === choice.task && when === reached)
        this.store.memories[draft * this.store.memoryCount + inertiaClasses.length + k] =
          end + waitSlotsAt(longestWaitSlots, end);
    }
  }

  private finishes({ choice, node }: Work): boolean {
    const { nodes } = this.space;
    return u16(nodes.unitsLeft, node * nodes.taskCount + choice.task) === 0;
  }

  private finishCost({ choice, end }: Work): number {
    const { finishCostPoints } = item(this.problem.tasks, choice.task);
    return finishCostPoints === null ? 0 : i32(finishCostPoints, end);
  }

  private write(draft: number, to: Standing, by: Step): void {
    const { store } = this;
    store.node[draft] = to.node;
    store.lag[draft] = to.lag;
    store.at[draft] = to.atSlot;
    store.cost[draft] = by.cost;
    store.act[draft] = by.act;
    store.s[draft] = by.s;
    store.lowest[draft] = by.lowest;
  }

  private sAfterAwake(label: number, slots: number): number {
    const { rest } = this.problem;
    if (rest === null || slots === 0) return this.store.sOf(label);
    if (i32(this.awakeFor, slots) !== label) {
      this.awakeS[slots] = rest.awakeS(this.store.sOf(label), slots);
      this.awakeFor[slots] = label;
    }
    return f64(this.awakeS, slots);
  }

  private waitLoss(label: number, toSlot: number): number {
    const { configs, slotCount } = this.problem;
    const base = i16(this.space.nodes.config, i32(this.store.node, label)) * (slotCount + 1);
    return i32(configs.waitQuanta, base + toSlot) - i32(configs.waitQuanta, base + i32(this.store.at, label));
  }

  private standing(node: number, atSlot: number, lagBeyond: number): Standing {
    const { cells } = this.space;
    const lag = this.clamped(lagBeyond);
    const place = i32(cells.placeBase, node) + atSlot;
    return { node, atSlot, lag, place, cell: i32(cells.cellStart, place) + lag - i16(cells.leastLag, place) };
  }

  private clamped(lag: number): number {
    return lag < 0 ? 0 : lag > this.mostLag ? this.mostLag : lag;
  }
}

/** What a successor is written with. */
interface Step {
  readonly cost: number;
  readonly act: number;
  readonly s: number;
  readonly lowest: number;
}

interface Sleep {
  readonly lengthIndex: number;
  readonly from: number;
  readonly woke: number;
  readonly end: number;
  readonly next: number;
}

interface Stretch {
  readonly start: number;
  readonly begin: number;
  readonly end: number;
}

interface Work extends Stretch {
  readonly choice: ModelChoice;
  readonly choiceIndex: number;
  readonly node: number;
  readonly endLag: number;
  /** Of the change, the work and the quanta lost. */
  readonly cost: number;
  /** Where the table of the choice keeps the scenarios. */
  readonly maskCell: number;
}

function sleepCosts({ slotCount, rest }: ScheduleProblem): Int32Array {
  const sums = new Int32Array(slotCount + 1);
  for (let t = 0; t < slotCount; t++) sums[t + 1] = i32(sums, t) + (rest?.sleepCostPoints[t] ?? 0);
  return sums;
}
