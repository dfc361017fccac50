/** Rows and columns of a regular grid around a box. */
import { type FramePart, indexOfPlace, type LatLonFrame } from '../../grib/index.ts';
import { wrap360Deg } from '../../units/index.ts';
import { type Box, lonSpanDeg } from '../box.ts';

/** What lines are taken around. */
export interface Around {
  readonly box: Box;
  readonly spareCellCount: number;
  readonly everyPointCount: number;
}

/** Rows or columns kept: from one on, every n-th. */
export interface Line {
  readonly fromIndex: number;
  readonly count: number;
  readonly everyCount: number;
}

export interface Lines {
  readonly rows: Line;
  readonly columns: Line;
}

const widthOf = ({ count, everyCount }: Line): number => (count - 1) * everyCount + 1;

/** The rectangle from the first to the last line. */
export const partOf = ({ rows, columns }: Lines): FramePart => ({
  rowIndex: rows.fromIndex,
  columnIndex: columns.fromIndex,
  rowCount: widthOf(rows),
  columnCount: widthOf(columns),
});

/** The grid that the lines make. */
export function thinnedFrame(whole: LatLonFrame, { rows, columns }: Lines): LatLonFrame {
  const lonStepDeg = whole.lonStepDeg * columns.everyCount;
  return {
    kind: 'latlon',
    southWest: {
      lat: whole.southWest.lat + rows.fromIndex * whole.latStepDeg,
      lon: whole.southWest.lon + columns.fromIndex * whole.lonStepDeg,
    },
    latStepDeg: whole.latStepDeg * rows.everyCount,
    lonStepDeg,
    rowCount: rows.count,
    columnCount: columns.count,
    wrapsInLon: whole.wrapsInLon && columns.count * columns.everyCount === whole.columnCount,
  };
}

/** Lines; null when the box lies beyond the grid; no lines where every n-th does not come out even. */
export type Cut = Line | 'not-divisible' | null;

export function rowsOf(grid: LatLonFrame, { box, spareCellCount, everyPointCount }: Around): Cut {
  const { rowCount, southWest, latStepDeg } = grid;
  const rowAt = (lat: number): number => indexOfPlace(grid, { lat, lon: southWest.lon }).rowIndex;
  if (latStepDeg === 0) return singleLine(southWest.lat >= box.southWest.lat && southWest.lat <= box.northEast.lat);
  return lineWithin(
    { fromIndex: rowAt(box.southWest.lat), toIndex: rowAt(box.northEast.lat), count: rowCount },
    { spareCellCount, everyPointCount },
  );
}

export function columnsOf(grid: LatLonFrame, { box, spareCellCount, everyPointCount }: Around): Cut {
  const { columnCount, southWest, lonStepDeg } = grid;
  const fromWestDeg = wrap360Deg(box.southWest.lon - southWest.lon);
  if (lonStepDeg === 0) return singleLine(wrap360Deg(southWest.lon - box.southWest.lon) <= lonSpanDeg(box));
  const acrossCount = lonSpanDeg(box) / lonStepDeg;
  const westIndex = fromWestDeg / lonStepDeg;
  if (!grid.wrapsInLon) {
    const overEdge = 360 / lonStepDeg;
    // A box that begins east of the last column may still reach the first ones from the west.
    const fromIndex = westIndex > columnCount - 1 + EDGE_SHARE ? westIndex - overEdge : westIndex;
    // One that goes most of the way round may reach both ends.
    const toIndex = fromIndex + acrossCount >= overEdge ? columnCount - 1 : fromIndex + acrossCount;
    const isRound = fromIndex + acrossCount >= overEdge;
    const within = { fromIndex: isRound ? 0 : fromIndex, toIndex, count: columnCount };
    return lineWithin(within, { spareCellCount, everyPointCount });
  }
  const fromIndex = Math.floor(westIndex + EDGE_SHARE) - spareCellCount;
  const toIndex = Math.ceil(westIndex + acrossCount - EDGE_SHARE) + spareCellCount;
  const count = Math.floor((toIndex - fromIndex + everyPointCount - 1) / everyPointCount) + 1;
  if (count * everyPointCount < columnCount) {
    return { fromIndex: (fromIndex + columnCount) % columnCount, count, everyCount: everyPointCount };
  }
  if (columnCount % everyPointCount !== 0) return 'not-divisible';
  return { fromIndex: 0, count: columnCount / everyPointCount, everyCount: everyPointCount };
}

/** Share of a step by which a place may miss a grid line and still lie on it. */
const EDGE_SHARE = 1e-4;

const singleLine = (isInside: boolean): Cut => (isInside ? { fromIndex: 0, count: 1, everyCount: 1 } : null);

/** Lines around a range, with spare ones, as far as there are any; null when the range lies beyond the ends. */
function lineWithin(
  { fromIndex, toIndex, count }: { readonly fromIndex: number; readonly toIndex: number; readonly count: number },
  { spareCellCount, everyPointCount }: Pick<Around, 'spareCellCount' | 'everyPointCount'>,
): Cut {
  if (toIndex < -EDGE_SHARE || fromIndex > count - 1 + EDGE_SHARE) return null;
  const first = Math.max(0, Math.floor(fromIndex + EDGE_SHARE) - spareCellCount * everyPointCount);
  const last = Math.min(count - 1, Math.ceil(toIndex - EDGE_SHARE) + spareCellCount * everyPointCount);
  // A line alone can hardly be interpolated on: its neighbour comes with it.
  const [low, high] = first === last ? (last < count - 1 ? [first, last + 1] : [first - 1, last]) : [first, last];
  const stepCount = Math.ceil((high - low) / everyPointCount);
  const lowest = Math.min(low, count - 1 - stepCount * everyPointCount);
  return lowest < 0 ? 'not-divisible' : { fromIndex: lowest, count: stepCount + 1, everyCount: everyPointCount };
}
