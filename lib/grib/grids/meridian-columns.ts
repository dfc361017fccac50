/** Columns on meridians: increments and turns of the circle from the corners. Shared by both editions. */
import { wrap360Deg } from '../../units/index.ts';
import type { GridCorners, MeridianColumns } from '../grid.ts';
import { scansWestward } from './scanning.ts';

/** Columns as a section writes them; the increment is null when not given. */
export interface CodedColumns extends GridCorners {
  readonly ni: number;
  readonly storedIncrementDeg: number | null;
  readonly scanningMode: number;
}

/** Corners are coded to a millidegree (edition 1) or microdegree; 2 millidegrees covers both roundings. */
export const CORNER_TOLERANCE_DEG = 0.002;

/** What a corner's octets cannot be, or null. */
export function impossibleCorner({ first, last }: GridCorners): string | null {
  for (const lat of [first.lat, last.lat]) {
    if (Math.abs(lat) > 90 + CORNER_TOLERANCE_DEG) return `A corner lies at latitude ${lat}.`;
  }
  for (const lon of [first.lon, last.lon]) {
    if (Math.abs(lon) > 360 + CORNER_TOLERANCE_DEG) return `A corner lies at longitude ${lon}.`;
  }
  return null;
}

/** Increment and closure of at least one column; a sentence when several columns lie on one meridian. */
export function meridianColumns(coded: CodedColumns): MeridianColumns | string {
  const spanDeg = lonSpanDeg(coded);
  if (coded.ni > 1 && spanDeg === 0) return 'All columns lie on one longitude.';
  const iIncrementDeg = coded.ni === 1 ? 0 : spanDeg / (coded.ni - 1);
  return { iIncrementDeg, isGlobalInLon: coded.ni > 1 && goesAllTheWayRound(coded.ni, iIncrementDeg) };
}

/**
 * Degrees from the first to the last column, in the direction of the scan. Corners are coded modulo 360, so
 * equal corners mean a whole turn; the stored increment decides when the last corner was written as a whole turn
 * although the columns stop one short of it.
 */
export function lonSpanDeg(coded: CodedColumns): number {
  const { ni, first, last, storedIncrementDeg } = coded;
  const towardScanDeg = scansWestward(coded.scanningMode) ? first.lon - last.lon : last.lon - first.lon;
  const wrappedDeg = wrap360Deg(towardScanDeg);
  const spanDeg = wrappedDeg < CORNER_TOLERANCE_DEG && ni > 1 && Math.abs(towardScanDeg) > 180 ? 360 : wrappedDeg;
  const storedGoesRound = storedIncrementDeg !== null && Math.abs(storedIncrementDeg * ni - 360) < CORNER_TOLERANCE_DEG;
  return spanDeg === 360 && storedGoesRound ? 360 - 360 / ni : spanDeg;
}

/** True when the last column neighbours the first, or repeats it. */
export function goesAllTheWayRound(ni: number, iIncrementDeg: number): boolean {
  return iIncrementDeg * ni > 360 - iIncrementDeg / 2;
}
