import type { AimBounds, AimLevel } from './aim.ts';
import { fillCompletionTable, UNREACHABLE } from './completion-table.ts';
import type { Model } from './model.ts';
import type { WantedWeights } from './must-tasks.ts';
import { findMustTasks, findMustTasksOfNodes } from './must-tasks.ts';
import type { NodeSpace } from './nodes.ts';
import { fillReachTable } from './reach-table.ts';
import { SleepNeed } from './sleep-need.ts';
import type { SearchLimits, SearchSpace } from './space.ts';
import { buildSpace } from './space.ts';
import { TaskTables } from './task-tables.ts';
import { i32 } from './typed-reads.ts';
import type { Workshop } from './workshop.ts';

/** What a pass may look at: plans that reach the wanted weights with starts that keep enough by themselves. */
export interface Stage {
  readonly leastWeight: number;
  readonly wanted: WantedWeights;
  readonly must: readonly boolean[];
  readonly space: SearchSpace;
  readonly bounds: AimBounds;
}

/** How much is worked out beforehand: nothing more, starts closed that go with no other, bounds of the sleep needed too. */
export type StageCare = 'light' | 'pairs' | 'pairs-and-sleep';

export interface StageRequest {
  readonly level: AimLevel;
  readonly leastWeight: number;
  readonly wanted: WantedWeights;
  readonly care: StageCare;
  readonly limits: SearchLimits;
  /** Tasks that can be started at all. */
  readonly canStart: readonly boolean[];
}

/** null: too many nodes or cells for tables. */
export function buildStage(model: Model, workshop: Workshop, asked: StageRequest): Stage | null {
  const { wanted, leastWeight, level, care } = asked;
  const withLimits = (must: readonly boolean[]): readonly boolean[] =>
    must.map((isMust, task) => isMust || asked.limits.must[task] === true);
  let must = withLimits(findMustTasks(model, wanted, asked.canStart));
  const build = (): SearchSpace | null =>
    buildSpace(model, { ranges: asked.limits.ranges, must }, { leastWeight, isThorough: care !== 'light' });
  let space = build();
  if (space === null) return null;
  const sharper = withLimits(findMustTasksOfNodes(space.nodes, space.cells.isReached, wanted));
  if (sharper.some((isMust, task) => isMust && must[task] !== true)) {
    must = sharper.map((isMust, task) => isMust || must[task] === true);
    space = build() ?? space;
  }
  const bounds = boundsOf(workshop, { level, wanted, must, space, care });
  return { leastWeight, wanted, must, space, bounds };
}

function boundsOf(
  workshop: Workshop,
  { level, wanted, must, space, care }: Omit<Stage, 'leastWeight' | 'bounds'> & Pick<StageRequest, 'level' | 'care'>,
): AimBounds {
  const { model, nodes, cells } = space;
  const endValue = endValues(nodes, level, wanted);
  const reach = fillReachTable(space, endValue);
  const ends = care === 'pairs-and-sleep' ? workshop.ends : null;
  const tasks = ends === null ? null : new TaskTables(model, ends, { outcomes: nodes.outcomes, must });
  const need =
    ends === null || tasks === null
      ? null
      : new SleepNeed({ nodes, must, earliestEnd: reach.earliestEnd }, { ends, tasks });
  const costToCome =
    level === 'cost'
      ? fillCompletionTable(
          space,
          { open: space.open, endValue, countsSleep: need === null },
          workshop.table(cells.cellCount),
        )
      : null;
  return {
    reach,
    costToCome,
    need,
    endWorth: level === 'priority' ? nodes.priorityDone.map((done) => -done) : endValue,
  };
}

/** Value of ending at each node, before its cost; `UNREACHABLE`: below what is wanted. */
function endValues(nodes: NodeSpace, level: AimLevel, wanted: WantedWeights): Int32Array {
  return Int32Array.from({ length: nodes.nodeCount }, (_, node) => {
    const priorityWeight = i32(nodes.priorityDone, node);
    const conditionalWeight = i32(nodes.conditionalDone, node);
    if (priorityWeight < wanted.priorityWeight || conditionalWeight < wanted.conditionalWeight) return UNREACHABLE;
    if (level === 'priority') return -priorityWeight;
    return level === 'conditional' ? -conditionalWeight : 0;
  });
}
