/**
 * A second decoder of CCSDS 121.0-B streams, written for plainness: one bit at a time, one sample at a time, whole numbers of any
 * size. It says which options of the coding a stream uses, and its samples check those of the fast decoder.
 */

/** Octets 20 and 22 to 25 of Section 5, template 5.42. */
export interface WalkedCoding {
  readonly bitsPerValue: number;
  /** 8 preprocessed, 16 restricted set, 32 padded intervals; the others change nothing here. */
  readonly optionMaskCode: number;
  readonly blockSampleCount: number;
  readonly intervalBlockCount: number;
}

/** Samples of a stream, and how many blocks use each option. */
export interface Walk {
  readonly samples: readonly bigint[];
  readonly options: ReadonlyMap<string, number>;
}

/** Walks a stream up to the end of the block of its `count`-th sample. Throws where the stream ends before, or is not one. */
export function walkCcsds(stream: Uint8Array, coding: WalkedCoding, count: number): Walk {
  const walker = new Walker(stream, coding, count);
  walker.walk();
  return { samples: walker.samples, options: walker.options };
}

class Walker {
  readonly samples: bigint[] = [];
  readonly options = new Map<string, number>();
  readonly #stream: Uint8Array;
  readonly #coding: WalkedCoding;
  readonly #count: number;
  #bitIndex = 0;

  constructor(stream: Uint8Array, coding: WalkedCoding, count: number) {
    this.#stream = stream;
    this.#coding = coding;
    this.#count = count;
  }

  walk(): void {
    const { intervalBlockCount, blockSampleCount } = this.#coding;
    this.#see(this.#has(8) ? 'preprocessed' : 'not preprocessed', 1);
    if (this.#has(16) && this.#coding.bitsPerValue <= 4) this.#see('restricted set', 1);
    while (this.samples.length < this.#count) {
      const interval: bigint[] = [];
      while (interval.length < intervalBlockCount * blockSampleCount) {
        if (this.samples.length + interval.length >= this.#count) break;
        interval.push(...this.#block(interval.length / blockSampleCount));
      }
      this.samples.push(...this.#undone(interval.slice(0, this.#count - this.samples.length)));
      if (this.#has(32) && this.#bitIndex % 8 !== 0) {
        this.#see('padded interval', 1);
        this.#bitIndex = Math.ceil(this.#bitIndex / 8) * 8;
      }
    }
  }

  /** Numbers of a block, or of a run of zero blocks; a reference sample is the first of them. */
  #block(blockIndex: number): bigint[] {
    const { bitsPerValue, blockSampleCount } = this.#coding;
    const idBits = this.#idBits();
    const id = Number(this.#number(idBits));
    const isSecondExtension = id === 0 && this.#number(1) === 1n;
    const reference = this.#has(8) && blockIndex === 0 ? [this.#number(bitsPerValue)] : [];
    const codedCount = blockSampleCount - reference.length;
    if (isSecondExtension) return [...reference, ...this.#pairs(reference.length)];
    if (id === 0) return [...reference, ...this.#zeros(blockIndex, reference.length)];
    if (id === 2 ** idBits - 1) {
      this.#see('without compression', 1);
      return [...reference, ...this.#times(codedCount, () => this.#number(bitsPerValue))];
    }
    this.#see(`split k=${id - 1}`, 1);
    const quotients = this.#times(codedCount, () => BigInt(this.#zerosBeforeOne()));
    return [...reference, ...quotients.map((q) => (q << BigInt(id - 1)) + this.#number(id - 1))];
  }

  #pairs(referenceCount: number): bigint[] {
    this.#see('second extension', 1);
    const numbers: bigint[] = [];
    while (numbers.length < this.#coding.blockSampleCount) {
      let second = this.#zerosBeforeOne();
      let sum = 0;
      while (second > sum) {
        sum += 1;
        second -= sum;
      }
      numbers.push(BigInt(sum - second), BigInt(second));
    }
    return numbers.slice(referenceCount);
  }

  #zeros(blockIndex: number, referenceCount: number): bigint[] {
    const { blockSampleCount, intervalBlockCount } = this.#coding;
    const coded = this.#zerosBeforeOne() + 1;
    const rest = Math.min(intervalBlockCount - blockIndex, 64 - (blockIndex % 64));
    const blockCount = coded < 5 ? coded : coded === 5 ? rest : coded - 1;
    this.#see(coded === 5 ? 'zero blocks to the end of the segment' : 'zero blocks', 1);
    return Array<bigint>(blockCount * blockSampleCount - referenceCount).fill(0n);
  }

  /** Undoes the prediction of an interval by trying which sample the mapping sends to each number. */
  #undone(interval: readonly bigint[]): bigint[] {
    if (!this.#has(8)) return [...interval];
    const greatest = 2n ** BigInt(this.#coding.bitsPerValue) - 1n;
    const samples: bigint[] = [];
    for (const [i, number] of interval.entries()) {
      const before = samples[i - 1];
      samples.push(before === undefined ? number : sampleMappedTo(number, before, greatest));
    }
    return samples;
  }

  #idBits(): number {
    const { bitsPerValue } = this.#coding;
    if (bitsPerValue > 8) return bitsPerValue > 16 ? 5 : 4;
    if (this.#has(16)) return bitsPerValue <= 2 ? 1 : 2;
    return 3;
  }

  #number(widthBits: number): bigint {
    let number = 0n;
    for (let i = 0; i < widthBits; i++) number = number * 2n + BigInt(this.#bit());
    return number;
  }

  #zerosBeforeOne(): number {
    let count = 0;
    while (this.#bit() === 0) count += 1;
    return count;
  }

  #bit(): number {
    const octet = this.#stream[this.#bitIndex >>> 3];
    if (octet === undefined) throw new Error(`the stream ends after ${this.#stream.length} octets`);
    const bit = (octet >>> (7 - (this.#bitIndex & 7))) & 1;
    this.#bitIndex += 1;
    return bit;
  }

  #times(count: number, take: () => bigint): bigint[] {
    return Array.from({ length: count }, take);
  }

  #has(flag: number): boolean {
    return (this.#coding.optionMaskCode & flag) !== 0;
  }

  #see(option: string, times: number): void {
    this.options.set(option, (this.options.get(option) ?? 0) + times);
  }
}

/** The mapping of the standard (section 4.4, prediction error mapper) for a sample and the one before it. */
function mapped(sample: bigint, before: bigint, greatest: bigint): bigint {
  const difference = sample - before;
  const size = difference < 0n ? -difference : difference;
  const nearest = before < greatest - before ? before : greatest - before;
  if (size > nearest) return nearest + size;
  return difference >= 0n ? 2n * difference : 2n * size - 1n;
}

function sampleMappedTo(number: bigint, before: bigint, greatest: bigint): bigint {
  const half = number / 2n;
  const candidates = [before + half, before - half - 1n, before - half, number, greatest - number];
  const found = candidates.find((x) => x >= 0n && x <= greatest && mapped(x, before, greatest) === number);
  if (found === undefined) throw new Error(`no sample is mapped to ${number}`);
  return found;
}
