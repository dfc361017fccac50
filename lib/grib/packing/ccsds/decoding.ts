/** A stream in the course of being decoded. */
import type { StreamFault } from '../stream-fault.ts';
import type { BitStream } from './bit-stream.ts';
import type { Options } from './coding.ts';
import { WINDOW_CODES } from './quotient-windows.ts';
import type { Samples } from './samples.ts';

export class Decoding {
  readonly bits: BitStream;
  readonly samples: Samples;
  readonly options: Options;
  /** Block of the interval, from 0. */
  blockIndex = 0;
  /** First sample of the block that is coded in it: 1 where a reference sample stands before, else 0. */
  fromIndex = 0;
  /** Quotients of a block, where all are short; the last table entry may reach past the block. */
  readonly shortQuotients: Uint8Array;
  readonly shortQuotientsView: DataView;
  /** Quotients of a block, of any length. */
  readonly quotients: Float64Array;

  constructor(bits: BitStream, samples: Samples, options: Options) {
    this.bits = bits;
    this.samples = samples;
    this.options = options;
    this.shortQuotients = new Uint8Array(options.blockSampleCount + WINDOW_CODES);
    this.shortQuotientsView = new DataView(this.shortQuotients.buffer);
    this.quotients = new Float64Array(options.blockSampleCount);
  }

  /** Where the wanted samples of the block end; the last block of a field may be longer than the field. */
  get toIndex(): number {
    return Math.min(this.options.blockSampleCount, this.fromIndex + this.samples.leftCount);
  }

  /** Says that the block at hand cannot be. */
  fault(what: string, expected: string): StreamFault {
    const { bits } = this;
    return bits.isPastEnd ? this.ended() : { octet: Math.min(bits.octetIndex + 1, bits.lengthOctets), what, expected };
  }

  ended(): StreamFault {
    const { bits, samples } = this;
    return {
      octet: Math.max(bits.lengthOctets, 1),
      what: `The stream ends after ${bits.lengthOctets} octets, inside the block of value ${samples.doneCount + 1}.`,
      expected: `${samples.values.length} values`,
    };
  }
}
