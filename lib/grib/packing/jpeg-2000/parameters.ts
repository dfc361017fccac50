/** Coding parameters of the image and of single tiles, and which of them holds (A.6, order of precedence). */
import type { StreamFault } from '../stream-fault.ts';
import {
  type CodingStyle,
  type ComponentStyle,
  type PacketStyle,
  readCodingStyle,
  readComponentOverride,
} from './coding-style.ts';
import { faultAt, isFault } from './faults.ts';
import { MARKER, type MarkerSegment, refusedMarker } from './markers.ts';
import { type Quantization, readQuantization, readQuantizationOverride } from './quantization.ts';

/** What the marker segments of one header say; null where the header is silent. */
export interface Parameters {
  readonly style: CodingStyle | null;
  readonly styleOverride: ComponentStyle | null;
  readonly quantization: Quantization | null;
  readonly quantizationOverride: Quantization | null;
}

export const SILENT: Parameters = {
  style: null,
  styleOverride: null,
  quantization: null,
  quantizationOverride: null,
};

/** How a tile is coded. */
export interface TileCoding {
  readonly packets: PacketStyle;
  readonly component: ComponentStyle;
  readonly quantization: Quantization;
}

/** Parameters with what one more marker segment says. Comments, lengths and unknown segments change nothing. */
export function withSegment(
  parameters: Parameters,
  stream: Uint8Array,
  segment: MarkerSegment,
): Parameters | StreamFault {
  const merge = <Key extends keyof Parameters>(key: Key, read: Parameters[Key] | StreamFault) =>
    read !== null && isFault(read) ? read : { ...parameters, [key]: read };
  switch (segment.markerCode) {
    case MARKER.COD:
      return merge('style', readCodingStyle(stream, segment));
    case MARKER.COC:
      return merge('styleOverride', readComponentOverride(stream, segment));
    case MARKER.QCD:
      return merge('quantization', readQuantization(stream, segment));
    case MARKER.QCC:
      return merge('quantizationOverride', readQuantizationOverride(stream, segment));
    default:
      return refusedMarker(segment) ?? parameters;
  }
}

/** What holds for a tile: its own header before the main header, the component's segment before the general one. */
export function tileCoding(
  main: Parameters,
  tile: Parameters,
  at: { readonly markerIndex: number },
): TileCoding | StreamFault {
  const style = tile.style ?? main.style;
  const component = tile.styleOverride ?? tile.style?.component ?? main.styleOverride ?? style?.component;
  const quantization = tile.quantizationOverride ?? tile.quantization ?? main.quantizationOverride ?? main.quantization;
  if (style === null || component === undefined) {
    return faultAt(at.markerIndex, 'No header says how the tile is coded.', 'COD, FF52, before the first tile-part');
  }
  if (quantization === null) {
    return faultAt(
      at.markerIndex,
      'No header says how the tile is quantized.',
      'QCD, FF5C, before the first tile-part',
    );
  }
  if (component.isReversible !== (quantization.styleCode === 0)) {
    const what = `The ${component.isReversible ? '5/3' : '9/7'} wavelet with quantization style ${quantization.styleCode}.`;
    return faultAt(at.markerIndex, what, 'style 0 with 5/3, 1 or 2 with 9/7');
  }
  return { packets: style.packets, component, quantization };
}
