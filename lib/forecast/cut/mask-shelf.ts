/** Which points of a kept grid a corridor needs in a span of time, worked out once for each part of the way. */
import type { AreaToCut, CutGrid } from './cut-grid.ts';
import { neededPoints, type PointMask } from './needed-points.ts';
import { sailedBetween } from './way.ts';

/** Instants in which a field takes part. */
export interface UsedSpan {
  readonly usedFromEpochMs: number;
  readonly usedToEpochMs: number;
}

/** Points that are needed (null: all of them), and a number that is the same for equal ones of a grid. */
export interface ShelvedMask {
  readonly points: PointMask | null;
  readonly maskIndex: number;
}

export type MaskShelf = (grid: CutGrid, span: UsedSpan) => ShelvedMask;

export function maskShelf({ corridor, spareCellCount }: AreaToCut): MaskShelf {
  if (corridor === null) return () => ALL_POINTS;
  const masks = new Map<CutGrid, Map<string, ShelvedMask>>();
  const indices = new Map<string, number>();
  return (grid, { usedFromEpochMs, usedToEpochMs }) => {
    const ofGrid = masks.get(grid) ?? new Map<string, ShelvedMask>();
    masks.set(grid, ofGrid);
    const part = sailedBetween(corridor, { fromEpochMs: usedFromEpochMs, toEpochMs: usedToEpochMs });
    const key = `${part.fromIndex} ${part.toIndex}`;
    const known = ofGrid.get(key);
    if (known !== undefined) return known;
    const points = neededPoints(grid.kept, corridor, { ...part, spareCellCount });
    const maskIndex = indices.get(points.join('')) ?? indices.size;
    indices.set(points.join(''), maskIndex);
    const mask = { points: points.every((needed) => needed === 1) ? null : points, maskIndex };
    ofGrid.set(key, mask);
    return mask;
  };
}

const ALL_POINTS: ShelvedMask = { points: null, maskIndex: 0 };
