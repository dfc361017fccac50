/** A tour with time windows: the place is the config, the way between two places the change. */
import type { Choice, ScheduleProblem, Task } from '../../../../lib/schedule/index.ts';
import { configsOf } from './order-acceptance.ts';
import { plainProblem, tableOf, wholeTask } from './plain-problem.ts';

export interface TourInstance {
  readonly n: number;
  readonly dist: readonly (readonly number[])[];
  /** Earliest and latest arrival, node by node; node 0 is where the tour begins and ends. */
  readonly window: readonly (readonly number[])[];
}

/**
 * A visit takes one slot here, and every way away from a node one slot less: arrivals stay as published. Ways that no window
 * allows are left out, and a node whose window is over before another can be reached comes before it.
 */
export function tourProblem(instance: TourInstance): ScheduleProblem {
  const nodes = Array.from({ length: instance.n - 1 }, (_, i) => i + 1);
  const slotCount = Math.max(...nodes.map((node) => windowOf(instance, node)[1])) + 1;
  const tasks = nodes.map((node) => visit(instance, slotCount, node, nodes));
  const endCostPoints = new Int32Array(instance.n * (slotCount + 1));
  for (let node = 0; node < instance.n; node++) {
    endCostPoints.fill(distance(instance, node, 0), node * (slotCount + 1), (node + 1) * (slotCount + 1));
  }
  return plainProblem(slotCount, tasks, { configs: configsOf(instance.n, slotCount), endCostPoints });
}

const distance = ({ dist }: TourInstance, from: number, to: number): number => dist[from]?.[to] ?? 0;
function windowOf({ window }: TourInstance, node: number): readonly [number, number] {
  const [earliest, latest] = window[node] ?? [];
  if (earliest === undefined || latest === undefined) throw new Error(`no window for node ${node}`);
  return [earliest, latest];
}

const canFollow = (instance: TourInstance, before: number, node: number): boolean =>
  before !== node && windowOf(instance, before)[0] + distance(instance, before, node) <= windowOf(instance, node)[1];

function visit(instance: TourInstance, slotCount: number, node: number, nodes: readonly number[]): Task {
  const before = [0, ...nodes].filter((other) => canFollow(instance, other, node));
  return wholeTask(
    before.map((from) => leg(instance, slotCount, from, node)),
    {
      after: nodes
        .filter((other) => other !== node && !isReachableAfter(instance, node, other))
        .map((other) => ({ task: other - 1, waitSlots: 0 })),
    },
  );
}

/** Whether `node` may come somewhere before `other`: by the shortest way, since a detour may be shorter than the way itself. */
function isReachableAfter(instance: TourInstance, node: number, other: number): boolean {
  return windowOf(instance, node)[0] + shortestWay(instance, node, other) <= windowOf(instance, other)[1];
}

/** All-pairs shortest ways (R. W. Floyd, Communications of the ACM 5, 1962), once for an instance. */
const shortest = new WeakMap<TourInstance, readonly Float64Array[]>();
function shortestWay(instance: TourInstance, from: number, to: number): number {
  const known = shortest.get(instance) ?? allShortest(instance);
  shortest.set(instance, known);
  return known[from]?.[to] ?? Infinity;
}

function allShortest({ n, dist }: TourInstance): readonly Float64Array[] {
  const ways = dist.map((row) => Float64Array.from(row));
  const way = (a: number, b: number): number => ways[a]?.[b] ?? Infinity;
  for (let over = 0; over < n; over++) {
    for (const [from, row] of ways.entries()) {
      for (let to = 0; to < n; to++) row[to] = Math.min(way(from, to), way(from, over) + way(over, to));
    }
  }
  return ways;
}

function leg(instance: TourInstance, slotCount: number, from: number, node: number): Choice {
  const travel = distance(instance, from, node);
  const [earliest, latest] = windowOf(instance, node);
  return {
    unitCount: 1,
    onlyToFinish: false,
    changeSlots: Int16Array.from({ length: instance.n }, (_, config) => {
      if (config !== from) return -1;
      return from === 0 ? travel : travel - 1;
    }),
    configAfter: node,
    configFinished: node,
    gate: null,
    table: tableOf(slotCount, 1, (t) => (t < earliest || t > latest ? null : { durationSlots: 1, costPoints: travel })),
  };
}
