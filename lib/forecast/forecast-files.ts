/** Octets of forecast files: held as a whole, or taken piece by piece from where they lie. */
import { decodePart, type FramePart, type GribField, type GribScan, scanGrib } from '../grib/index.ts';
import type { Problem, Result } from '../result/index.ts';

/** A file as it came. */
export type ForecastFile = HeldFile | UnheldFile;

export interface HeldFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A file too long to be held: its octets are asked for when they are needed. */
export interface UnheldFile {
  readonly name: string;
  readonly unheld: UnheldOctets;
}

export interface UnheldOctets {
  readonly sizeOctets: number;
  /** The file in turn, in pieces that begin with a message or with what stands before one. A piece is gone with the next. */
  readonly pieces: () => Iterable<FilePiece>;
  /** Some octets, as an array of their own; fewer where the file has become shorter. */
  readonly read: (startIndex: number, lengthOctets: number) => Uint8Array;
}

export interface FilePiece {
  /** Octets before it in the file. */
  readonly startIndex: number;
  readonly bytes: Uint8Array;
}

/** A field, and octets it can be decoded of. */
export interface FieldSource {
  readonly bytes: Uint8Array;
  /** With places counted in these octets. */
  readonly field: GribField;
}

export const sizeOctetsOf = (file: ForecastFile): number =>
  'bytes' in file ? file.bytes.length : file.unheld.sizeOctets;

/** Fields and problems of a file, as `scanGrib`; of one that is not held piece by piece, with places counted in the file. */
export function scanFile(file: ForecastFile): GribScan {
  if ('bytes' in file) return scanGrib(file.bytes, file.name);
  const fields: GribField[] = [];
  const problems: Problem[] = [];
  let messageCount = 0;
  for (const { startIndex, bytes } of file.unheld.pieces()) {
    const scan = scanGrib(bytes, startIndex === 0 ? file.name : nameFrom(file.name, startIndex));
    for (const field of scan.fields)
      fields.push(
        moved(field, {
          fileName: file.name,
          byOctets: startIndex,
          messageNumber: messageCount + field.messageNumber,
          fieldNumber: fields.length + 1,
        }),
      );
    messageCount += scan.fields.at(-1)?.messageNumber ?? 0;
    problems.push(...scan.problems);
  }
  return { fields, problems };
}

/** Where to decode a field of the file: the whole of it, or the message alone. */
export function sourceOf(file: ForecastFile, field: GribField): FieldSource {
  if ('bytes' in file) return { bytes: file.bytes, field };
  const { messageOffsetOctet, messageLengthOctets, messageNumber, fieldNumber } = field;
  return {
    bytes: file.unheld.read(messageOffsetOctet, messageLengthOctets),
    field: moved(field, {
      fileName: nameFrom(file.name, messageOffsetOctet),
      byOctets: -messageOffsetOctet,
      messageNumber,
      fieldNumber,
    }),
  };
}

/** Decodes a part of a field; `scratch` as for `decodePart`. */
export function decodeOf(
  file: ForecastFile,
  field: GribField,
  of: { readonly part: FramePart | null; readonly scratch: Float64Array },
): Result<Float32Array> {
  const source = sourceOf(file, field);
  return decodePart(source.bytes, source.field, of);
}

/** Octets that problems count are those from here on. */
const nameFrom = (name: string, startIndex: number): string => `${name}, from octet ${startIndex + 1} on`;

interface Moved extends Pick<GribField, 'fileName' | 'messageNumber' | 'fieldNumber'> {
  readonly byOctets: number;
}

function moved(field: GribField, { byOctets, ...named }: Moved): GribField {
  const { representation, bitmap, data } = field.location;
  const place = <Place extends { readonly startIndex: number }>(of: Place): Place => ({
    ...of,
    startIndex: of.startIndex + byOctets,
  });
  return {
    ...field,
    ...named,
    messageOffsetOctet: field.messageOffsetOctet + byOctets,
    location: {
      representation: place(representation),
      bitmap: bitmap === null ? null : place(bitmap),
      data: place(data),
    },
  };
}
