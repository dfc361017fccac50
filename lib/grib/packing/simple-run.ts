/**
 * Long runs of numbers that begin on an octet, read and scaled in one pass. Eight numbers of w bits fill w octets, so each
 * of the eight stands at the same bit of its octet in every round; the offsets are worked out once. Unrolled by hand: it is
 * two to three times as fast as a loop over single numbers.
 */
import type { LinearScale } from '../scale.ts';

/** A run in a view made by `viewForRuns`. */
export interface AlignedRun {
  readonly view: DataView;
  readonly startIndex: number;
  /** 1 to 32. */
  readonly widthBits: number;
}

/** Widest number that four octets hold at any of the eight bit positions. */
const NARROW_BITS = 25;

/** Fills `values` with (number · step + reference) · factor. The caller has checked that the octets exist. */
export function scaleRun(run: AlignedRun, values: Float64Array, scale: LinearScale): void {
  if (run.widthBits === 8) scaleOctets(run, values, scale);
  else if (run.widthBits === 16) scaleOctetPairs(run, values, scale);
  else if (run.widthBits === 32) scaleWords(run, values, scale);
  else if (run.widthBits <= NARROW_BITS) scaleNarrow(run, values, scale);
  else scaleWide(run, values, scale);
}

/** Eight numbers of an octet from two words. */
function scaleOctets({ view, startIndex }: AlignedRun, values: Float64Array, scale: LinearScale): void {
  const { reference, step, factor } = scale;
  const wholeRoundsCount = values.length - (values.length % 8);
  let o = startIndex;
  let i = 0;
  for (; i < wholeRoundsCount; i += 8) {
    const first = view.getUint32(o);
    const second = view.getUint32(o + 4);
    values[i] = ((first >>> 24) * step + reference) * factor;
    values[i + 1] = (((first >>> 16) & 0xff) * step + reference) * factor;
    values[i + 2] = (((first >>> 8) & 0xff) * step + reference) * factor;
    values[i + 3] = ((first & 0xff) * step + reference) * factor;
    values[i + 4] = ((second >>> 24) * step + reference) * factor;
    values[i + 5] = (((second >>> 16) & 0xff) * step + reference) * factor;
    values[i + 6] = (((second >>> 8) & 0xff) * step + reference) * factor;
    values[i + 7] = ((second & 0xff) * step + reference) * factor;
    o += 8;
  }
  scaleRest({ view, startIndex: o, widthBits: 8 }, values, { fromIndex: i, scale });
}

/** Four numbers of two octets from two words. */
function scaleOctetPairs({ view, startIndex }: AlignedRun, values: Float64Array, scale: LinearScale): void {
  const { reference, step, factor } = scale;
  const wholeRoundsCount = values.length - (values.length % 4);
  let o = startIndex;
  let i = 0;
  for (; i < wholeRoundsCount; i += 4) {
    const first = view.getUint32(o);
    const second = view.getUint32(o + 4);
    values[i] = ((first >>> 16) * step + reference) * factor;
    values[i + 1] = ((first & 0xffff) * step + reference) * factor;
    values[i + 2] = ((second >>> 16) * step + reference) * factor;
    values[i + 3] = ((second & 0xffff) * step + reference) * factor;
    o += 8;
  }
  scaleRest({ view, startIndex: o, widthBits: 16 }, values, { fromIndex: i, scale });
}

/** Four numbers of a word each. */
function scaleWords({ view, startIndex }: AlignedRun, values: Float64Array, scale: LinearScale): void {
  const { reference, step, factor } = scale;
  const wholeRoundsCount = values.length - (values.length % 4);
  let o = startIndex;
  let i = 0;
  for (; i < wholeRoundsCount; i += 4) {
    values[i] = (view.getUint32(o) * step + reference) * factor;
    values[i + 1] = (view.getUint32(o + 4) * step + reference) * factor;
    values[i + 2] = (view.getUint32(o + 8) * step + reference) * factor;
    values[i + 3] = (view.getUint32(o + 12) * step + reference) * factor;
    o += 16;
  }
  scaleRest({ view, startIndex: o, widthBits: 32 }, values, { fromIndex: i, scale });
}

