/**
 * A plain JPEG 2000 encoder for tests: one tile, one layer, one code-block in each sub-band, the 5/3 wavelet.
 *
 * Written from the definitions of ISO/IEC 15444-1 without anything of the decoder but its table of probability states, so
 * that an error of one does not hide in the other.
 */
import { type Block, encodeBlock, type Orientation } from './jpeg-2000-block-encoder.ts';

export interface PlainImage {
  readonly columnCount: number;
  readonly rowCount: number;
  /** Of the upper left sample on the reference grid; with the size at most 64. */
  readonly offset: { readonly columnIndex: number; readonly rowIndex: number };
  readonly depthBits: number;
  readonly levelCount: number;
  /** Row by row. */
  readonly samples: readonly number[];
}

/** Annex B.10: bits of a packet header, a zero bit after each octet FF. */
class HeaderBits {
  readonly #octets: number[] = [];
  #value = 0;
  #leftBits = 8;

  put(value: number, widthBits = 1): void {
    for (let i = widthBits - 1; i >= 0; i--) {
      this.#leftBits -= 1;
      this.#value += (Math.floor(value / 2 ** i) % 2) * 2 ** this.#leftBits;
      if (this.#leftBits === 0) this.#next();
    }
  }

  #next(): void {
    this.#octets.push(this.#value);
    this.#leftBits = this.#value === 0xff ? 7 : 8;
    this.#value = 0;
  }

