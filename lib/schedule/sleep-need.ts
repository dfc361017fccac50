import { UNREACHABLE } from './completion-table.ts';
import type { EndTables } from './end-tables.ts';
import type { NodeSpace } from './nodes.ts';
import type { TaskTables } from './task-tables.ts';
import { i32, u16 } from './typed-reads.ts';

/**
 * Least cost of the sleep still needed: to end with S enough no sooner than the work can be done, and to be alert enough
 * for each task that must be done and for those that follow it. A bound that never lies above the truth; it knows windows,
 * durations and gates, but looks at one chain of tasks at a time, and at no weather in common.
 */
export class SleepNeed {
  private readonly nodes: NodeSpace;
  private readonly ends: EndTables;
  private readonly tasks: TaskTables;
  private readonly must: readonly boolean[];
  private readonly earliestEnd: Int32Array;
  private readonly tablesOfNode: (readonly Int32Array[] | undefined)[] = [];

  constructor(
    of: { readonly nodes: NodeSpace; readonly must: readonly boolean[]; readonly earliestEnd: Int32Array },
    tables: { readonly ends: EndTables; readonly tasks: TaskTables },
  ) {
    this.nodes = of.nodes;
    this.must = of.must;
    this.earliestEnd = of.earliestEnd;
    this.ends = tables.ends;
    this.tasks = tables.tasks;
  }

  /** Cost from a node at an instant with an S; `UNREACHABLE`: no sleep is enough. */
  costFrom(at: { readonly node: number; readonly place: number; readonly atSlot: number }, s: number): number {
    const { grid } = this.ends;
    const cell = at.atSlot * grid.stepCount + grid.stepOf(s);
    let cost = i32(this.ends.endingFrom(i32(this.earliestEnd, at.place)), cell);
    for (const table of this.tablesOfNode[at.node] ?? this.findTables(at.node)) {
      const own = i32(table, cell);
      if (own > cost) cost = own;
    }
    return cost > UNREACHABLE ? UNREACHABLE : cost;
  }

  /** Tables of the tasks left that must be done and follow none that is left: theirs hold the need of their followers. */
  private findTables(node: number): readonly Int32Array[] {
    const base = node * this.nodes.taskCount;
    const tables: Int32Array[] = [];
    this.must.forEach((isMust, task) => {
      const unitsLeft = u16(this.nodes.unitsLeft, base + task);
      if (!isMust || unitsLeft === 0) return;
      if (this.tasks.beforeOf(task).some((before) => u16(this.nodes.unitsLeft, base + before) > 0)) return;
      tables.push(this.tasks.table(task, unitsLeft));
    });
    this.tablesOfNode[node] = tables;
    return tables;
  }
}