function scaleNarrow({ view, startIndex, widthBits }: AlignedRun, values: Float64Array, scale: LinearScale): void {
  const { reference, step, factor } = scale;
  const unused = 32 - widthBits;
  const [octet1, octet2, octet3] = [widthBits >>> 3, (2 * widthBits) >>> 3, (3 * widthBits) >>> 3];
  const [octet4, octet5] = [(4 * widthBits) >>> 3, (5 * widthBits) >>> 3];
  const [octet6, octet7] = [(6 * widthBits) >>> 3, (7 * widthBits) >>> 3];
  const [shift1, shift2, shift3] = [widthBits & 7, (2 * widthBits) & 7, (3 * widthBits) & 7];
  const [shift4, shift5] = [(4 * widthBits) & 7, (5 * widthBits) & 7];
  const [shift6, shift7] = [(6 * widthBits) & 7, (7 * widthBits) & 7];
  const wholeRoundsCount = values.length - (values.length % 8);
  let o = startIndex;
  let i = 0;
  for (; i < wholeRoundsCount; i += 8) {
    values[i] = ((view.getUint32(o) >>> unused) * step + reference) * factor;
    values[i + 1] = (((view.getUint32(o + octet1) << shift1) >>> unused) * step + reference) * factor;
    values[i + 2] = (((view.getUint32(o + octet2) << shift2) >>> unused) * step + reference) * factor;
    values[i + 3] = (((view.getUint32(o + octet3) << shift3) >>> unused) * step + reference) * factor;
    values[i + 4] = (((view.getUint32(o + octet4) << shift4) >>> unused) * step + reference) * factor;
    values[i + 5] = (((view.getUint32(o + octet5) << shift5) >>> unused) * step + reference) * factor;
    values[i + 6] = (((view.getUint32(o + octet6) << shift6) >>> unused) * step + reference) * factor;
    values[i + 7] = (((view.getUint32(o + octet7) << shift7) >>> unused) * step + reference) * factor;
    o += widthBits;
  }
  scaleRest({ view, startIndex: o, widthBits }, values, { fromIndex: i, scale });
}

/** As `scaleNarrow`, with the fifth octet that wide numbers reach into. */
function scaleWide({ view, startIndex, widthBits }: AlignedRun, values: Float64Array, scale: LinearScale): void {
  const { reference, step, factor } = scale;
  const unused = 32 - widthBits;
  const [octet1, octet2, octet3] = [widthBits >>> 3, (2 * widthBits) >>> 3, (3 * widthBits) >>> 3];
  const [octet4, octet5] = [(4 * widthBits) >>> 3, (5 * widthBits) >>> 3];
  const [octet6, octet7] = [(6 * widthBits) >>> 3, (7 * widthBits) >>> 3];
  const [shift1, shift2, shift3] = [widthBits & 7, (2 * widthBits) & 7, (3 * widthBits) & 7];
  const [shift4, shift5] = [(4 * widthBits) & 7, (5 * widthBits) & 7];
  const [shift6, shift7] = [(6 * widthBits) & 7, (7 * widthBits) & 7];
  const wholeRoundsCount = values.length - (values.length % 8);
  let o = startIndex;
  let i = 0;
  for (; i < wholeRoundsCount; i += 8) {
    const word1 = (view.getUint32(o + octet1) << shift1) | (view.getUint8(o + octet1 + 4) >>> (8 - shift1));
    const word2 = (view.getUint32(o + octet2) << shift2) | (view.getUint8(o + octet2 + 4) >>> (8 - shift2));
    const word3 = (view.getUint32(o + octet3) << shift3) | (view.getUint8(o + octet3 + 4) >>> (8 - shift3));
    const word4 = (view.getUint32(o + octet4) << shift4) | (view.getUint8(o + octet4 + 4) >>> (8 - shift4));
    const word5 = (view.getUint32(o + octet5) << shift5) | (view.getUint8(o + octet5 + 4) >>> (8 - shift5));
    const word6 = (view.getUint32(o + octet6) << shift6) | (view.getUint8(o + octet6 + 4) >>> (8 - shift6));
    const word7 = (view.getUint32(o + octet7) << shift7) | (view.getUint8(o + octet7 + 4) >>> (8 - shift7));
    values[i] = ((view.getUint32(o) >>> unused) * step + reference) * factor;
    values[i + 1] = ((word1 >>> unused) * step + reference) * factor;
    values[i + 2] = ((word2 >>> unused) * step + reference) * factor;
    values[i + 3] = ((word3 >>> unused) * step + reference) * factor;
    values[i + 4] = ((word4 >>> unused) * step + reference) * factor;
    values[i + 5] = ((word5 >>> unused) * step + reference) * factor;
    values[i + 6] = ((word6 >>> unused) * step + reference) * factor;
    values[i + 7] = ((word7 >>> unused) * step + reference) * factor;
    o += widthBits;
  }
  scaleRest({ view, startIndex: o, widthBits }, values, { fromIndex: i, scale });
}

/** Any width, number by number, from `fromIndex` to the end: what is left of a round. */
function scaleRest(
  run: AlignedRun,
  values: Float64Array,
  { fromIndex, scale }: { readonly fromIndex: number; readonly scale: LinearScale },
): void {
  const { view, widthBits } = run;
  const { reference, step, factor } = scale;
  const unused = 32 - widthBits;
  // Bits are counted from the octet of the first number, so that they stay small integers.
  let bitIndex = 0;
  for (let i = fromIndex; i < values.length; i++) {
    const octetIndex = run.startIndex + (bitIndex >>> 3);
    const shift = bitIndex & 7;
    const word = (view.getUint32(octetIndex) << shift) | (view.getUint8(octetIndex + 4) >>> (8 - shift));
    values[i] = ((word >>> unused) * step + reference) * factor;
    bitIndex += widthBits;
  }
}
