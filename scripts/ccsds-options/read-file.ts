/** The fields of template 5.42 of one file, each decoded by both decoders. */
import { decodePacked, type GribField, scanGrib } from '../../lib/grib/index.ts';
import { walkCcsds, type WalkedCoding } from './walk.ts';

export interface FileOptions {
  readonly fieldCount: number;
  readonly sampleCount: number;
  /** Such as `12 bits, blocks of 32, intervals of 128, mask 14`. */
  readonly codings: readonly string[];
  /** Blocks, or intervals, by option. */
  readonly options: ReadonlyMap<string, number>;
  /** One sentence for each field on which the decoders differ. */
  readonly problems: readonly string[];
}

const CCSDS_TEMPLATE = 42;
const STREAM_OCTET = 6;

/** Fields of 0 bits have no stream and count for none. */
export function readFileOptions(bytes: Uint8Array, fileName: string): FileOptions {
  const codings = new Set<string>();
  const options = new Map<string, number>();
  const problems: string[] = [];
  let sampleCount = 0;
  const fields = scanGrib(bytes, fileName).fields.filter(
    ({ packing }) => packing.templateNumber === CCSDS_TEMPLATE && packing.bitsPerValue > 0,
  );
  for (const field of fields) {
    const coding = codingOf(bytes, field);
    codings.add(describe(coding));
    sampleCount += field.packing.packedCount;
    const walk = walkCcsds(streamOf(bytes, field), coding, field.packing.packedCount);
    for (const [option, times] of walk.options) options.set(option, (options.get(option) ?? 0) + times);
    const problem = difference(bytes, field, walk.samples);
    if (problem !== null) problems.push(`field ${field.fieldNumber}: ${problem}`);
  }
  return { fieldCount: fields.length, sampleCount, codings: [...codings], options, problems };
}

function codingOf(bytes: Uint8Array, field: GribField): WalkedCoding {
  const { startIndex, lengthOctets } = field.location.representation;
  const section = new DataView(bytes.buffer, bytes.byteOffset + startIndex, lengthOctets);
  return {
    bitsPerValue: section.getUint8(19),
    optionMaskCode: section.getUint8(21),
    blockSampleCount: section.getUint8(22),
    intervalBlockCount: section.getUint16(23),
  };
}

function streamOf(bytes: Uint8Array, field: GribField): Uint8Array {
  const { startIndex, lengthOctets } = field.location.data;
  return bytes.subarray(startIndex + STREAM_OCTET - 1, startIndex + lengthOctets);
}

const describe = (coding: WalkedCoding): string =>
  `${coding.bitsPerValue} bits, blocks of ${coding.blockSampleCount}, intervals of ${coding.intervalBlockCount}, ` +
  `mask ${coding.optionMaskCode}`;

/** How the values of the library differ from the samples of the plain decoder, scaled; null where they do not. */
function difference(bytes: Uint8Array, field: GribField, samples: readonly bigint[]): string | null {
  const decoded = decodePacked(bytes, field);
  if (!decoded.ok) return decoded.problems[0].what;
  const { referenceValue, binaryScaleFactor, decimalScaleFactor } = field.packing;
  const step = 2 ** binaryScaleFactor;
  const factor = Number(`1e${-decimalScaleFactor}`);
  const present = decoded.value.filter((value) => !Number.isNaN(value));
  if (present.length !== samples.length) return `${present.length} values, ${samples.length} samples`;
  const index = samples.findIndex((sample, i) => (Number(sample) * step + referenceValue) * factor !== present[i]);
  return index === -1 ? null : `the decoders differ from value ${index + 1} on`;
}
