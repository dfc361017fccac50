/** Rectangles on the grids of the standard (reference grid, resolution level, sub-band); B.1. */

/** Columns and rows from 0; the ends are exclusive. */
export interface Area {
  readonly fromColumnIndex: number;
  readonly toColumnIndex: number;
  readonly fromRowIndex: number;
  readonly toRowIndex: number;
}

/** A size in columns and rows. */
export interface Extent {
  readonly columnCount: number;
  readonly rowCount: number;
}

export const columnsOf = (area: Area): number => Math.max(0, area.toColumnIndex - area.fromColumnIndex);
export const rowsOf = (area: Area): number => Math.max(0, area.toRowIndex - area.fromRowIndex);
export const isEmpty = (area: Area): boolean => columnsOf(area) === 0 || rowsOf(area) === 0;

/** Every edge put through one function. */
export const mapEdges = (
  area: Area,
  column: (edgeIndex: number) => number,
  row: (edgeIndex: number) => number = column,
): Area => ({
  fromColumnIndex: column(area.fromColumnIndex),
  toColumnIndex: column(area.toColumnIndex),
  fromRowIndex: row(area.fromRowIndex),
  toRowIndex: row(area.toRowIndex),
});

const intersect = (one: Area, other: Area): Area => ({
  fromColumnIndex: Math.max(one.fromColumnIndex, other.fromColumnIndex),
  toColumnIndex: Math.min(one.toColumnIndex, other.toColumnIndex),
  fromRowIndex: Math.max(one.fromRowIndex, other.fromRowIndex),
  toRowIndex: Math.min(one.toRowIndex, other.toRowIndex),
});

/** Cells of a grid of equal cells, anchored at 0, that an area touches. */
export interface CellGrid {
  readonly firstColumnIndex: number;
  readonly firstRowIndex: number;
  readonly columnCount: number;
  readonly rowCount: number;
  readonly cell: Extent;
}

export function cellsOver(area: Area, cell: Extent): CellGrid {
  const firstColumnIndex = Math.floor(area.fromColumnIndex / cell.columnCount);
  const firstRowIndex = Math.floor(area.fromRowIndex / cell.rowCount);
  const isNothing = isEmpty(area);
  return {
    firstColumnIndex,
    firstRowIndex,
    columnCount: isNothing ? 0 : Math.ceil(area.toColumnIndex / cell.columnCount) - firstColumnIndex,
    rowCount: isNothing ? 0 : Math.ceil(area.toRowIndex / cell.rowCount) - firstRowIndex,
    cell,
  };
}

/** The part of an area that lies in one cell of its grid; cells are counted row by row from 0. */
export function cellArea(area: Area, grid: CellGrid, cellIndex: number): Area {
  const column = grid.firstColumnIndex + (cellIndex % grid.columnCount);
  const row = grid.firstRowIndex + Math.floor(cellIndex / grid.columnCount);
  const { columnCount, rowCount } = grid.cell;
  return intersect(area, {
    fromColumnIndex: column * columnCount,
    toColumnIndex: (column + 1) * columnCount,
    fromRowIndex: row * rowCount,
    toRowIndex: (row + 1) * rowCount,
  });
}
