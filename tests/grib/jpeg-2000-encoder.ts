/**
 * A plain JPEG 2000 encoder for tests: one tile, one layer, one code-block in each sub-band, the 5/3 wavelet.
 *
 * Written from the encoder flows and the definitions of ISO/IEC 15444-1 coefficient by coefficient, without any of the
 * decoder's tables but that of the probability states (C.2), so that an error of one does not hide in the other.
 */
import { mqStates } from '../../lib/grib/packing/jpeg-2000/mq-states.table.ts';

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

/** Figure C.3 and following. */
class MqEncoder {
  readonly #states = new Map<number, { row: number; symbol: number }>();
  readonly #octets = [0];
  #a = 0x8000;
  #c = 0;
  #count = 12;

  encode(context: number, bit: number): void {
    const state = this.#states.get(context) ?? { row: { 0: 4, 17: 3, 18: 46 }[context] ?? 0, symbol: 0 };
    this.#states.set(context, state);
    const [qe, afterMore, afterLess, swaps] = mqStates[state.row] ?? [0, 0, 0, 0];
    this.#a -= qe;
    if (bit === state.symbol) {
      if (this.#a >= 0x8000) {
        this.#c += qe;
        return;
      }
      if (this.#a < qe) this.#a = qe;
      else this.#c += qe;
      state.row = afterMore;
    } else {
      if (this.#a < qe) this.#c += qe;
      else this.#a = qe;
      if (swaps === 1) state.symbol = 1 - state.symbol;
      state.row = afterLess;
    }
    do {
      this.#a *= 2;
      this.#c *= 2;
      this.#count -= 1;
      if (this.#count === 0) this.#byteOut();
    } while (this.#a < 0x8000);
  }

  #byteOut(): void {
    const last = this.#octets.length - 1;
    if (this.#octets[last] !== 0xff && this.#c >= 0x800_0000) {
      this.#octets[last] = (this.#octets[last] ?? 0) + 1;
      this.#c -= 0x800_0000;
    }
    const takenBits = this.#octets[last] === 0xff ? 20 : 19;
    this.#octets.push(Math.floor(this.#c / 2 ** takenBits));
    this.#c %= 2 ** takenBits;
    this.#count = takenBits === 20 ? 7 : 8;
  }

  /** Figure C.11. */
  flush(): readonly number[] {
    const top = this.#c + this.#a;
    this.#c = Math.floor(this.#c / 0x1_0000) * 0x1_0000 + 0xffff;
    if (this.#c >= top) this.#c -= 0x8000;
    for (let i = 0; i < 2; i++) {
      this.#c *= 2 ** this.#count;
      this.#byteOut();
    }
    if (this.#octets.at(-1) === 0xff) this.#octets.pop();
    return this.#octets.slice(1);
  }
}

type Orientation = 'LL' | 'HL' | 'LH' | 'HH';

interface Block {
  readonly orientation: Orientation;
  readonly columnCount: number;
  readonly rowCount: number;
  readonly values: readonly number[];
}

/** Passes over one code-block, coefficient by coefficient (Annex D). */
class BlockEncoder {
  readonly mq = new MqEncoder();
  readonly #significant: boolean[];
  readonly #refined: boolean[];
  #visited: boolean[] = [];
  readonly block: Block;

  constructor(block: Block) {
    this.block = block;
    this.#significant = block.values.map(() => false);
    this.#refined = block.values.map(() => false);
  }

  /** All passes of all planes, the first of which has the number `planeCount - 1`. */
  run(planeCount: number): void {
    for (let plane = planeCount - 1; plane >= 0; plane--) {
      this.#visited = this.block.values.map(() => false);
      if (plane < planeCount - 1) {
        for (const i of this.#scan()) if (!this.#significant[i] && this.#zeroContext(i) !== 0) this.#code(i, plane);
        for (const i of this.#scan()) if (this.#significant[i] && !this.#visited[i]) this.#refine(i, plane);
      }
      this.#cleanUp(plane);
    }
  }

  *#scan(): Generator<number> {
    const { columnCount, rowCount } = this.block;
    for (let top = 0; top < rowCount; top += 4) {
      for (let column = 0; column < columnCount; column++) {
        for (let row = top; row < Math.min(top + 4, rowCount); row++) yield row * columnCount + column;
      }
    }
  }

  /** Indexes of neighbours by step, outside the block undefined. */
  #at(i: number, step: readonly [number, number]): number | undefined {
    const { columnCount, rowCount } = this.block;
    const column = (i % columnCount) + step[0];
    const row = Math.floor(i / columnCount) + step[1];
    return column < 0 || row < 0 || column >= columnCount || row >= rowCount ? undefined : row * columnCount + column;
  }

  #count(i: number, steps: readonly (readonly [number, number])[]): number {
    return steps.filter((step) => this.#significant[this.#at(i, step) ?? -1]).length;
  }

  /** Table D.1, row by row as printed. */
  #zeroContext(i: number): number {
    const sides = this.#count(i, [[-1, 0], [1, 0]]); // prettier-ignore
    const ends = this.#count(i, [[0, -1], [0, 1]]); // prettier-ignore
    const d = this.#count(i, [[-1, -1], [1, -1], [-1, 1], [1, 1]]); // prettier-ignore
    if (this.block.orientation === 'HH') {
      const hv = sides + ends;
      if (d >= 3) return 8;
      if (d === 2) return hv >= 1 ? 7 : 6;
      if (d === 1) return hv >= 2 ? 5 : hv === 1 ? 4 : 3;
      return hv >= 2 ? 2 : hv;
    }
    const [h, v] = this.block.orientation === 'HL' ? [ends, sides] : [sides, ends];
    if (h === 2) return 8;
    if (h === 1 && v >= 1) return 7;
    if (h === 1) return d >= 1 ? 6 : 5;
    if (v === 2) return 4;
    if (v === 1) return 3;
    return d >= 2 ? 2 : d;
  }

  #bit(i: number, plane: number): number {
    return Math.floor(Math.abs(this.block.values[i] ?? 0) / 2 ** plane) % 2;
  }

  #code(i: number, plane: number): void {
    this.#visited[i] = true;
    this.mq.encode(this.#zeroContext(i), this.#bit(i, plane));
    if (this.#bit(i, plane) === 1) this.#sign(i);
  }

  /** Tables D.2 and D.3. */
  #sign(i: number): void {
    const sum = (steps: readonly (readonly [number, number])[]): number => {
      const near = steps.map((step) => this.#at(i, step) ?? -1).filter((at) => this.#significant[at]);
      return Math.max(-1, Math.min(1, near.reduce((total, at) => total + Math.sign(this.block.values[at] ?? 0), 0)));
    };
    const h = sum([[-1, 0], [1, 0]]); // prettier-ignore
    const v = sum([[0, -1], [0, 1]]); // prettier-ignore
    const table: Readonly<Record<string, readonly [number, number]>> = {
      '1,1': [13, 0], '1,0': [12, 0], '1,-1': [11, 0], '0,1': [10, 0], '0,0': [9, 0], // prettier-ignore
      '0,-1': [10, 1], '-1,1': [11, 1], '-1,0': [12, 1], '-1,-1': [13, 1], // prettier-ignore
    };
    const [context, flip] = table[`${h},${v}`] ?? [0, 0];
    const isNegative = (this.block.values[i] ?? 0) < 0;
    this.mq.encode(context, (isNegative ? 1 : 0) ^ flip);
    this.#significant[i] = true;
  }

  #refine(i: number, plane: number): void {
    const context = this.#refined[i] ? 16 : this.#zeroContext(i) !== 0 ? 15 : 14;
    this.mq.encode(context, this.#bit(i, plane));
    this.#refined[i] = true;
  }

  #cleanUp(plane: number): void {
    const order = [...this.#scan()];
    while (order.length > 0) {
      const [i = 0] = order;
      const column = order.slice(0, 4).filter((at) => at % this.block.columnCount === i % this.block.columnCount);
      const isRun = column.length === 4 && Math.floor(i / this.block.columnCount) % 4 === 0;
      const isQuiet = column.every((at) => !this.#significant[at] && !this.#visited[at] && this.#zeroContext(at) === 0);
      if (isRun && isQuiet) {
        const first = column.findIndex((at) => this.#bit(at, plane) === 1);
        this.mq.encode(17, first < 0 ? 0 : 1);
        if (first >= 0) {
          this.mq.encode(18, first >> 1);
          this.mq.encode(18, first & 1);
          this.#sign(column[first] ?? 0);
        }
        order.splice(0, first < 0 ? 4 : first + 1);
      } else {
        order.shift();
        if (!this.#significant[i] && !this.#visited[i]) this.#code(i, plane);
      }
    }
  }
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
    const encoder = new BlockEncoder(block);
    encoder.run(planeCount);
    const octets = encoder.mq.flush();
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
  const header = [
    ...[0xff, 0x4f, 0xff, 0x51, 0, 41, 0, 0, ...size, 0, 1, depthBits - 1, 1, 1],
    ...[0xff, 0x52, 0, 12, 0, 0, 0, 1, 0, levelCount, 4, 4, 0, 1],
    ...[0xff, 0x5c, 0, 3 + exponents.length, GUARD_BITS * 32, ...exponents],
    ...[0xff, 0x90, 0, 10, 0, 0, ...octets(packets.length + 14, 4), 0, 1, 0xff, 0x93],
  ];
  return Uint8Array.from([...header, ...packets, 0xff, 0xd9]);
}

/** Whether a resolution level has samples (equation B-14). */
function isThere({ columnCount, rowCount, offset, levelCount }: PlainImage, level: number): boolean {
  const scale = 2 ** (levelCount - level);
  const count = (from: number, length: number): number => Math.ceil((from + length) / scale) - Math.ceil(from / scale);
  return count(offset.columnIndex, columnCount) > 0 && count(offset.rowIndex, rowCount) > 0;
}
