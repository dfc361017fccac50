/** Components along a grid → components toward true east and north. */
import { eastAngleDeg, type GridFrame, positionAt } from '../grib/index.ts';
import { radFromDeg } from '../units/index.ts';

/** Cosine and sine of the angle from true east to the columns' growth, counterclockwise, at each grid point. */
interface Turns {
  readonly cosines: Float32Array;
  readonly sines: Float32Array;
}

/** Turns of the grids met while reading; worked out once for each. */
export type TurnShelf = Map<GridFrame, Turns>;

/** Turns both components in place: u = x cos a − y sin a, v = x sin a + y cos a. Missing ones stay missing. */
export function turnToTrue(
  shelf: TurnShelf,
  grid: GridFrame,
  along: { readonly x: Float32Array; readonly y: Float32Array },
): void {
  const { cosines, sines } = turnsOf(shelf, grid);
  const { x, y } = along;
  for (let i = 0; i < x.length; i++) {
    const [ownX, ownY] = [x[i] ?? Number.NaN, y[i] ?? Number.NaN];
    const [cosine, sine] = [cosines[i] ?? Number.NaN, sines[i] ?? Number.NaN];
    x[i] = ownX * cosine - ownY * sine;
    y[i] = ownX * sine + ownY * cosine;
  }
}

function turnsOf(shelf: TurnShelf, grid: GridFrame): Turns {
  const known = shelf.get(grid);
  if (known !== undefined) return known;
  const pointCount = grid.columnCount * grid.rowCount;
  const turns = { cosines: new Float32Array(pointCount), sines: new Float32Array(pointCount) };
  for (let i = 0; i < pointCount; i++) {
    const index = { columnIndex: i % grid.columnCount, rowIndex: Math.floor(i / grid.columnCount) };
    const angleRad = radFromDeg(eastAngleDeg(grid, positionAt(grid, index)));
    turns.cosines[i] = Math.cos(angleRad);
    turns.sines[i] = Math.sin(angleRad);
  }
  shelf.set(grid, turns);
  return turns;
}
