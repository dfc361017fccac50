/** Template 5.41: numbers as the points of a PNG image. */
import { viewForRuns } from '../../bits.ts';
import type { LinearScale } from '../../scale.ts';
import { scaleRun } from '../simple-run.ts';
import type { StreamFault } from '../stream-fault.ts';
import { type PngImage, readPngImage } from './read-image.ts';

/** Fills `values` with (number · step + reference) · factor; the image must have as many points. */
export function unpackPng(
  stream: Uint8Array,
  output: { values: Float64Array; scale: LinearScale },
): StreamFault | null {
  const { values, scale } = output;
  const image = readPngImage(stream, values.length);
  if ('expected' in image) return image;
  const rows = isOnePiece(image) ? [values] : rowsOf(values, image);
  const view = viewForRuns(image.rows, { startIndex: 0, lengthOctets: image.rowOctets * image.heightCount });
  for (const [row, points] of rows.entries()) {
    scaleRun({ view, startIndex: row * image.rowOctets, widthBits: image.pointBits }, points, scale);
  }
  return null;
}

/** Whether rows end on whole octets, so that all points stand in one run. */
const isOnePiece = ({ widthCount, pointBits }: PngImage): boolean => (widthCount * pointBits) % 8 === 0;

const rowsOf = (values: Float64Array, { widthCount, heightCount }: PngImage): Float64Array[] =>
  Array.from({ length: heightCount }, (_, row) => values.subarray(row * widthCount, (row + 1) * widthCount));
