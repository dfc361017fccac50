/**
 * Unpacks bzip2, in which some weather services publish: block sorting (Burrows and Wheeler 1994) and Huffman codes.
 *
 * The format has no standard; it is as bzip2 1.0 writes it: blocks of 100 to 900 kB, each with a CRC, streams one after
 * another. Randomised blocks (bzip2 0.9 before 1998) are refused.
 */
import { BitReader } from './bit-reader.ts';
import { crcOfBlock, joinedCrc } from './bzip2-crc.ts';

const BLOCK = 0x3141_5926_5359;
const END = 0x1772_4538_5090;
const GROUP_SYMBOLS = 50;
const MOST_CODE_BITS = 20;
const [RUN_A, RUN_B] = [0, 1];

/** Damage, and where it lies. */
export class Bzip2Damage extends Error {}

/** More comes out of it than is allowed. */
export class TooMuchUnpacked extends Error {}

/**
 * @param mostOctets most octets that may come out
 * @throws Bzip2Damage | TooMuchUnpacked
 */
export function bunzip2(packed: Uint8Array, mostOctets: number): Uint8Array {
  const bits = new BitReader(packed, () => new Bzip2Damage('it ends too early'));
  const blocks: Uint8Array[] = [];
  let sizeOctets = 0;
  do {
    let crc = 0;
    const blockOctets = readHead(bits);
    for (;;) {
      const magic = bits.read(24) * 0x100_0000 + bits.read(24);
      if (magic === END) break;
      if (magic !== BLOCK) throw new Bzip2Damage('a block does not begin as one');
      const itsCrc = bits.read32();
      const block = readBlock(bits, { blockOctets, mostOctets: mostOctets - sizeOctets });
      if (crcOfBlock(block) !== itsCrc) throw new Bzip2Damage('a block has another check sum than is written');
      crc = joinedCrc(crc, itsCrc);
      sizeOctets += block.length;
      blocks.push(block);
    }
    if (bits.read32() !== crc) throw new Bzip2Damage('the whole has another check sum than is written');
    bits.toOctet();
  } while (!bits.isAtEnd());
  const whole = new Uint8Array(sizeOctets);
  let at = 0;
  for (const block of blocks) {
    whole.set(block, at);
    at += block.length;
  }
  return whole;
}

/** `BZh` and the size of blocks in hundreds of thousands of octets. */
function readHead(bits: BitReader): number {
  const magic = bits.read(24);
  const level = bits.read(8) - 0x30;
  if (magic !== 0x42_5a_68 || level < 1 || level > 9) throw new Bzip2Damage('it does not begin as bzip2');
  return level * 100_000;
}

function readBlock(bits: BitReader, most: { blockOctets: number; mostOctets: number }): Uint8Array {
  if (bits.read(1) === 1) throw new Bzip2Damage('a block is randomised, which no program writes any more');
  const originIndex = bits.read(24);
  const used = readUsed(bits);
  const symbolCount = used.length + 2;
  const tableCount = bits.read(3);
  const selectorCount = bits.read(15);
  if (used.length === 0 || tableCount < 2 || tableCount > 6 || selectorCount === 0)
    throw new Bzip2Damage('a block has an impossible head');
  const selectors = readSelectors(bits, { tableCount, selectorCount });
  const tables = Array.from({ length: tableCount }, () => readTable(bits, symbolCount));
  const sorted = readSorted(bits, { used, selectors, tables, blockOctets: most.blockOctets });
  if (originIndex >= sorted.length) throw new Bzip2Damage('a block points past its end');
  return expandRuns(unsort(sorted, originIndex), most.mostOctets);
}

/** Octets that occur in the block, rising. */
function readUsed(bits: BitReader): Uint8Array {
  const rows = bits.read(16);
  const used: number[] = [];
  for (let row = 0; row < 16; row++) {
    if ((rows & (0x8000 >> row)) === 0) continue;
    const columns = bits.read(16);
    for (let column = 0; column < 16; column++) if ((columns & (0x8000 >> column)) !== 0) used.push(row * 16 + column);
  }
  return Uint8Array.from(used);
}

/** Table of each group of 50 symbols, written as places in a list moved to front. */
function readSelectors(bits: BitReader, count: { tableCount: number; selectorCount: number }): Uint8Array {
  const order = Array.from({ length: count.tableCount }, (_, index) => index);
  return Uint8Array.from({ length: count.selectorCount }, () => {
    let place = 0;
    while (bits.read(1) === 1) place++;
    const [table] = order.splice(place, 1);
    if (table === undefined) throw new Bzip2Damage('a block names a table it has not');
    order.unshift(table);
    return table;
  });
}

/** A canonical Huffman code: for each length the first code, how many, and where its symbols begin. */
interface CodeTable {
  readonly firstCodes: Int32Array;
  readonly counts: Int32Array;
  readonly starts: Int32Array;
  readonly symbols: Uint16Array;
}

