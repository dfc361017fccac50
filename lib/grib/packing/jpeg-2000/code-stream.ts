/** Main header of a code-stream, and the way to it through a JP2 file (A.2, Annex I). */
import type { StreamFault } from '../stream-fault.ts';
import { faultAt, isFault } from './faults.ts';
import { type ImageSize, readImageSize } from './image-size.ts';
import { MARKER, readSegment } from './markers.ts';
import { type Parameters, SILENT, withSegment } from './parameters.ts';
import { word16, word32 } from './words.ts';

export interface MainHeader {
  readonly size: ImageSize;
  readonly parameters: Parameters;
  /** Of the first SOT, from 0. */
  readonly endIndex: number;
}

/** Reads SOC, SIZ and all further marker segments up to the first SOT. */
export function readMainHeader(
  stream: Uint8Array,
  from: { readonly startIndex: number; readonly sampleCount: number },
): MainHeader | StreamFault {
  if (word16(stream, from.startIndex) !== MARKER.SOC) {
    return faultAt(from.startIndex, 'This is no JPEG 2000 code-stream.', 'SOC, FF4F');
  }
  const image = readImageSize(stream, { markerIndex: from.startIndex + 2, sampleCount: from.sampleCount });
  if (isFault(image)) return image;
  let parameters = SILENT;
  let markerIndex = image.endIndex;
  while (word16(stream, markerIndex) !== MARKER.SOT) {
    const segment = readSegment(stream, markerIndex);
    if (isFault(segment)) return segment;
    const next = withSegment(parameters, stream, segment);
    if (isFault(next)) return next;
    parameters = next;
    markerIndex = segment.endIndex;
  }
  return { size: image.size, parameters, endIndex: markerIndex };
}

/** First twelve octets of a JP2 file: I.5.1. */
const JP2_SIGNATURE = [0, 0, 0, 12, 0x6a, 0x50, 0x20, 0x20, 0x0d, 0x0a, 0x87, 0x0a];
/** The letters jp2c, type of the box that holds the code-stream: I.5.4. */
const CODE_STREAM_BOX = 0x6a_70_32_63;

/** Index of the code-stream: 0, or inside its box when the stream is a JP2 file. */
export function findCodeStream(stream: Uint8Array): number | StreamFault {
  if (JP2_SIGNATURE.some((octet, index) => stream[index] !== octet)) return 0;
  let index = 0;
  while (index + 8 <= stream.length) {
    const isLong = word32(stream, index) === 1;
    if (word32(stream, index + 4) === CODE_STREAM_BOX) return index + (isLong ? 16 : 8);
    const lengthOctets = isLong
      ? word32(stream, index + 8) * 2 ** 32 + word32(stream, index + 12)
      : word32(stream, index);
    if (lengthOctets < 8) break;
    index += lengthOctets;
  }
  return faultAt(0, 'The JP2 file holds no code-stream.', 'a box jp2c');
}
