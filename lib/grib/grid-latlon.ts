/** Corners, increments and flags of a regular latitude/longitude grid, made consistent. Shared by both editions. */
import { wrap360Deg } from '../units/index.ts';
import type { RegularLatLonGrid } from './grid.ts';
import { scansRowsNorthward, scansWestward } from './scanning.ts';

/** A grid as its section writes it. Increments are null when not given. */
export interface CodedLatLon {
  readonly ni: number;
  readonly nj: number;
  readonly first: { readonly lat: number; readonly lon: number };
  readonly last: { readonly lat: number; readonly lon: number };
  readonly stored: RegularLatLonGrid['stored'];
  readonly scanningMode: number;
}

/** Corners are coded to a millidegree (edition 1) or microdegree; 2 millidegrees covers both roundings. */
const CORNER_TOLERANCE_DEG = 0.002;

/** The grid, or one sentence that says why its octets contradict one another. */
export function regularLatLon(coded: CodedLatLon): RegularLatLonGrid | string {
  const contradiction = contradictionIn(coded);
  if (contradiction !== null) return contradiction;
  const { ni, nj, first, last, stored, scanningMode } = coded;
  const iIncrementDeg = ni === 1 ? 0 : lonSpanDeg(coded) / (ni - 1);
  const jIncrementDeg = nj === 1 ? 0 : Math.abs(last.lat - first.lat) / (nj - 1);
  const isGlobalInLon = ni > 1 && goesAllTheWayRound(ni, iIncrementDeg);
  return {
    kind: 'regular-latlon',
    ni,
    nj,
    first,
    last,
    iIncrementDeg,
    jIncrementDeg,
    stored,
    scanningMode,
    isGlobalInLon,
  };
}

function contradictionIn(coded: CodedLatLon): string | null {
  const { ni, nj, first, last, scanningMode } = coded;
  if (ni < 1 || nj < 1) return `The grid has ${ni} columns and ${nj} rows.`;
  for (const lat of [first.lat, last.lat]) {
    if (Math.abs(lat) > 90 + CORNER_TOLERANCE_DEG) return `A corner lies at latitude ${lat}.`;
  }
  for (const lon of [first.lon, last.lon]) {
    if (Math.abs(lon) > 360 + CORNER_TOLERANCE_DEG) return `A corner lies at longitude ${lon}.`;
  }
  if (nj > 1 && last.lat > first.lat !== scansRowsNorthward(scanningMode)) {
    return `The rows run from latitude ${first.lat} to ${last.lat}, but the scanning mode ${scanningMode} says the other way.`;
  }
  return ni > 1 && lonSpanDeg(coded) === 0 ? 'All columns lie on one longitude.' : null;
}

/**
 * Degrees from the first to the last column, in the direction of the scan. Corners are coded modulo 360, so
 * equal corners mean a whole turn; the stored increment decides when the last corner was written as a whole turn
 * although the columns stop one short of it.
 */
function lonSpanDeg(coded: CodedLatLon): number {
  const { ni, first, last, stored } = coded;
  const towardScanDeg = scansWestward(coded.scanningMode) ? first.lon - last.lon : last.lon - first.lon;
  const wrappedDeg = wrap360Deg(towardScanDeg);
  const spanDeg = wrappedDeg < CORNER_TOLERANCE_DEG && ni > 1 && Math.abs(towardScanDeg) > 180 ? 360 : wrappedDeg;
  const storedGoesRound =
    stored.iIncrementDeg !== null && Math.abs(stored.iIncrementDeg * ni - 360) < CORNER_TOLERANCE_DEG;
  return spanDeg === 360 && storedGoesRound ? 360 - 360 / ni : spanDeg;
}

/** True when the last column neighbours the first, or repeats it. */
function goesAllTheWayRound(ni: number, iIncrementDeg: number): boolean {
  return iIncrementDeg * ni > 360 - iIncrementDeg / 2;
}
