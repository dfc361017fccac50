/** Marker segments of a code-stream: what follows one another in the main header and in tile-part headers (A.2). */
import type { StreamFault } from '../stream-fault.ts';
import { faultAt, leftOut } from './faults.ts';
import { word16 } from './words.ts';

/** Table A.2. */
export const MARKER = {
  SOC: 0xff4f,
  SOT: 0xff90,
  SOD: 0xff93,
  EOC: 0xffd9,
  SIZ: 0xff51,
  COD: 0xff52,
  COC: 0xff53,
  RGN: 0xff5e,
  QCD: 0xff5c,
  QCC: 0xff5d,
  POC: 0xff5f,
  PPM: 0xff60,
  PPT: 0xff61,
  SOP: 0xff91,
  EPH: 0xff92,
  CAP: 0xff50,
} as const;

/** A marker segment; positions count from 0 in the stream. */
export interface MarkerSegment {
  readonly markerCode: number;
  /** Of the marker itself. */
  readonly markerIndex: number;
  /** First octet after the length. */
  readonly bodyIndex: number;
  readonly endIndex: number;
}

/** Octets of the marker and of its length. */
const HEAD_OCTETS = 4;

/** Reads the marker segment at an index: marker, length, body. */
export function readSegment(stream: Uint8Array, markerIndex: number): MarkerSegment | StreamFault {
  const markerCode = word16(stream, markerIndex);
  if (markerIndex + HEAD_OCTETS > stream.length) {
    return faultAt(stream.length, 'The code-stream ends in its header.', 'a marker segment');
  }
  if (markerCode < 0xff00) {
    return faultAt(markerIndex, `${hex(markerCode)} stands where a marker is due.`, 'a marker, FF01 to FFFE');
  }
  const lengthOctets = word16(stream, markerIndex + 2);
  const endIndex = markerIndex + 2 + lengthOctets;
  if (lengthOctets < 2 || endIndex > stream.length) {
    return faultAt(
      markerIndex + 2,
      `Marker segment ${hex(markerCode)} declares ${lengthOctets} octets.`,
      `2 to ${stream.length - markerIndex - 2} octets`,
    );
  }
  return { markerCode, markerIndex, bodyIndex: markerIndex + HEAD_OCTETS, endIndex };
}

export const hex = (code: number): string => code.toString(16).toUpperCase().padStart(4, '0');

const refusedFaculties: Readonly<Record<number, string>> = {
  [MARKER.CAP]: 'extended capabilities (CAP, part 15)',
  [MARKER.POC]: 'changes of the progression order (POC)',
  [MARKER.PPM]: 'packed packet headers (PPM)',
  [MARKER.PPT]: 'packed packet headers (PPT)',
  [MARKER.RGN]: 'a region of interest (RGN)',
};

/** The fault of a marker segment whose faculty is left out; null for all others. */
export function refusedMarker({ markerCode, markerIndex }: MarkerSegment): StreamFault | null {
  const faculty = refusedFaculties[markerCode];
  return faculty === undefined ? null : leftOut(markerIndex, faculty);
}

/** The fault of a marker segment too short for what it must hold; null when it is long enough. */
export const tooShort = (segment: MarkerSegment, neededOctets: number): StreamFault | null =>
  segment.endIndex - segment.bodyIndex >= neededOctets
    ? null
    : faultAt(
        segment.markerIndex + 2,
        `Marker segment ${hex(segment.markerCode)} has ${segment.endIndex - segment.markerIndex - 2} octets.`,
        `at least ${neededOctets + 2} octets`,
      );
