import type { Model } from './model.ts';
import type { OpenStarts, StartOutcomes } from './open-starts.ts';
import { startOutcomes } from './open-starts.ts';
import type { Task } from './problem.ts';
import { TaskDeadlines } from './task-deadlines.ts';
import { i16, i32, item, u16 } from './typed-reads.ts';

/** Most nodes of one space, and most (instant, node) pairs: above either the problem is solved piece by piece. */
const MOST_NODES = 150_000;
export const MOST_PLACES = 8_000_000;

/** Progress of every task and config of the boat: the nodes that can be reached in time, and the work that leads on. */
export interface NodeSpace {
  readonly nodeCount: number;
  readonly taskCount: number;
  readonly config: Int16Array;
  /** Units left: `[node * taskCount + task]`. */
  readonly unitsLeft: Uint16Array;
  /** First instant a node may be reached at, and the last at which it is of use. */
  readonly firstSlot: Int32Array;
  readonly lastSlot: Int32Array;
  /** Node after a slot of waiting. */
  readonly afterWait: Int32Array;
  /** Priority weight of the jobs done. */
  readonly priorityDone: Int32Array;
  readonly conditionalDone: Int32Array;
  /** Arcs of node n are `arcFrom[n]` … `arcTo[n] − 1`: the choice worked, the change before it, the node it leads to. */
  readonly arcFrom: Int32Array;
  readonly arcTo: Int32Array;
  readonly arcChoice: Int32Array;
  readonly arcChangeSlots: Int32Array;
  readonly arcNext: Int32Array;
  readonly outcomes: readonly StartOutcomes[];
}

/** What makes nodes useless before the horizon: tasks without which nothing is won, with the last instant they may begin. */
export type MustTasks = readonly boolean[];

/** Every node that can be reached in time, in no particular order but 0 the first; null: too many. */
export function findNodes(model: Model, open: OpenStarts, must: MustTasks): NodeSpace | null {
  const finder = new NodeFinder(model, open, must);
  return finder.run() ? finder.space() : null;
}

class NodeFinder {
  private readonly model: Model;
  private readonly tasks: readonly Task[];
  private readonly outcomes: readonly StartOutcomes[];
  private readonly deadlines: TaskDeadlines;
  private readonly idOf = new Map<number | string, number>();
  private readonly left: number[] = [];
  private readonly config: number[] = [];
  private readonly first: number[] = [];
  private readonly last: number[] = [];
  private readonly wait: number[] = [];
  private readonly arcFrom: number[] = [];
  private readonly arcTo: number[] = [];
  private readonly arcs = { choice: new Array<number>(), change: new Array<number>(), next: new Array<number>() };
  private readonly waiting: number[][];
  private readonly isExpanded: boolean[] = [];
  private readonly progressCount: number;
  private placeCount = 0;

  constructor(model: Model, open: OpenStarts, must: MustTasks) {
    this.model = model;
    this.tasks = model.problem.tasks;
    this.progressCount = this.tasks.reduce((product, task) => product * (task.unitCount + 1), 1);
    this.outcomes = model.choices.map((_, choice) => startOutcomes(model, open, choice));
    this.deadlines = new TaskDeadlines(model, this.outcomes, must);
    this.waiting = Array.from({ length: model.problem.slotCount + 1 }, () => []);
  }

  run(): boolean {
    this.reach(
      this.tasks.map((task) => task.unitCount),
      this.model.problem.configs.start,
      0,
    );
    for (let t = 0; t < this.waiting.length; t++) {
      const list = item(this.waiting, t);
      for (let i = 0; i < list.length && !this.isTooLarge(); i++) this.expand(item(list, i), t);
    }
    return !this.isTooLarge();
  }

  private isTooLarge(): boolean {
    return this.config.length > MOST_NODES || this.placeCount > MOST_PLACES;
  }

  /** One number where it can hold every progress exactly, else text. */
  private keyOf(left: readonly number[], config: number): number | string {
    if (this.progressCount * this.model.problem.configs.count > Number.MAX_SAFE_INTEGER)
      return `${left.join(' ')} ${config}`;
    let key = config;
    for (let task = 0; task < left.length; task++)
      key = key * (item(this.tasks, task).unitCount + 1) + item(left, task);
    return key;
  }

