/** Which rows and columns of a grid are kept, and the grid they make. */
import { type FramePart, type GridFrame, type LatLonFrame, partOfFrame } from '../../grib/index.ts';
import { failed, ok, type Result } from '../../result/index.ts';
import type { Box } from '../box.ts';
import { partFor } from '../crop-grid.ts';
import { gridCovers } from '../grid-box.ts';
import { type GridPlaces, placesOn } from '../grid-places.ts';
import { type Around, columnsOf, partOf, rowsOf, thinnedFrame } from './cut-lines.ts';
import { notRegular, notThinned } from './grid-problems.ts';
import { neededPoints } from './needed-points.ts';
import { likeGrid } from './like-grid.ts';
import { boxOfCorridor, type Corridor } from './way.ts';

/** What is kept of a grid of the files. */
export interface CutGrid {
  /** Columns and rows to decode; null: all. */
  readonly part: FramePart | null;
  readonly decoded: GridFrame;
  /** Regular, as it is written. */
  readonly kept: LatLonFrame;
  /** Every n-th row and column of what is decoded. */
  readonly everyCount: number;
  /** Places of the kept points among the decoded ones; null where they are the same. */
  readonly resampling: GridPlaces | null;
  readonly isNorthFirst: boolean;
  /** Part of the area asked for lies beyond the grid. */
  readonly isShort: boolean;
}

/** The area as it is cut. */
export interface AreaToCut extends Around {
  /** Null: all of the box. */
  readonly corridor: Corridor | null;
  readonly resample: boolean;
}

/** A grid of the files: as a frame, whether its own rows are all alike and equally spaced, and the field it was met in. */
export interface GridToCut {
  readonly whole: GridFrame;
  readonly isRegular: boolean;
  /** Rows are written from the north, as in the files. */
  readonly isNorthFirst: boolean;
  readonly where: string;
}

/** The box of an area. */
export const boxOfArea = (asked: Box | null, corridor: Corridor | null): Box => {
  if (corridor !== null) return boxOfCorridor(corridor);
  if (asked === null) throw new Error('an area is a box or a corridor');
  return asked;
};

/**
 * Rows and columns around the area.
 *
 * @returns null when the area lies outside the grid; a problem when the grid is no regular one, or cannot be thinned
 */
export function cutGrid({ whole, isRegular, isNorthFirst, where }: GridToCut, area: AreaToCut): Result<CutGrid | null> {
  if (!isRegular && !area.resample) return failed(notRegular(whole, where));
  const isShort = !gridCovers(whole, area.box);
  if (whole.kind !== 'latlon') return ok(resampled(whole, area, { isShort, isNorthFirst }));
  const rows = rowsOf(whole, area);
  const columns = columnsOf(whole, area);
  if (rows === 'not-divisible' || columns === 'not-divisible')
    return failed(notThinned(whole, area.everyPointCount, where));
  if (rows === null || columns === null) return ok(null);
  const kept = thinnedFrame(whole, { rows, columns });
  const found = {
    part: partOf({ rows, columns }),
    decoded: whole,
    kept,
    everyCount: area.everyPointCount,
    resampling: null,
    isShort,
    isNorthFirst,
  };
  return ok(trimmed(found, area));
}

/** Without the rows and columns that no place of the corridor needs; null when it needs none. */
function trimmed(found: CutGrid, { corridor, spareCellCount }: AreaToCut): CutGrid | null {
  if (corridor === null) return found;
  const { decoded, kept, part, everyCount } = found;
  const mask = neededPoints(kept, corridor, { fromIndex: 0, toIndex: corridor.places.length, spareCellCount });
  const indices = Array.from(mask.keys()).filter((index) => mask[index] === 1);
  const rows = extent(indices.map((index) => Math.floor(index / kept.columnCount)));
  const columns = kept.wrapsInLon
    ? { firstIndex: 0, lastIndex: kept.columnCount - 1 }
    : extent(indices.map((index) => index % kept.columnCount));
  if (rows === null || columns === null) return null;
  const inner = {
    rowIndex: rows.firstIndex,
    columnIndex: columns.firstIndex,
    rowCount: rows.lastIndex - rows.firstIndex + 1,
    columnCount: columns.lastIndex - columns.firstIndex + 1,
  };
  const frame = partOfFrame(kept, inner);
  if (frame.kind !== 'latlon' || part === null) throw new Error('the part of a regular grid is one');
  return {
    ...found,
    kept: frame,
    part: {
      rowIndex: part.rowIndex + inner.rowIndex * everyCount,
      columnIndex: (part.columnIndex + inner.columnIndex * everyCount) % decoded.columnCount,
      rowCount: (inner.rowCount - 1) * everyCount + 1,
      columnCount: (inner.columnCount - 1) * everyCount + 1,
    },
  };
}

function extent(indices: readonly number[]): { readonly firstIndex: number; readonly lastIndex: number } | null {
  if (indices.length === 0) return null;
  return indices.reduce(
    (span, index) => ({ firstIndex: Math.min(span.firstIndex, index), lastIndex: Math.max(span.lastIndex, index) }),
    {
      firstIndex: Infinity,
      lastIndex: -Infinity,
    },
  );
}

/** A regular grid of like spacing around the area, and where its points lie in the grid of the files; null outside it. */
function resampled(
  whole: GridFrame,
  area: AreaToCut,
  flags: Pick<CutGrid, 'isShort' | 'isNorthFirst'>,
): CutGrid | null {
  const part = partFor(whole, area.box);
  const decoded = part === null ? whole : partOfFrame(whole, part);
  const kept = likeGrid(whole, area);
  const points = Array.from({ length: kept.columnCount * kept.rowCount }, (_, i) => ({
    lat: kept.southWest.lat + Math.floor(i / kept.columnCount) * kept.latStepDeg,
    lon: kept.southWest.lon + (i % kept.columnCount) * kept.lonStepDeg,
  }));
  const resampling = placesOn(decoded, {
    lat: Float64Array.from(points, ({ lat }) => lat),
    lon: Float64Array.from(points, ({ lon }) => lon),
  });
  if (resampling.cornerIndex.every((index) => index < 0)) return null;
  return { part, decoded, kept, everyCount: 1, resampling, ...flags };
}
