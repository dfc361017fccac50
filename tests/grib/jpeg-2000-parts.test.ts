/** Parts of the decoder against the worked example and the definitions of the standard. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cellArea, cellsOver } from '../../lib/grib/packing/jpeg-2000/area.ts';
import { isRawPass, passesToTermination } from '../../lib/grib/packing/jpeg-2000/code-blocks.ts';
import { signContexts, zeroContexts } from '../../lib/grib/packing/jpeg-2000/context-tables.ts';
import { MqDecoder, startState } from '../../lib/grib/packing/jpeg-2000/mq-decoder.ts';
import { PacketBits } from '../../lib/grib/packing/jpeg-2000/packet-bits.ts';
import { RawBits } from '../../lib/grib/packing/jpeg-2000/raw-passes.ts';
import { TagTree } from '../../lib/grib/packing/jpeg-2000/tag-tree.ts';
import { synthesize53, waveletMemory } from '../../lib/grib/packing/jpeg-2000/wavelet-53.ts';
import { filter53, filter97, synthesizeWide } from '../../lib/grib/packing/jpeg-2000/wavelet-wide.ts';
import { analyze53 } from './jpeg-2000-encoder.ts';

const fromHex = (hex: string): Uint8Array =>
  Uint8Array.from(hex.match(/../g) ?? [], (pair) => Number.parseInt(pair, 16));

describe('MqDecoder', () => {
  // ITU-T T.88 (ISO/IEC 14492), H.2: test sequence for the arithmetic coder that both standards share.
  const coded = '84C73BFCE1A1430402200000410DBB86F4317FFF88FF37471ADB6ADFFFAC';
  const decoded = '00020051000000C00352872AAAAAAAAA82C02000FCD79EF6BF7FED904F46A3BF';

  it('the test sequence of T.88 H.2: its 256 symbols', () => {
    const mq = new MqDecoder(1);
    mq.contexts[0] = startState(0);
    mq.start(fromHex(coded), 0);
    const digits = Array.from({ length: 64 }, () => [0, 1, 2, 3].reduce((digit) => 2 * digit + mq.decode(0), 0));
    expect(digits.map((digit) => digit.toString(16).toUpperCase()).join('')).toBe(decoded);
  });

  it('from another place of the octets, with FF FF behind: the same first 32 symbols, as many ones', () => {
    const mq = new MqDecoder(1);
    mq.contexts[0] = startState(0);
    mq.start(fromHex(`AA${coded}FFFF`), 1);
    const symbols = Array.from({ length: 256 }, () => mq.decode(0));
    expect(Number.parseInt(symbols.slice(0, 32).join(''), 2)).toBe(0x0002_0051);
    const ones = decoded.split('').map((digit) => Number.parseInt(digit, 16).toString(2).replaceAll('0', ''));
    expect(symbols.filter((symbol) => symbol === 1)).toHaveLength(ones.join('').length);
  });
});

describe('contexts', () => {
  // Bits: NW 0, N 1, NE 2, W 3, E 5, SW 6, S 7, SE 8.
  it.each([
    ['LL', 0, 0],
    ['LL', 0b000_101_000, 8],
    ['LH', 0b010_001_000, 7],
    ['LH', 0b001_001_000, 6],
    ['LH', 0b000_001_000, 5],
    ['LL', 0b010_000_010, 4],
    ['LL', 0b010_000_000, 3],
    ['LL', 0b101_000_000, 2],
    ['LL', 0b001_000_000, 1],
    ['HL', 0b010_000_010, 8],
    ['HL', 0b000_101_000, 4],
    ['HH', 0b101_000_001, 8],
    ['HH', 0b101_001_000, 7],
    ['HH', 0b101_000_000, 6],
    ['HH', 0b001_101_000, 5],
    ['HH', 0b001_001_000, 4],
    ['HH', 0b001_000_000, 3],
    ['HH', 0b010_001_000, 2],
    ['HH', 0b010_000_000, 1],
  ] as const)('table D.1, %s with neighbours %i: context %i', (orientation, near, context) => {
    expect(zeroContexts[orientation][near]).toBe(context);
  });

  // Bits: significant and negative, for N 1 and 0, W 3 and 2, E 5 and 4, S 7 and 6.
  it.each([
    ['nothing', 0, 9, 0],
    ['west positive', 0b0000_1000, 12, 0],
    ['west negative', 0b0000_1100, 12, 1],
    ['north and south negative', 0b1100_0011, 10, 1],
    ['north positive, south negative', 0b1100_0010, 9, 0],
    ['east and north positive', 0b0010_0010, 13, 0],
    ['east positive, north negative', 0b0010_0011, 11, 0],
    ['east negative, north positive', 0b0011_0010, 11, 1],
    ['all negative', 0b1111_1111, 13, 1],
  ])('tables D.2 and D.3, %s: context and turn', (_name, near, context, turn) => {
    expect(signContexts[near]).toBe(context + 0x80 * turn);
  });
});

describe('codeword segments', () => {
  it('table D.9: bypass ends the first after ten passes, then two raw ones and a clean-up in turn', () => {
    expect([0, 9, 10, 11, 12, 13].map((pass) => passesToTermination(1, pass))).toEqual([10, 1, 2, 1, 1, 2]);
    expect([9, 10, 11, 12, 13].map((pass) => isRawPass(1, pass))).toEqual([false, true, true, false, true]);
    expect([0, 12].map((pass) => passesToTermination(5, pass))).toEqual([1, 1]);
    expect(passesToTermination(0, 7)).toBe(Infinity);
    expect(isRawPass(4, 10)).toBe(false);
  });
});

describe('PacketBits', () => {
  it('an octet FF: the next holds seven bits', () => {
    const bits = new PacketBits(Uint8Array.of(0xff, 0x7f, 0xaa), 0);
    expect(bits.readNumber(15)).toBe(0x7fff);
    expect(bits.readNumber(8)).toBe(0xaa);
    expect(bits.end()).toBe(3);
  });

  it('a header that ends in FF: the stuffed octet belongs to it', () => {
    const bits = new PacketBits(Uint8Array.of(0xff, 0x00, 0x12), 0);
    bits.readNumber(8);
    expect(bits.end()).toBe(2);
    expect(bits.isPastEnd).toBe(false);
  });

  it('more bits than there are: zeros, and it says so', () => {
    const bits = new PacketBits(Uint8Array.of(0xf0), 0);
    expect(bits.readNumber(12)).toBe(0xf00);
    expect(bits.isPastEnd).toBe(true);
  });
});

describe('RawBits', () => {
  it('beyond the end: ones, as an encoder may leave out last octets FF', () => {
    const bits = new RawBits(Uint8Array.of(0xa5));
    expect(Array.from({ length: 8 }, () => bits.readBit()).join('')).toBe('10100101');
    expect(Array.from({ length: 40 }, () => bits.readBit())).not.toContain(0);
  });

  it('after an octet FF: one bit is passed over', () => {
    const bits = new RawBits(Uint8Array.of(0xff, 0x55));
    expect(Array.from({ length: 15 }, () => bits.readBit()).join('')).toBe('111111111010101');
  });
});

describe('TagTree', () => {
  type Rows = readonly (readonly number[])[];

  /** The minima of each two by two numbers. */
  const reduce = (rows: Rows): Rows =>
    Array.from({ length: Math.ceil(rows.length / 2) }, (_, row) =>
      Array.from({ length: Math.ceil((rows[0]?.length ?? 0) / 2) }, (_column, column) =>
        Math.min(...[0, 1, 2, 3].map((i) => rows[2 * row + (i >> 1)]?.[2 * column + (i & 1)] ?? Infinity)),
      ),
    );

  /** B.10.2 from the other side: the bits for one leaf after another, each as far as its threshold asks. */
  function write(grid: Rows, thresholds: readonly number[]): readonly number[] {
    const levels = [grid];
    for (let rows = grid; rows.flat().length > 1;) {
      rows = reduce(rows);
      levels.push(rows);
    }
    const told = new Map<string, { low: number; isKnown: boolean }>();
    const bits: number[] = [];
    const columnCount = grid[0]?.length ?? 0;
    for (const [i, threshold] of thresholds.entries()) {
      const [column, row] = [i % columnCount, Math.floor(i / columnCount) % grid.length];
      let low = 0;
      for (let level = levels.length - 1; level >= 0; level--) {
        const value = levels[level]?.[row >> level]?.[column >> level] ?? 0;
        const key = `${level},${row >> level},${column >> level}`;
        const node = told.get(key) ?? { low: 0, isKnown: false };
        low = Math.max(low, node.low);
        while (!node.isKnown && low < threshold) {
          if (low === value) node.isKnown = true;
          else low += 1;
          bits.push(node.isKnown ? 1 : 0);
        }
        told.set(key, { low, isKnown: node.isKnown });
      }
    }
    return bits;
  }

  const pack = (bits: readonly number[]): Uint8Array => {
    const octets: number[] = [];
    let rest = [...bits];
    while (rest.length > 0) {
      const width = octets.at(-1) === 0xff ? 7 : 8;
      octets.push(Number.parseInt(rest.slice(0, width).join('').padEnd(width, '0'), 2));
      rest = rest.slice(width);
    }
    return Uint8Array.from(octets);
  };

  it('the example of B.10.2 (figure B.13): q(0,0) = 1 and q(1,0) = 3 from 01111 and 001', () => {
    const tree = new TagTree({ columnCount: 6, rowCount: 3 });
    const bits = new PacketBits(pack([0, 1, 1, 1, 1, 0, 0, 1]), 0);
    expect(tree.read(bits, { columnIndex: 0, rowIndex: 0 }, 9)).toBe(1);
    expect(tree.read(bits, { columnIndex: 1, rowIndex: 0 }, 9)).toBe(3);
  });

  it('any grid in rising thresholds: each leaf, as far as it was asked', () => {
    const grids = fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: 1, max: 9 })).chain(([columns, rows]) =>
      fc.array(fc.array(fc.nat(12), { minLength: columns, maxLength: columns }), {
        minLength: rows,
        maxLength: rows,
      }),
    );
    fc.assert(
      fc.property(grids, fc.array(fc.integer({ min: 1, max: 14 }), { minLength: 2, maxLength: 3 }), (grid, rounds) => {
        const columnCount = grid[0]?.length ?? 0;
        const thresholds = rounds.toSorted((a, b) => a - b).flatMap((t) => grid.flatMap((row) => row.map(() => t)));
        const bits = new PacketBits(pack(write(grid, thresholds)), 0);
        const tree = new TagTree({ columnCount, rowCount: grid.length });
        for (const [i, threshold] of thresholds.entries()) {
          const [columnIndex, rowIndex] = [i % columnCount, Math.floor(i / columnCount) % grid.length];
          const value = grid[rowIndex]?.[columnIndex] ?? NaN;
          expect(tree.read(bits, { columnIndex, rowIndex }, threshold)).toBe(Math.min(value, threshold));
        }
        expect(bits.isPastEnd).toBe(false);
      }),
      { seed: 20_260_530, numRuns: 120 },
    );
  });
});

