/** Code-blocks of the plain encoder: arithmetic coder (Annex C) and coding passes (Annex D), coefficient by coefficient. */
import { mqStates } from '../../lib/grib/packing/jpeg-2000/mq-states.table.ts';

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

export type Orientation = 'LL' | 'HL' | 'LH' | 'HH';

/** Coefficients of a sub-band, row by row. */
export interface Block {
  readonly orientation: Orientation;
  readonly columnCount: number;
  readonly rowCount: number;
  readonly values: readonly number[];
}

type Step = readonly [columns: number, rows: number];

const SIDES: readonly Step[] = [
  [-1, 0],
  [1, 0],
];
const ENDS: readonly Step[] = [
  [0, -1],
  [0, 1],
];
const CORNERS: readonly Step[] = [
  [-1, -1],
  [1, -1],
  [-1, 1],
  [1, 1],
];

function contextOfHigh(hv: number, d: number): number {
  if (d >= 3) return 8;
  if (d === 2) return hv >= 1 ? 7 : 6;
  if (d === 1) return hv >= 2 ? 5 : hv === 1 ? 4 : 3;
  return hv >= 2 ? 2 : hv;
}

function contextOfLow(h: number, v: number, d: number): number {
  if (h === 2) return 8;
  if (h === 1 && v >= 1) return 7;
  if (h === 1) return d >= 1 ? 6 : 5;
  if (v === 2) return 4;
  if (v === 1) return 3;
  return d >= 2 ? 2 : d;
}

/** Table D.3: context and turn by the contributions of the sides and of the ends. */
const SIGNS: Readonly<Record<string, readonly [context: number, turn: number]>> = {
  '1,1': [13, 0],
  '1,0': [12, 0],
  '1,-1': [11, 0],
  '0,1': [10, 0],
  '0,0': [9, 0],
  '0,-1': [10, 1],
  '-1,1': [11, 1],
  '-1,0': [12, 1],
  '-1,-1': [13, 1],
};

/** Octets of all passes of a code-block; its greatest magnitude has `planeCount` bits. */
export function encodeBlock(block: Block, planeCount: number): readonly number[] {
  const encoder = new BlockEncoder(block);
  encoder.run(planeCount);
  return encoder.mq.flush();
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
  #at(i: number, step: Step): number | undefined {
    const { columnCount, rowCount } = this.block;
    const column = (i % columnCount) + step[0];
    const row = Math.floor(i / columnCount) + step[1];
    return column < 0 || row < 0 || column >= columnCount || row >= rowCount ? undefined : row * columnCount + column;
  }

  #count(i: number, steps: readonly Step[]): number {
    return steps.filter((step) => this.#significant[this.#at(i, step) ?? -1]).length;
  }

  /** Table D.1, row by row as printed. */
  #zeroContext(i: number): number {
    const sides = this.#count(i, SIDES);
    const ends = this.#count(i, ENDS);
    const d = this.#count(i, CORNERS);
    if (this.block.orientation === 'HH') return contextOfHigh(sides + ends, d);
    return this.block.orientation === 'HL' ? contextOfLow(ends, sides, d) : contextOfLow(sides, ends, d);
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
    const sum = (steps: readonly Step[]): number => {
      const near = steps.map((step) => this.#at(i, step) ?? -1).filter((at) => this.#significant[at]);
      return Math.max(
        -1,
        Math.min(
          1,
          near.reduce((total, at) => total + Math.sign(this.block.values[at] ?? 0), 0),
        ),
      );
    };
    const h = sum(SIDES);
    const v = sum(ENDS);
    const [context, flip] = SIGNS[`${h},${v}`] ?? [0, 0];
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