  /** Notes that a node is reached at an instant; −1: of no use then. */
  private reach(left: readonly number[], config: number, atSlot: number): number {
    const key = this.keyOf(left, config);
    let node = this.idOf.get(key) ?? -1;
    if (node < 0) {
      const last = this.deadlines.lastSlotOf(left);
      if (atSlot > last) return -1;
      this.placeCount += last - atSlot + 1;
      node = this.config.push(config) - 1;
      this.idOf.set(key, node);
      this.left.push(...left);
      this.first.push(this.waiting.length);
      this.last.push(last);
      this.wait.push(-1);
      this.arcFrom.push(0);
      this.arcTo.push(0);
      this.isExpanded.push(false);
    }
    if (atSlot > item(this.last, node)) return -1;
    if (atSlot < item(this.first, node)) {
      this.first[node] = atSlot;
      item(this.waiting, atSlot).push(node);
    }
    return node;
  }

  private expand(node: number, atSlot: number): void {
    if (this.isExpanded[node] === true) return;
    this.isExpanded[node] = true;
    const left = this.left.slice(node * this.tasks.length, (node + 1) * this.tasks.length);
    const config = item(this.config, node);
    const after = this.model.problem.configs.afterWait[config] ?? config;
    this.wait[node] = after === config ? node : this.reach(left, after, Math.min(atSlot + 1, this.waiting.length));
    this.arcFrom[node] = this.arcs.choice.length;
    for (let task = 0; task < this.tasks.length; task++) {
      const isReady =
        item(left, task) > 0 && item(this.tasks, task).after.every((before) => item(left, before.task) === 0);
      if (isReady)
        for (const choice of item(this.model.choicesOfTask, task)) this.addArc({ left, config, atSlot }, choice);
    }
    this.arcTo[node] = this.arcs.choice.length;
  }

  private addArc(
    from: { readonly left: readonly number[]; readonly config: number; readonly atSlot: number },
    choiceIndex: number,
  ): void {
    const { task, choice } = item(this.model.choices, choiceIndex);
    const units = item(from.left, task) - choice.unitCount;
    const change = i16(choice.changeSlots, from.config);
    if (units < 0 || (choice.onlyToFinish && units > 0) || change < 0) return;
    const begin = from.atSlot + change;
    if (begin >= this.model.problem.slotCount) return;
    const end = i32(item(this.outcomes, choiceIndex).soonestEndSlot, begin);
    if (end > this.model.problem.slotCount) return;
    const left = from.left.with(task, units);
    const next = this.reach(left, units === 0 ? choice.configFinished : choice.configAfter, end);
    if (next < 0) return;
    this.arcs.choice.push(choiceIndex);
    this.arcs.change.push(change);
    this.arcs.next.push(next);
  }

  space(): NodeSpace {
    const nodeCount = this.config.length;
    const unitsLeft = Uint16Array.from(this.left);
    const done = (conditional: boolean): Int32Array =>
      Int32Array.from({ length: nodeCount }, (_, node) => this.doneWeight(unitsLeft, node, conditional));
    return {
      nodeCount,
      taskCount: this.tasks.length,
      config: Int16Array.from(this.config),
      unitsLeft,
      firstSlot: Int32Array.from(this.first),
      lastSlot: Int32Array.from(this.last),
      afterWait: Int32Array.from(this.wait),
      priorityDone: done(false),
      conditionalDone: done(true),
      arcFrom: Int32Array.from(this.arcFrom),
      arcTo: Int32Array.from(this.arcTo),
      arcChoice: Int32Array.from(this.arcs.choice),
      arcChangeSlots: Int32Array.from(this.arcs.change),
      arcNext: Int32Array.from(this.arcs.next),
      outcomes: this.outcomes,
    };
  }

  private doneWeight(unitsLeft: Uint16Array, node: number, conditional: boolean): number {
    const from = node * this.tasks.length;
    let weight = 0;
    for (const job of this.model.problem.jobs)
      if (job.conditional === conditional && job.tasks.every((task) => u16(unitsLeft, from + task) === 0))
        weight += job.priorityWeight;
    return weight;
  }
}
