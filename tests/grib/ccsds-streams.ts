/** The coded samples of tests/golden/ccsds. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { CcsdsCoding } from '../../lib/grib/packing/ccsds/coding.ts';

export interface CodedStream {
  readonly name: string;
  readonly coding: CcsdsCoding;
  readonly samples: readonly number[];
  readonly stream: Uint8Array;
  /** Options of the standard that occur in it. */
  readonly options: readonly string[];
}

interface StoredStream extends Omit<CodedStream, 'samples' | 'stream'> {
  /** A sample, or a sample and how many times it follows itself. */
  readonly samples: readonly (number | readonly [number, number])[];
  /** Base64. */
  readonly stream: string;
}

const file = join(import.meta.dirname, '../golden/ccsds/streams.json');
const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { cases: readonly StoredStream[] };

export const codedStreams: readonly CodedStream[] = cases.map((stored) => ({
  ...stored,
  samples: stored.samples.flatMap((run) =>
    typeof run === 'number' ? [run] : Array.from({ length: run[1] }, () => run[0]),
  ),
  stream: new Uint8Array(Buffer.from(stored.stream, 'base64')),
}));
