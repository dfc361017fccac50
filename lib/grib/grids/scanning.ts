/** Flag table 3.4 (edition 2) and table 8 (edition 1): the order in which a grid's points stand in the file. */
import type { GridShape } from '../grid.ts';

/** Points of a row run from east to west: 128 does, 64 does not. */
export const scansWestward = (scanningMode: number): boolean => (scanningMode & 0x80) !== 0;

/** Rows run from south to north: 64 does, 0 does not. */
export const scansRowsNorthward = (scanningMode: number): boolean => (scanningMode & 0x40) !== 0;

/** Neighbours in the file lie on one meridian, not on one parallel: 32 does. */
export const scansAlongMeridians = (scanningMode: number): boolean => (scanningMode & 0x20) !== 0;

/** Every second row (column) runs the opposite way: 16 does. Edition 2 only. */
const alternatesDirection = (scanningMode: number): boolean => (scanningMode & 0x10) !== 0;

/** Bits 5 to 8: rows or columns shifted by half a step. Such grids are refused. */
export const hasOffsetRows = (scanningMode: number): boolean => (scanningMode & 0x0f) !== 0;

/**
 * A run of points that stand one after another in the file and lie on one parallel or one meridian. `iIndex` and `jIndex`
 * count columns and rows from the grid's first point in the directions of the scan; along the run they change by the steps.
 */
export interface ScanLine {
  /** Index of the run's first point in the file. */
  readonly fileIndex: number;
  readonly pointCount: number;
  readonly iIndex: number;
  readonly jIndex: number;
  /** −1, 0 or 1. */
  readonly iStepCount: number;
  /** −1, 0 or 1. */
  readonly jStepCount: number;
}

/** The lines of a grid in the order of the file. */
export function* scanLines({ ni, nj, scanningMode }: GridShape): Generator<ScanLine> {
  const isAlongMeridians = scansAlongMeridians(scanningMode);
  const [lineCount, pointCount] = isAlongMeridians ? [ni, nj] : [nj, ni];
  for (let lineIndex = 0; lineIndex < lineCount; lineIndex++) {
    const runsBack = alternatesDirection(scanningMode) && lineIndex % 2 === 1;
    const startIndex = runsBack ? pointCount - 1 : 0;
    const stepCount = runsBack ? -1 : 1;
    const fileIndex = lineIndex * pointCount;
    yield isAlongMeridians
      ? { fileIndex, pointCount, iIndex: lineIndex, jIndex: startIndex, iStepCount: 0, jStepCount: stepCount }
      : { fileIndex, pointCount, iIndex: startIndex, jIndex: lineIndex, iStepCount: stepCount, jStepCount: 0 };
  }
}

/** A run of points as `ScanLine`, but columns counted from the west and rows from the south. */
export interface NorthUpLine {
  readonly fileIndex: number;
  readonly pointCount: number;
  readonly columnIndex: number;
  readonly rowIndex: number;
  /** −1, 0 or 1. */
  readonly columnStepCount: number;
  /** −1, 0 or 1. */
  readonly rowStepCount: number;
}

/** The lines of a grid in the order of the file, in columns from the west and rows from the south. */
export function* northUpLines(grid: GridShape): Generator<NorthUpLine> {
  const isWestward = scansWestward(grid.scanningMode);
  const isNorthward = scansRowsNorthward(grid.scanningMode);
  for (const { fileIndex, pointCount, iIndex, jIndex, iStepCount, jStepCount } of scanLines(grid)) {
    yield {
      fileIndex,
      pointCount,
      columnIndex: isWestward ? grid.ni - 1 - iIndex : iIndex,
      rowIndex: isNorthward ? jIndex : grid.nj - 1 - jIndex,
      columnStepCount: isWestward ? -iStepCount : iStepCount,
      rowStepCount: isNorthward ? jStepCount : -jStepCount,
    };
  }
}

/** Whether a row, counted in the order of the file, runs from east to west. */
export const rowRunsBack = (scanningMode: number, jIndex: number): boolean =>
  scansWestward(scanningMode) !== (alternatesDirection(scanningMode) && jIndex % 2 === 1);