describe('cells', () => {
  it('an area that begins inside a cell: cut to it', () => {
    const area = { fromColumnIndex: 13, toColumnIndex: 30, fromRowIndex: 7, toRowIndex: 9 };
    const grid = cellsOver(area, { columnCount: 8, rowCount: 8 });
    expect(grid).toMatchObject({ firstColumnIndex: 1, firstRowIndex: 0, columnCount: 3, rowCount: 2 });
    expect(cellArea(area, grid, 3)).toEqual({ fromColumnIndex: 13, toColumnIndex: 16, fromRowIndex: 8, toRowIndex: 9 });
  });
});

describe('wavelets', () => {
  const transpose = (rows: readonly (readonly number[])[]): readonly (readonly number[])[] =>
    (rows[0] ?? []).map((_, column) => rows.map((row) => row[column] ?? 0));

  /** Low-pass coefficients of a line before its high-pass ones. */
  const sorted = (line: readonly number[], from: number): readonly number[] =>
    [0, 1].flatMap((parity) => line.filter((_, i) => (i + from) % 2 === parity));

  /** One level forward by the definitions: columns, then rows; sub-bands side by side. */
  const analyze = (rows: readonly (readonly number[])[], column: number, row: number): readonly number[] => {
    const columnsDone = transpose(transpose(rows).map((line) => sorted(analyze53(line, row), row)));
    return columnsDone.flatMap((line) => sorted(analyze53(line, column), column));
  };

  const images = fc
    .record({
      columnCount: fc.integer({ min: 1, max: 24 }),
      rowCount: fc.integer({ min: 1, max: 24 }),
      column: fc.nat(3),
      row: fc.nat(3),
    })
    .chain((frame) =>
      fc.record({
        frame: fc.constant(frame),
        rows: fc.array(
          fc.array(fc.integer({ min: -60_000, max: 60_000 }), {
            minLength: frame.columnCount,
            maxLength: frame.columnCount,
          }),
          { minLength: frame.rowCount, maxLength: frame.rowCount },
        ),
      }),
    );

  it('5/3, any area: undoes the definition, on whole numbers and on doubles alike', () => {
    fc.assert(
      fc.property(images, ({ frame, rows }) => {
        const { columnCount, rowCount, column, row } = frame;
        const area = {
          fromColumnIndex: column,
          toColumnIndex: column + columnCount,
          fromRowIndex: row,
          toRowIndex: row + rowCount,
        };
        const bands = analyze(rows, column, row);
        const whole = { numbers: Int32Array.from(bands), columnCount };
        synthesize53(whole, area, waveletMemory(area));
        expect([...whole.numbers]).toEqual(rows.flat());
        const wide = { numbers: Float64Array.from(bands), columnCount };
        synthesizeWide(wide, area, filter53);
        expect([...wide.numbers]).toEqual(rows.flat());
      }),
      { seed: 20_260_531, numRuns: 300 },
    );
  });

  it('5/3, more columns than one strip: as on doubles', () => {
    const area = { fromColumnIndex: 1, toColumnIndex: 1302, fromRowIndex: 0, toRowIndex: 5 };
    const bands = Int32Array.from({ length: 1301 * 5 }, (_, i) => ((i * 7919) % 2001) - 1000);
    const whole = { numbers: bands.slice(), columnCount: 1301 };
    const wide = { numbers: Float64Array.from(bands), columnCount: 1301 };
    synthesize53(whole, area, waveletMemory(area));
    synthesizeWide(wide, area, filter53);
    expect([...whole.numbers]).toEqual([...wide.numbers]);
  });

  it('9/7, a constant: gain 1 for the low-pass and none for the high-pass coefficients', () => {
    const line = Float64Array.from({ length: 16 }, (_, i) => (i % 2 === 0 ? 100 : 0));
    filter97(line, 0);
    for (const value of line) expect(Math.abs(value - 100)).toBeLessThan(1e-9);
  });

  it('9/7, a high-pass impulse: the synthesis filter of table F.5', () => {
    const line = new Float64Array(21);
    line[10] = 1;
    filter97(line, 1);
    // Even coordinates are odd places here, so place 10 is high-pass. Half-filter of nine taps, rounded to six digits.
    const taps = [0.602_949, -0.266_864, -0.078_223, 0.016_864, 0.026_749];
    for (const [i, tap] of taps.entries()) {
      expect(Math.abs((line[10 + i] ?? NaN) - tap)).toBeLessThan(1e-6);
      expect(Math.abs((line[10 - i] ?? NaN) - tap)).toBeLessThan(1e-6);
    }
  });
});
