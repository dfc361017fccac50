import type { Space } from './aim.ts';
import { findCells } from './cells.ts';
import { MaskBound } from './mask-bound.ts';
import type { Model } from './model.ts';
import type { NodeSpace } from './nodes.ts';
import { findNodes } from './nodes.ts';
import type { StartRange } from './open-starts.ts';
import { closeWithoutPartner } from './pairs.ts';
import { findTightStarts } from './tighten.ts';
import { item, u16 } from './typed-reads.ts';

/** Everything the passes of one level share. */
export interface SearchSpace extends Space {
  /** Share of all units done, by node. */
  readonly doneShare: Float64Array;
}

/** Where a search may go: all starts, or those in the ranges, given tasks that must be done. */
export interface SearchLimits {
  readonly ranges: readonly StartRange[] | null;
  readonly must: readonly boolean[];
}

/**
 * Nodes and cells of the plans that do what must be done, with starts that keep so much weight by themselves and, when
 * thorough, together with some start of each task that must be done; null: too many for tables.
 */
export function buildSpace(
  model: Model,
  limits: SearchLimits,
  asked: { readonly leastWeight: number; readonly isThorough: boolean },
): SearchSpace | null {
  const open = findTightStarts(model, asked.leastWeight, limits);
  if (asked.isThorough) closeWithoutPartner(model, open, { must: limits.must, leastWeight: asked.leastWeight });
  const nodes = findNodes(model, open, limits.must);
  if (nodes === null) return null;
  const cells = findCells(model, nodes, open);
  if (cells === null) return null;
  return { model, nodes, cells, open, masks: new MaskBound(model, open), doneShare: doneShares(model, nodes) };
}

function doneShares({ problem }: Model, nodes: NodeSpace): Float64Array {
  const all = problem.tasks.reduce((sum, task) => sum + task.unitCount, 0);
  return Float64Array.from({ length: nodes.nodeCount }, (_, node) => {
    let left = 0;
    for (let task = 0; task < nodes.taskCount; task++)
      left += u16(nodes.unitsLeft, node * nodes.taskCount + task) / Math.max(1, item(problem.tasks, task).unitCount);
    return all === 0 ? 1 : 1 - left / problem.tasks.length;
  });
}
