/** Section 7 of edition 2: values by data representation template. */
import type { Problem } from '../../result/index.ts';
import type { GribField, PackingMethod } from '../field.ts';
import { unpackCcsds } from '../packing/ccsds/unpack.ts';
import { unpackIeee } from '../packing/ieee.ts';
import { decodeJpeg2000 } from '../packing/jpeg-2000/decode.ts';
import { readCcsdsCoding } from './ccsds-coding.ts';
import { unpackComplex } from '../packing/complex.ts';
import { unpackPng } from '../packing/png/unpack.ts';
import { unpackSimple } from '../packing/simple.ts';
import type { StreamFault } from '../packing/stream-fault.ts';
import { damaged } from '../problems.ts';
import { linearScale, type LinearScale } from '../scale.ts';
import { type Section, viewSection } from '../section.ts';

/** What an unpacker works on. */
interface PackedField {
  readonly bytes: Uint8Array;
  readonly field: GribField;
  /** Section 5. */
  readonly representation: Section;
  /** Section 7. */
  readonly data: Section;
}

/** Fills `values`, as many as are packed; or says why not. */
type Unpacker = (packed: PackedField, values: Float64Array) => Problem | null;

const simple: Unpacker = ({ bytes, field, data }, values) => {
  const { bitsPerValue } = field.packing;
  return unpackSimple(field, { bytes, section: data, firstOctet: 6, bitsPerValue, scale: field.packing }, values);
};

const complex: Unpacker = (packed, values) => unpackComplex(packed.field, packed, values);

/** Fills values from a compressed stream, which begins at octet 6 of Section 7. */
type StreamUnpacker = (
  stream: Uint8Array,
  output: { readonly values: Float64Array; readonly scale: LinearScale },
  representation: Section,
) => StreamFault | null;

const STREAM_OCTET = 6;

const fromStream =
  (unpackStream: StreamUnpacker): Unpacker =>
  ({ bytes, field, representation, data }, values) => {
    const startIndex = data.startIndex + STREAM_OCTET - 1;
    const stream = bytes.subarray(startIndex, data.startIndex + data.lengthOctets);
    const fault = unpackStream(stream, { values, scale: linearScale(field.packing) }, representation);
    if (fault === null) return null;
    const { what, expected } = fault;
    return damaged(field, {
      code: 'grib.data-damaged',
      section: data,
      octet: Math.min(fault.octet + STREAM_OCTET - 1, data.lengthOctets),
      what,
      expected,
    });
  };

/**
 * A field of 0 bits per value stores no numbers: it is its reference value. Encoders in use leave the decimal factor set but
 * store the plain value as reference, so the factor is not applied; both national reference decoders read it this way.
 */
const constantOr =
  (unpacker: Unpacker): Unpacker =>
  (packed, values) => {
    const { bitsPerValue, referenceValue } = packed.field.packing;
    if (bitsPerValue > 0) return unpacker(packed, values);
    values.fill(referenceValue);
    return null;
  };

const ieee: Unpacker = (packed, values) => unpackIeee(packed.field, packed, values);

const ccsds: StreamUnpacker = (stream, output, representation) =>
  unpackCcsds(stream, readCcsdsCoding(representation), output);

const jpeg2000: StreamUnpacker = (stream, { values, scale }) => {
  // In the second half of the values' own memory: value i takes the place of samples before i, which are read by then.
  const halfOctets = values.length * Int32Array.BYTES_PER_ELEMENT;
  const into = new Int32Array(values.buffer, values.byteOffset + halfOctets, values.length);
  const samples = decodeJpeg2000(stream, { sampleCount: values.length, into });
  if ('expected' in samples) return samples;
  const { reference, step, factor } = scale;
  for (let i = 0; i < values.length; i++) values[i] = ((samples[i] ?? 0) * step + reference) * factor;
  return null;
};

/** In complex packing zero bits only mean that the group references take none. */
const UNPACKERS: Readonly<Partial<Record<PackingMethod, Unpacker>>> = {
  simple: constantOr(simple),
  complex,
  ieee,
  'jpeg-2000': constantOr(fromStream(jpeg2000)),
  png: constantOr(fromStream(unpackPng)),
  ccsds: constantOr(fromStream(ccsds)),
};

/**
 * Fills `values`, as many as are packed (Section 5, octets 6-9), of a field without a packing obstacle. Second-order packing
 * is unpacked apart, since its order of points needs the bitmap.
 */
export function unpackEdition2(bytes: Uint8Array, field: GribField, values: Float64Array): Problem | null {
  const unpacker = UNPACKERS[field.packing.method];
  if (unpacker === undefined) throw new Error(`${field.packing.description} was not refused`);
  const representation = viewSection(bytes, 5, field.location.representation);
  const data = viewSection(bytes, 7, field.location.data);
  return unpacker({ bytes, field, representation, data }, values);
}