  end(): readonly number[] {
    if (this.#leftBits < 8) this.#next();
    if (this.#octets.at(-1) === 0xff) this.#next();
    return this.#octets;
  }
}

/** F.4.8.1 with the mirrored extension of F.3.7; coordinates from `from` on. */
export function analyze53(line: readonly number[], from: number): readonly number[] {
  if (line.length === 1) return from % 2 === 0 ? line : line.map((value) => 2 * value);
  const mirrored = (values: readonly number[], at: number): number => {
    const last = 2 * (line.length - 1);
    const folded = Math.abs(at - from) % last;
    return values[Math.min(folded, last - folded)] ?? 0;
  };
  const high = line.map((value, i) =>
    (i + from) % 2 === 0
      ? value
      : value - Math.floor((mirrored(line, i + from - 1) + mirrored(line, i + from + 1)) / 2),
  );
  return high.map((value, i) =>
    (i + from) % 2 === 0
      ? value + Math.floor((mirrored(high, i + from - 1) + mirrored(high, i + from + 1) + 2) / 4)
      : value,
  );
}

interface Grid {
  readonly fromColumn: number;
  readonly fromRow: number;
  readonly rows: readonly (readonly number[])[];
}

const transpose = (rows: readonly (readonly number[])[]): readonly (readonly number[])[] =>
  (rows[0] ?? []).map((_, column) => rows.map((row) => row[column] ?? 0));

/** One level of the forward transformation (F.4.2): columns first, then rows; and the four kinds of coefficients. */
function decompose(grid: Grid): { readonly low: Grid; readonly bands: readonly Block[] } {
  const columnsDone = transpose(transpose(grid.rows).map((column) => analyze53(column, grid.fromRow)));
  const done = columnsDone.map((row) => analyze53(row, grid.fromColumn));
  const part = (columnParity: number, rowParity: number): readonly (readonly number[])[] =>
    done
      .filter((_, row) => (row + grid.fromRow) % 2 === rowParity)
      .map((row) => row.filter((_value, column) => (column + grid.fromColumn) % 2 === columnParity));
  const low = { fromColumn: Math.ceil(grid.fromColumn / 2), fromRow: Math.ceil(grid.fromRow / 2), rows: part(0, 0) };
  return { low, bands: [toBlock('HL', part(1, 0)), toBlock('LH', part(0, 1)), toBlock('HH', part(1, 1))] };
}

const toBlock = (orientation: Orientation, rows: readonly (readonly number[])[]): Block => ({
  orientation,
  columnCount: rows[0]?.length ?? 0,
  rowCount: rows[0]?.length === 0 ? 0 : rows.length,
  values: rows.flat(),
});

const GUARD_BITS = 4;
/** Five bits hold an exponent. */
const MOST_EXPONENT = 31;
const GAIN = { LL: 0, HL: 1, LH: 1, HH: 2 } as const;
const exponentOf = ({ orientation }: Block, depthBits: number): number =>
  Math.min(MOST_EXPONENT, depthBits + GAIN[orientation]);

/** B.10: one packet with all passes of the blocks of one resolution level. */
function packet(blocks: readonly Block[], depthBits: number): readonly number[] {
  const header = new HeaderBits();
  const body: number[] = [];
  header.put(1);
  for (const block of blocks.filter(({ values }) => values.length > 0)) {
    const greatest = Math.max(...block.values.map(Math.abs));
    const planeCount = greatest === 0 ? 0 : Math.floor(Math.log2(greatest)) + 1;
    header.put(planeCount === 0 ? 0 : 1);
    if (planeCount === 0) continue;
    header.put(1, GUARD_BITS + exponentOf(block, depthBits) - planeCount);
    const octets = encodeBlock(block, planeCount);
    const passCount = 3 * planeCount - 2;
    putPassCount(header, passCount);
    const widthBits = Math.max(3 + Math.floor(Math.log2(passCount)), Math.floor(Math.log2(octets.length)) + 1);
    for (let i = 3 + Math.floor(Math.log2(passCount)); i < widthBits; i++) header.put(1);
    header.put(0);
    header.put(octets.length, widthBits);
    body.push(...octets);
  }
  return [...header.end(), ...body];
}

/** Table B.4. */
function putPassCount(header: HeaderBits, passCount: number): void {
  if (passCount === 1) header.put(0);
  else if (passCount === 2) header.put(0b10, 2);
  else if (passCount <= 5) header.put(0b1100 + passCount - 3, 4);
  else if (passCount <= 36) header.put(0b1111_00000 + passCount - 6, 9);
  else header.put(0b1111_11111 * 128 + passCount - 37, 16);
}

const octets = (value: number, count: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => Math.floor(value / 256 ** (count - 1 - i)) % 256);

/** A whole code-stream, lossless. */
export function encodePlain(image: PlainImage): Uint8Array {
  const { columnCount, rowCount, offset, depthBits, levelCount } = image;
  let grid: Grid = {
    fromColumn: offset.columnIndex,
    fromRow: offset.rowIndex,
    rows: Array.from({ length: rowCount }, (_, row) =>
      image.samples.slice(row * columnCount, (row + 1) * columnCount).map((value) => value - 2 ** (depthBits - 1)),
    ),
  };
  const levels: (readonly Block[])[] = [];
  for (let level = 0; level < levelCount; level++) {
    const { low, bands } = decompose(grid);
    levels.unshift(bands);
    grid = low;
  }
  levels.unshift([toBlock('LL', grid.rows)]);
  // A level without any sample has no precinct, hence no packet.
  const packets = levels.flatMap((bands, level) => (isThere(image, level) ? packet(bands, depthBits) : []));
  const to = [offset.columnIndex + columnCount, offset.rowIndex + rowCount];
  const size = [...to, offset.columnIndex, offset.rowIndex, ...to, 0, 0].flatMap((value) => octets(value, 4));
  const exponents = levels.flat().map((block) => exponentOf(block, depthBits) * 8);
  const segments = [
    [0xff, 0x4f],
    [0xff, 0x51, 0, 41, 0, 0, ...size, 0, 1, depthBits - 1, 1, 1],
    [0xff, 0x52, 0, 12, 0, 0, 0, 1, 0, levelCount, 4, 4, 0, 1],
    [0xff, 0x5c, 0, 3 + exponents.length, GUARD_BITS * 32, ...exponents],
    [0xff, 0x90, 0, 10, 0, 0, ...octets(packets.length + 14, 4), 0, 1],
    [0xff, 0x93, ...packets],
    [0xff, 0xd9],
  ];
  return Uint8Array.from(segments.flat());
}

/** Whether a resolution level has samples (equation B-14). */
function isThere({ columnCount, rowCount, offset, levelCount }: PlainImage, level: number): boolean {
  const scale = 2 ** (levelCount - level);
  const count = (from: number, length: number): number => Math.ceil((from + length) / scale) - Math.ceil(from / scale);
  return count(offset.columnIndex, columnCount) > 0 && count(offset.rowIndex, rowCount) > 0;
}
