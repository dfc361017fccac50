/** Coding style, marker segments COD and COC (A.6.1, A.6.2). */
import type { StreamFault } from '../stream-fault.ts';
import type { Extent } from './area.ts';
import { faultAt, leftOut } from './faults.ts';
import { type MarkerSegment, tooShort } from './markers.ts';
import { word16 } from './words.ts';

/** What COD says of the whole tile. */
export interface PacketStyle {
  /** Table A.16: 0 LRCP, 1 RLCP, 2 RPCL, 3 PCRL, 4 CPRL. */
  readonly progressionCode: number;
  readonly layerCount: number;
}

/** Bits of the style of code-blocks, table A.19. */
export const BLOCK_STYLE = {
  bypass: 1,
  resetContexts: 2,
  terminateEachPass: 4,
  verticallyCausal: 8,
  predictableTermination: 16,
  segmentationSymbols: 32,
} as const;

/** What COD or COC says of the component. */
export interface ComponentStyle {
  /** Levels of decomposition, 0 to 32. */
  readonly levelCount: number;
  /** Largest code-block: powers of two, 4 to 1024, at most 4096 samples. */
  readonly codeBlock: Extent;
  /** Bits of `BLOCK_STYLE`. */
  readonly blockStyleCode: number;
  /** The 5/3 wavelet; otherwise 9/7. */
  readonly isReversible: boolean;
  /** Precinct size of each resolution level, coarsest first. */
  readonly precincts: readonly Extent[];
}

export interface CodingStyle {
  readonly packets: PacketStyle;
  readonly component: ComponentStyle;
}

const MOST_LEVELS = 32;
const GREATEST_PRECINCT: Extent = { columnCount: 32_768, rowCount: 32_768 };

/** COD: style of packets, then of the component. */
export function readCodingStyle(stream: Uint8Array, segment: MarkerSegment): CodingStyle | StreamFault {
  const short = tooShort(segment, 10);
  if (short !== null) return short;
  const first = segment.bodyIndex;
  const packets = { progressionCode: stream[first + 1] ?? 0, layerCount: word16(stream, first + 2) };
  if (packets.progressionCode > 4) {
    return faultAt(first + 1, `Progression order ${packets.progressionCode}.`, '0 to 4 (table A.16)');
  }
  if (packets.layerCount === 0) return faultAt(first + 2, 'The code-stream has no layer.', '1 to 65535 layers');
  const ownsPrecincts = ((stream[first] ?? 0) & 1) === 1;
  const component = readComponentStyle(stream, segment, { index: first + 5, ownsPrecincts });
  return 'what' in component ? component : { packets, component };
}

/** COC of component 0. */
export function readComponentOverride(stream: Uint8Array, segment: MarkerSegment): ComponentStyle | StreamFault {
  const short = tooShort(segment, 7) ?? otherComponent(stream, segment);
  if (short !== null) return short;
  const first = segment.bodyIndex;
  const ownsPrecincts = ((stream[first + 1] ?? 0) & 1) === 1;
  return readComponentStyle(stream, segment, { index: first + 2, ownsPrecincts });
}

/** The fault of a segment for a component that the image does not have. */
export function otherComponent(stream: Uint8Array, segment: MarkerSegment): StreamFault | null {
  const componentIndex = stream[segment.bodyIndex] ?? 0;
  return componentIndex === 0
    ? null
    : faultAt(segment.bodyIndex, `A segment for component ${componentIndex} stands in the header.`, 'component 0');
}

/** SPcod and SPcoc, table A.15. */
function readComponentStyle(
  stream: Uint8Array,
  segment: MarkerSegment,
  at: { readonly index: number; readonly ownsPrecincts: boolean },
): ComponentStyle | StreamFault {
  const [levelCount = 0, widthCode = 0, heightCode = 0, blockStyleCode = 0, waveletCode = 0] = stream.subarray(
    at.index,
    at.index + 5,
  );
  if (levelCount > MOST_LEVELS) return faultAt(at.index, `${levelCount} levels of decomposition.`, '0 to 32');
  if (widthCode > 8 || heightCode > 8 || widthCode + heightCode > 8) {
    const what = `Code-blocks of 2^${widthCode + 2} x 2^${heightCode + 2} samples.`;
    return faultAt(at.index + 1, what, '4 to 1024 each way, 4096 samples at most');
  }
  if (blockStyleCode > 63) return leftOut(at.index + 3, `code-blocks of style ${blockStyleCode}`);
  if (waveletCode > 1) return faultAt(at.index + 4, `Wavelet transformation ${waveletCode}.`, '0 (9/7) or 1 (5/3)');
  const precincts = at.ownsPrecincts
    ? readPrecincts(stream, segment, { index: at.index + 5, resolutionCount: levelCount + 1 })
    : Array.from({ length: levelCount + 1 }, () => GREATEST_PRECINCT);
  if ('what' in precincts) return precincts;
  return {
    levelCount,
    codeBlock: { columnCount: 2 ** (widthCode + 2), rowCount: 2 ** (heightCode + 2) },
    blockStyleCode,
    isReversible: waveletCode === 1,
    precincts,
  };
}

/** Table A.21: exponents of the width in the low four bits, of the height in the high four. */
function readPrecincts(
  stream: Uint8Array,
  segment: MarkerSegment,
  at: { readonly index: number; readonly resolutionCount: number },
): readonly Extent[] | StreamFault {
  const short = tooShort(segment, at.index + at.resolutionCount - segment.bodyIndex);
  if (short !== null) return short;
  const codes = [...stream.subarray(at.index, at.index + at.resolutionCount)];
  // Sub-bands above the coarsest level take half a precinct, so a side of one sample has no half.
  const flat = codes.findIndex((code, level) => level > 0 && ((code & 15) === 0 || code >> 4 === 0));
  if (flat > 0) return faultAt(at.index + flat, 'A precinct is one sample wide or high.', 'two samples at least');
  return codes.map((code) => ({ columnCount: 2 ** (code & 15), rowCount: 2 ** (code >> 4) }));
}
