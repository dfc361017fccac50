/** Values of a field on one canonical grid. */
import type { EvenGrid, PlacedGrid } from '../grid.ts';
import { expandRows } from './expand-rows.ts';
import type { GridFrame } from './frame.ts';
import { frameOfGrid } from './frame-of-grid.ts';
import { type NorthUpLine, northUpLines } from './scanning.ts';

/**
 * Values on a grid whose rows run from south to north and whose columns run from west to east in the grid's own
 * coordinates; row-major: value of column i and row j at `values[j * columnCount + i]`, NaN where missing. The frame
 * places its points: `toIndex`, `positionAt`.
 */
export type NorthUpGrid = GridFrame & { readonly values: Float32Array };

/**
 * Turns values in file order the north-up way. Single precision keeps 7 digits, far below any forecast's error.
 *
 * Rows of different length are expanded to the number of columns of the longest by linear interpolation along each row;
 * where one neighbour is missing the other is taken if it carries at least half of the weight, else the value is missing.
 */
export function toNorthUpGrid(grid: PlacedGrid, fileValues: Float64Array): NorthUpGrid {
  const frame = frameOfGrid(grid);
  if (grid.kind === 'thinned-latlon' || grid.kind === 'thinned-gaussian')
    return { ...frame, values: expandRows(grid, frame, fileValues) };
  return { ...frame, values: turned(grid, frame.columnCount, fileValues) };
}

function turned(grid: EvenGrid, columnCount: number, fileValues: Float64Array): Float32Array {
  const values = new Float32Array(columnCount * grid.nj);
  for (const line of northUpLines(grid)) placeLine(line, { columnCount, values, fileValues });
  return values;
}

interface Placing {
  readonly columnCount: number;
  readonly values: Float32Array;
  readonly fileValues: Float64Array;
}

/** Columns from `columnCount` on repeat the first ones. Everything the loop needs is a local: it runs once for each point. */
function placeLine(line: NorthUpLine, { columnCount, values, fileValues }: Placing): void {
  const { fileIndex, pointCount, columnStepCount, rowStepCount } = line;
  let { columnIndex, rowIndex } = line;
  const isWholeRow = columnStepCount === 1 && columnIndex + pointCount <= columnCount;
  if (isWholeRow && fileIndex + pointCount <= fileValues.length) {
    values.set(fileValues.subarray(fileIndex, fileIndex + pointCount), rowIndex * columnCount + columnIndex);
    return;
  }
  for (let k = 0; k < pointCount; k++) {
    if (columnIndex < columnCount) values[rowIndex * columnCount + columnIndex] = fileValues[fileIndex + k] ?? NaN;
    columnIndex += columnStepCount;
    rowIndex += rowStepCount;
  }
}
