/** One field for each part, member and time. */
import { frameOfGrid } from '../grib/index.ts';
import type { Box } from './box.ts';
import { groupBy } from './choose-fields.ts';
import { stepsOf } from './coverage.ts';
import { gridCovers } from './grid-box.ts';
import type { MatchedField } from './match-field.ts';

export interface SingleFields {
  readonly fields: readonly MatchedField[];
  /** Fields left out because the same thing was there on the same grid. */
  readonly repeatedCount: number;
  /** Fields left out because the same thing was there on a grid that covers the track better or is finer. */
  readonly otherGridCount: number;
}

/** Of several fields of the same thing and time: the one whose grid covers the box, then the finest, then the first. */
export function chooseDuplicates(fields: readonly MatchedField[], box: Box | null): SingleFields {
  const groups = groupBy(
    fields,
    (found) => `${found.memberId} ${found.row.part} ${found.startEpochMs} ${found.endEpochMs}`,
  );
  const chosen: MatchedField[] = [];
  let [repeatedCount, otherGridCount] = [0, 0];
  for (const group of groups.values()) {
    const [best, ...rest] = group.length === 1 ? group : bestFirst(group, box);
    if (best === undefined) continue;
    chosen.push(best);
    const sameGridCount = rest.filter((other) => fileGridKey(other) === fileGridKey(best)).length;
    repeatedCount += sameGridCount;
    otherGridCount += rest.length - sameGridCount;
  }
  return { fields: chosen, repeatedCount, otherGridCount };
}

/** Corners, counts and scan of a field's grid as text. */
function fileGridKey({ field }: MatchedField): string {
  return JSON.stringify(field.grid);
}

function bestFirst(group: readonly MatchedField[], box: Box | null): readonly MatchedField[] {
  const ranked = group.map((found) => ({ found, rank: gridRank(found, box) }));
  return ranked.toSorted((a, b) => a.rank - b.rank).map(({ found }) => found);
}

/** Finest first, those that do not cover the box after all that do. */
function gridRank({ field }: MatchedField, box: Box | null): number {
  if (field.grid.kind === 'unsupported') return Infinity;
  const grid = frameOfGrid(field.grid);
  const steps = stepsOf(grid);
  const stepDeg = Math.max(steps.lat, steps.lon);
  return box === null || gridCovers(grid, box) ? stepDeg : 1000 + stepDeg;
}
