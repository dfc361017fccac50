/** The reversible 5/3 wavelet on whole numbers of 32 bits, back from sub-bands to samples (F.3, F.3.8.1). */
import { type Area, columnsOf, rowsOf } from './area.ts';
import type { Plane } from './plane.ts';

/** How a line is split: its low-pass coefficients come first, then its high-pass ones. */
interface Split {
  readonly lowCount: number;
  readonly highCount: number;
  /** 0 when the line begins at an even coordinate, so with a low-pass coefficient; otherwise 1. */
  readonly parity: 0 | 1;
}

/** How a run of coordinates is split. */
export function splitOf(fromIndex: number, toIndex: number): Split {
  const lowCount = Math.ceil(toIndex / 2) - Math.ceil(fromIndex / 2);
  return { lowCount, highCount: toIndex - fromIndex - lowCount, parity: fromIndex % 2 === 0 ? 0 : 1 };
}

/** Columns worked on at a time: long runs for the loops, and the memory of a strip stays small beside the plane. */
const STRIP_COLUMNS = 512;

/** Memory for one line, or for one strip of columns. */
export const waveletMemory = (area: Area): Int32Array =>
  new Int32Array(Math.max(columnsOf(area), Math.min(STRIP_COLUMNS, columnsOf(area)) * rowsOf(area)));

/**
 * 2D_SR: turns the four sub-bands of a level, which lie side by side in the upper left of the plane, into its samples.
 * Rows first, then columns: the order matters, as each rounds.
 *
 * @param area of the level
 * @param memory of `waveletMemory` for this level or a finer one
 */
export function synthesize53(plane: Plane<Int32Array>, area: Area, memory: Int32Array): void {
  const columns = splitOf(area.fromColumnIndex, area.toColumnIndex);
  const rows = splitOf(area.fromRowIndex, area.toRowIndex);
  const width = columnsOf(area);
  for (let row = 0; row < rowsOf(area); row++) {
    const first = row * plane.columnCount;
    synthesizeRow(plane.numbers.subarray(first, first + width), columns, memory);
  }
  for (let fromIndex = 0; fromIndex < width; fromIndex += STRIP_COLUMNS) {
    const strip = { fromIndex, columnCount: Math.min(STRIP_COLUMNS, width - fromIndex), memory };
    synthesizeStrip(plane, rows, strip);
  }
}

/** 1D_SR of one row, in place. */
function synthesizeRow(line: Int32Array, split: Split, memory: Int32Array): void {
  const { lowCount, highCount, parity } = split;
  if (lowCount + highCount === 1) {
    if (parity === 1) halve(line);
    return;
  }
  memory.set(line);
  // One long loop per step on locals: every sample of the image goes through here once for each level.
  const lastHigh = lowCount + highCount - 1;
  for (let n = 0; n < lowCount; n++) {
    const after = lowCount + n + parity;
    const west = memory[after > lowCount ? after - 1 : after] ?? 0;
    const east = memory[after < lastHigh ? after : lastHigh] ?? 0;
    line[2 * n + parity] = (memory[n] ?? 0) - ((west + east + 2) >> 2);
  }
  const lastLow = 2 * (lowCount - 1) + parity;
  for (let n = 0; n < highCount; n++) {
    const at = 2 * n + 1 - parity;
    const west = line[at > 0 ? at - 1 : at + 1] ?? 0;
    const east = line[at < lastLow ? at + 1 : lastLow] ?? 0;
    line[at] = (memory[lowCount + n] ?? 0) + ((west + east) >> 1);
  }
}

/** A line of a single sample at an odd place is stored doubled (F.3.6). */
function halve(lines: Int32Array): void {
  for (let i = 0; i < lines.length; i++) lines[i] = Math.trunc((lines[i] ?? 0) / 2);
}

interface Strip {
  readonly fromIndex: number;
  readonly columnCount: number;
  readonly memory: Int32Array;
}

/** 1D_SR of some columns side by side, in place, row by row. */
function synthesizeStrip(plane: Plane<Int32Array>, split: Split, { fromIndex, columnCount, memory }: Strip): void {
  const { lowCount, highCount, parity } = split;
  const { numbers, columnCount: stride } = plane;
  const rowCount = lowCount + highCount;
  if (rowCount === 1) {
    if (parity === 1) halve(numbers.subarray(fromIndex, fromIndex + columnCount));
    return;
  }
  for (let row = 0; row < rowCount; row++) {
    const first = row * stride + fromIndex;
    memory.set(numbers.subarray(first, first + columnCount), row * columnCount);
  }
  const firstHigh = lowCount * columnCount;
  const lastHigh = (rowCount - 1) * columnCount;
  const lastLow = (2 * (lowCount - 1) + parity) * stride + fromIndex;
  // Each high-pass row follows the low-pass rows beside it at once, while the cache still holds them.
  for (let n = 0; n <= lowCount; n++) {
    const toIndex = (2 * n + parity) * stride + fromIndex;
    if (n < lowCount) {
      const northIndex = firstHigh + Math.max(0, n - 1 + parity) * columnCount;
      const southIndex = Math.min(lastHigh, firstHigh + (n + parity) * columnCount);
      liftLowRow(numbers, memory, { toIndex, ownIndex: n * columnCount, northIndex, southIndex, columnCount });
    }
    const highIndex = n - 1 + parity;
    if (highIndex < 0 || highIndex >= highCount) continue;
    const northIndex = n === 0 ? toIndex : toIndex - 2 * stride;
    const southIndex = Math.min(lastLow, toIndex);
    const ownIndex = firstHigh + highIndex * columnCount;
    liftHighRow(numbers, memory, { toIndex: toIndex - stride, ownIndex, northIndex, southIndex, columnCount });
  }
}

/** First places of the rows that one lifting step reads and writes. */
interface LiftedRows {
  readonly toIndex: number;
  readonly ownIndex: number;
  readonly northIndex: number;
  readonly southIndex: number;
  readonly columnCount: number;
}

/** Equation F-5; the high-pass rows to the north and south are in the strip. */
function liftLowRow(numbers: Int32Array, strip: Int32Array, rows: LiftedRows): void {
  const { toIndex, ownIndex, northIndex, southIndex, columnCount } = rows;
  for (let i = 0; i < columnCount; i++) {
    const sum = (strip[northIndex + i] ?? 0) + (strip[southIndex + i] ?? 0);
    numbers[toIndex + i] = (strip[ownIndex + i] ?? 0) - ((sum + 2) >> 2);
  }
}

/** Equation F-6; the rows to the north and south are finished and in the plane. */
function liftHighRow(numbers: Int32Array, strip: Int32Array, rows: LiftedRows): void {
  const { toIndex, ownIndex, northIndex, southIndex, columnCount } = rows;
  for (let i = 0; i < columnCount; i++) {
    const sum = (numbers[northIndex + i] ?? 0) + (numbers[southIndex + i] ?? 0);
    numbers[toIndex + i] = (strip[ownIndex + i] ?? 0) + (sum >> 1);
  }
}
