/** Rows of different length → a regular grid. */
import { wrap360Deg } from '../../units/index.ts';
import type { ThinnedGrid } from '../grid.ts';
import type { GridFrame } from './frame.ts';
import { rowRunsBack, scansRowsNorthward } from './scanning.ts';
import { pointsOfRows, type RowPoints } from './thinned.ts';

/** Values of a thinned grid on its frame. */
export function expandRows(grid: ThinnedGrid, frame: GridFrame, fileValues: Float64Array): Float32Array {
  if (frame.kind !== 'latlon' && frame.kind !== 'gaussian') throw new Error('thinned rows lie on parallels');
  const westLonDeg = frame.kind === 'latlon' ? frame.southWest.lon : frame.westLonDeg;
  const values = new Float32Array(frame.columnCount * frame.rowCount);
  const isNorthward = scansRowsNorthward(grid.scanningMode);
  let fileIndex = 0;
  for (const [jIndex, row] of pointsOfRows(grid).entries()) {
    const rowIndex = isNorthward ? jIndex : frame.rowCount - 1 - jIndex;
    const rowValues = fileValues.slice(fileIndex, fileIndex + row.pointCount);
    if (rowRunsBack(grid.scanningMode, jIndex)) rowValues.reverse();
    for (let column = 0; column < frame.columnCount; column++) {
      const offsetDeg = wrap360Deg(westLonDeg + column * frame.lonStepDeg - row.westLonDeg);
      values[rowIndex * frame.columnCount + column] = valueAlong(rowValues, row, offsetDeg);
    }
    fileIndex += row.pointCount;
  }
  return values;
}

/** Value of a row at a distance east of its first point, 0 to 360 degrees. */
function valueAlong(rowValues: Float64Array, row: RowPoints, offsetDeg: number): number {
  if (row.stepDeg === 0) return rowValues[0] ?? Number.NaN;
  const steps = stepsAlong(row, offsetDeg);
  const nearest = Math.round(steps);
  if (Math.abs(steps - nearest) < 1e-9) return pointOf(rowValues, row, nearest);
  const west = Math.floor(steps);
  const share = steps - west;
  const [a, b] = [pointOf(rowValues, row, west), pointOf(rowValues, row, west + 1)];
  if (Number.isNaN(a)) return share >= 0.5 ? b : a;
  if (Number.isNaN(b)) return share <= 0.5 ? a : b;
  return a + (b - a) * share;
}

/** Steps from the first point; negative where the place lies nearer to the first point's west than to the last's east. */
function stepsAlong({ isClosed, pointCount, stepDeg }: RowPoints, offsetDeg: number): number {
  if (isClosed) return offsetDeg / stepDeg;
  const beyondDeg = (360 + (pointCount - 1) * stepDeg) / 2;
  return (offsetDeg > beyondDeg ? offsetDeg - 360 : offsetDeg) / stepDeg;
}

/** Value of a point counted from the west; NaN beyond the ends of a row that does not close. */
function pointOf(rowValues: Float64Array, { isClosed, pointCount }: RowPoints, index: number): number {
  return rowValues[isClosed ? ((index % pointCount) + pointCount) % pointCount : index] ?? Number.NaN;
}
