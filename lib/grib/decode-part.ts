/** Values of a part of a field on its canonical grid, without keeping the rest. */
import { failed, ok, type Problem, type Result } from '../result/index.ts';
import { readRun, viewForRuns } from './bits.ts';
import { decodePacked } from './decode.ts';
import type { GribField } from './field.ts';
import type { EvenGrid, PlacedGrid } from './grid.ts';
import { expandRows } from './grids/expand-rows.ts';
import type { GridFrame } from './grids/frame.ts';
import { frameOfGrid } from './grids/frame-of-grid.ts';
import type { FramePart } from './grids/frame-part.ts';
import { type NorthUpLine, northUpLines } from './grids/scanning.ts';
import { dataTooShort } from './packing/simple.ts';
import { applyScale, linearScale } from './scale.ts';
import { viewSection } from './section.ts';

export interface PartOptions {
  /** Columns and rows wanted, in the frame of the field's grid; null or left out: all. */
  readonly part?: FramePart | null;
  /** Room for the whole field in double precision, at least `pointCount` long, used where the packing allows no less. */
  readonly scratch?: Float64Array;
}

/**
 * Values of a part of a field: rows from south to north, columns from west to east in the grid's own coordinates,
 * `values[j * columnCount + i]`, NaN where missing. Simple packing without a bitmap is read only where lines touch the
 * part; other packings are unpacked whole first.
 *
 * @returns `columnCount` × `rowCount` values, or the problem, as `decodeField`
 */
export function decodePart(bytes: Uint8Array, field: GribField, options: PartOptions = {}): Result<Float32Array> {
  const { grid, obstacles } = field;
  if (obstacles.grid !== null) return failed(obstacles.grid);
  if (grid.kind === 'unsupported') throw new Error('a grid without an obstacle is one that can be placed');
  const frame = frameOfGrid(grid);
  const part = options.part ?? wholeOf(frame);
  const kept: Kept = { frame, part, values: new Float32Array(part.columnCount * part.rowCount) };
  if (hasLines(grid) && isReadInPlace(bytes, field)) {
    const problem = keepLinesInPlace(bytes, { field, grid }, kept);
    return problem === null ? ok(kept.values) : failed(problem);
  }
  const decoded = decodePacked(bytes, field, options.scratch === undefined ? {} : { into: options.scratch });
  if (!decoded.ok) return decoded;
  if (hasLines(grid))
    for (const line of northUpLines(grid)) keepLine(line, decoded.value, { kept, fromIndex: line.fileIndex });
  else keepRows(expandRows(grid, frame, decoded.value), kept);
  return ok(kept.values);
}

const wholeOf = ({ columnCount, rowCount }: GridFrame): FramePart => ({
  columnIndex: 0,
  rowIndex: 0,
  columnCount,
  rowCount,
});

const hasLines = (grid: PlacedGrid): grid is EvenGrid =>
  grid.kind !== 'thinned-latlon' && grid.kind !== 'thinned-gaussian';

/** The part wanted, being filled. */
interface Kept {
  readonly frame: GridFrame;
  readonly part: FramePart;
  readonly values: Float32Array;
}

/** Keeps what of a line lies in the part; the line's values stand in `source` from `fromIndex` on. */
function keepLine(
  line: NorthUpLine,
  source: Float64Array,
  { kept, fromIndex }: { readonly kept: Kept; readonly fromIndex: number },
): void {
  const { frame, part, values } = kept;
  let columnIndex = line.columnIndex;
  let rowIndex = line.rowIndex - part.rowIndex;
  if (line.rowStepCount === 0 && (rowIndex < 0 || rowIndex >= part.rowCount)) return;
  for (let k = 0; k < line.pointCount; k++) {
    const partColumn = columnInPart(columnIndex, frame, part);
    if (partColumn < part.columnCount && rowIndex >= 0 && rowIndex < part.rowCount) {
      values[rowIndex * part.columnCount + partColumn] = source[fromIndex + k] ?? NaN;
    }
    columnIndex += line.columnStepCount;
    rowIndex += line.rowStepCount;
  }
}

/** Columns eastward from the part's first one, round the globe; beyond the part for columns that repeat the first ones. */
function columnInPart(columnIndex: number, { columnCount }: GridFrame, part: FramePart): number {
  if (columnIndex >= columnCount) return part.columnCount;
  const offset = columnIndex - part.columnIndex;
  return offset >= 0 ? offset : offset + columnCount;
}

/** Keeps the part of values that lie on the whole frame. */
function keepRows(whole: Float32Array, { frame, part, values }: Kept): void {
  for (let row = 0; row < part.rowCount; row++) {
    const rowStart = (part.rowIndex + row) * frame.columnCount;
    for (let column = 0; column < part.columnCount; column++) {
      const from = rowStart + ((part.columnIndex + column) % frame.columnCount);
      values[row * part.columnCount + column] = whole[from] ?? NaN;
    }
  }
}

/** Numbers of one width without a bitmap: any of them can be found without reading the others. */
function isReadInPlace(bytes: Uint8Array, { packing, location, obstacles }: GribField): boolean {
  const isThere = location.data.startIndex + location.data.lengthOctets <= bytes.length;
  return (
    obstacles.packing === null &&
    packing.method === 'simple' &&
    packing.bitsPerValue > 0 &&
    location.bitmap === null &&
    isThere
  );
}

/** Octets of the data section before the packed numbers. */
const HEADER_OCTETS = { 1: 11, 2: 5 } as const;

function keepLinesInPlace(
  bytes: Uint8Array,
  { field, grid }: { readonly field: GribField; readonly grid: EvenGrid },
  kept: Kept,
): Problem | null {
  const { edition, packing, location, pointCount } = field;
  const widthBits = packing.bitsPerValue;
  const firstBitIndex = HEADER_OCTETS[edition] * 8;
  if (firstBitIndex + pointCount * widthBits > location.data.lengthOctets * 8) {
    return dataTooShort(field, viewSection(bytes, edition === 2 ? 7 : 4, location.data), pointCount * widthBits);
  }
  const view = viewForRuns(bytes, location.data);
  const scale = linearScale(packing);
  const buffer = new Float64Array(Math.max(grid.ni, grid.nj));
  for (const line of northUpLines(grid)) {
    if (!touches(line, kept)) continue;
    const numbers = buffer.subarray(0, line.pointCount);
    const startBitIndex = firstBitIndex + line.fileIndex * widthBits;
    readRun({ view, startBitIndex, widthBits }, numbers, { fromIndex: 0, toIndex: line.pointCount, addedCount: 0 });
    applyScale(numbers, scale);
    keepLine(line, numbers, { kept, fromIndex: 0 });
  }
  return null;
}

function touches(line: NorthUpLine, { frame, part }: Kept): boolean {
  if (line.columnStepCount === 0) return columnInPart(line.columnIndex, frame, part) < part.columnCount;
  return line.rowIndex >= part.rowIndex && line.rowIndex < part.rowIndex + part.rowCount;
}
