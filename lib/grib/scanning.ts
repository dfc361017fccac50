/** Flag table 3.4 (edition 2) and table 8 (edition 1): the order in which a grid's points stand in the file. */

/** Points of a row run from east to west: 128 does, 64 does not. */
export const scansWestward = (scanningMode: number): boolean => (scanningMode & 0x80) !== 0;

/** Rows run from south to north: 64 does, 0 does not. */
export const scansRowsNorthward = (scanningMode: number): boolean => (scanningMode & 0x40) !== 0;

/** Neighbours in the file lie on one meridian, not on one parallel: 32 does. */
const scansAlongMeridians = (scanningMode: number): boolean => (scanningMode & 0x20) !== 0;

/** Every second row (column) runs the opposite way: 16 does. Edition 2 only. */
const alternatesDirection = (scanningMode: number): boolean => (scanningMode & 0x10) !== 0;

/** Bits 5 to 8: rows or columns shifted by half a step. Such grids are refused. */
export const hasOffsetRows = (scanningMode: number): boolean => (scanningMode & 0x0f) !== 0;

/** Shape of a grid and its scanning mode. */
export interface ScannedGrid {
  readonly ni: number;
  readonly nj: number;
  readonly scanningMode: number;
}

/**
 * Column and row of a point of the file, counted from the grid's first point in the directions of the scan:
 * `iIndex` columns along, `jIndex` rows on.
 */
export function cellOfFileIndex(grid: ScannedGrid, fileIndex: number): { iIndex: number; jIndex: number } {
  const { ni, nj, scanningMode } = grid;
  const alongMeridians = scansAlongMeridians(scanningMode);
  const lineLengthCount = alongMeridians ? nj : ni;
  const lineIndex = Math.floor(fileIndex / lineLengthCount);
  const placeInLine = fileIndex - lineIndex * lineLengthCount;
  const runsBack = alternatesDirection(scanningMode) && lineIndex % 2 === 1;
  const alongIndex = runsBack ? lineLengthCount - 1 - placeInLine : placeInLine;
  return alongMeridians ? { iIndex: lineIndex, jIndex: alongIndex } : { iIndex: alongIndex, jIndex: lineIndex };
}