function readTable(bits: BitReader, symbolCount: number): CodeTable {
  const lengths = new Uint8Array(symbolCount);
  let length = bits.read(5);
  for (let symbol = 0; symbol < symbolCount; symbol++) {
    while (bits.read(1) === 1) length += bits.read(1) === 1 ? -1 : 1;
    if (length < 1 || length > MOST_CODE_BITS) throw new Bzip2Damage('a code has an impossible length');
    lengths[symbol] = length;
  }
  const table: CodeTable = {
    firstCodes: new Int32Array(MOST_CODE_BITS + 1),
    counts: new Int32Array(MOST_CODE_BITS + 1),
    starts: new Int32Array(MOST_CODE_BITS + 1),
    symbols: new Uint16Array(symbolCount),
  };
  let [code, filled] = [0, 0];
  for (let bitCount = 1; bitCount <= MOST_CODE_BITS; bitCount++) {
    table.firstCodes[bitCount] = code;
    table.starts[bitCount] = filled;
    for (const [symbol, itsLength] of lengths.entries()) if (itsLength === bitCount) table.symbols[filled++] = symbol;
    const count = filled - (table.starts[bitCount] ?? 0);
    table.counts[bitCount] = count;
    code = (code + count) << 1;
  }
  return table;
}

function readSymbol(bits: BitReader, table: CodeTable): number {
  let code = 0;
  for (let bitCount = 1; bitCount <= MOST_CODE_BITS; bitCount++) {
    code = (code << 1) | bits.read(1);
    const place = code - (table.firstCodes[bitCount] ?? 0);
    if (place >= 0 && place < (table.counts[bitCount] ?? 0))
      return table.symbols[(table.starts[bitCount] ?? 0) + place] ?? 0;
  }
  throw new Bzip2Damage('a code stands for nothing');
}

interface SortedBlock {
  readonly used: Uint8Array;
  readonly selectors: Uint8Array;
  readonly tables: readonly CodeTable[];
  readonly blockOctets: number;
}

/** The sorted block: symbols are runs of the front octet (in base 2 of digits 1 and 2), places in the list, or the end. */
function readSorted(bits: BitReader, { used, selectors, tables, blockOctets }: SortedBlock): Uint8Array {
  const sorted = new Uint8Array(blockOctets);
  const front = Uint8Array.from(used);
  const endSymbol = used.length + 1;
  let [filled, runOctets, digit] = [0, 0, 1];
  for (let read = 0; ; read++) {
    const table = tables[selectors[Math.floor(read / GROUP_SYMBOLS)] ?? tables.length];
    if (table === undefined) throw new Bzip2Damage('a block has more symbols than groups');
    const symbol = readSymbol(bits, table);
    if (symbol === RUN_A || symbol === RUN_B) {
      runOctets += digit << symbol;
      digit <<= 1;
      if (filled + runOctets > blockOctets) throw new Bzip2Damage('a block is longer than it may be');
      continue;
    }
    sorted.fill(front[0] ?? 0, filled, filled + runOctets);
    filled += runOctets;
    [runOctets, digit] = [0, 1];
    if (symbol === endSymbol) return sorted.subarray(0, filled);
    if (filled >= blockOctets) throw new Bzip2Damage('a block is longer than it may be');
    const octet = front[symbol - 1] ?? 0;
    front.copyWithin(1, 0, symbol - 1);
    front[0] = octet;
    sorted[filled++] = octet;
  }
}

/** Undoes the sorting: from the row of the origin each octet leads to the one after it. */
function unsort(sorted: Uint8Array, originIndex: number): Uint8Array {
  const starts = new Int32Array(257);
  for (const octet of sorted) starts[octet + 1] = (starts[octet + 1] ?? 0) + 1;
  for (let octet = 1; octet <= 256; octet++) starts[octet] = (starts[octet] ?? 0) + (starts[octet - 1] ?? 0);
  const next = new Int32Array(sorted.length);
  for (const [row, octet] of sorted.entries()) {
    const place = starts[octet] ?? 0;
    next[place] = row;
    starts[octet] = place + 1;
  }
  const plain = new Uint8Array(sorted.length);
  let row = next[originIndex] ?? 0;
  for (let at = 0; at < plain.length; at++) {
    plain[at] = sorted[row] ?? 0;
    row = next[row] ?? 0;
  }
  return plain;
}

/** After four equal octets stands how many more of them there are, 0 to 255. */
function expandRuns(plain: Uint8Array, mostOctets: number): Uint8Array {
  const expanded = (emit: (octet: number, count: number) => void): void => {
    let [last, equalCount] = [-1, 0];
    for (const octet of plain) {
      if (equalCount === 4) {
        emit(last, octet);
        [last, equalCount] = [-1, 0];
        continue;
      }
      equalCount = octet === last ? equalCount + 1 : 1;
      last = octet;
      emit(octet, 1);
    }
  };
  let sizeOctets = 0;
  expanded((_, count) => void (sizeOctets += count));
  if (sizeOctets > mostOctets) throw new TooMuchUnpacked('more comes out than is allowed');
  const block = new Uint8Array(sizeOctets);
  let at = 0;
  expanded((octet, count) => {
    block.fill(octet, at, at + count);
    at += count;
  });
  return block;
}
