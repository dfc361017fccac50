import { failed, ok, type Result } from '../result/index.ts';
import { wrap180Deg } from '../units/index.ts';
import type { Position } from './position.ts';

interface Axis {
  readonly degreeDigitCount: number;
  readonly positive: string;
  readonly negative: string;
}

const LAT: Axis = { degreeDigitCount: 2, positive: 'N', negative: 'S' };
const LON: Axis = { degreeDigitCount: 3, positive: 'E', negative: 'W' };

/** Degrees and decimal minutes: `34°00.000'S 018°30.000'E`. Rounded once, at the last digit printed. */
export function formatPosition(at: Position, minuteDigitCount = 1): string {
  return `${formatAngle(at.lat, LAT, minuteDigitCount)} ${formatAngle(wrap180Deg(at.lon), LON, minuteDigitCount)}`;
}

/** Latitude alone: `34°00.0'S`. */
export const formatLat = (lat: number, minuteDigitCount = 1): string => formatAngle(lat, LAT, minuteDigitCount);

/** Longitude alone: `018°30.0'E`. */
export const formatLon = (lon: number, minuteDigitCount = 1): string =>
  formatAngle(wrap180Deg(lon), LON, minuteDigitCount);

function formatAngle(angleDeg: number, axis: Axis, minuteDigitCount: number): string {
  const unitsPerMin = 10 ** minuteDigitCount;
  const unitCount = Math.round(Math.abs(angleDeg) * 60 * unitsPerMin);
  const degrees = Math.floor(unitCount / (60 * unitsPerMin));
  const minutes = (unitCount - degrees * 60 * unitsPerMin) / unitsPerMin;
  const minuteWidth = minuteDigitCount === 0 ? 2 : minuteDigitCount + 3;
  const degreeText = String(degrees).padStart(axis.degreeDigitCount, '0');
  const minuteText = minutes.toFixed(minuteDigitCount).padStart(minuteWidth, '0');
  // Nought degrees has no hemisphere; it is written as north or east.
  return `${degreeText}°${minuteText}'${angleDeg < 0 && unitCount > 0 ? axis.negative : axis.positive}`;
}

const ANGLE = String.raw`(\d{1,3}(?:\.\d+)?)(?:\s*[°-]\s*|\s+)?(?:(\d{1,2}(?:\.\d+)?)\s*['′]?\s*)?(?:(\d{1,2}(?:\.\d+)?)\s*["″]\s*)?`;
const HEMISPHERE_LAST = new RegExp(String.raw`^\s*${ANGLE}([NS])[\s,;]*${ANGLE}([EW])\s*$`, 'i');
const HEMISPHERE_FIRST = new RegExp(String.raw`^\s*([NS])\s*${ANGLE}[\s,;]*([EW])\s*${ANGLE}\s*$`, 'i');
const SIGNED = /^\s*([+-]?\d{1,2}(?:\.\d+)?)\s*(?:,|;|\s)\s*([+-]?\d{1,3}(?:\.\d+)?)\s*$/;

/**
 * Reads a position, latitude first: degrees and minutes with hemisphere letters before or after
 * (`12°45.2'N 124°20.1'E`, `S34-12.3 E018-30`, `34 12.3 S, 18 30 E`), seconds if any, or signed decimal degrees.
 *
 * @param where named in the problem
 * @returns the position or `geo.not-a-position`
 */
export function parsePosition(text: string, where: string): Result<Position> {
  const at = parsedOrNull(text);
  if (at !== null && Math.abs(at.lat) <= 90 && Math.abs(at.lon) <= 180) return ok(at);
  return failed({
    code: 'geo.not-a-position',
    where,
    what:
      at === null ? `"${text}" is not a position.` : `"${text}" lies outside the range of latitudes and longitudes.`,
    expected: `latitude up to 90° and longitude up to 180°, such as 34°12.3'S 018°30.0'E or -34.205, 18.5`,
    remedy: 'Write latitude first, then longitude, each with its letter; minutes below 60.',
  });
}

function parsedOrNull(text: string): Position | null {
  const signed = SIGNED.exec(text);
  if (signed !== null) return { lat: Number(signed[1]), lon: Number(signed[2]) };
  const last = HEMISPHERE_LAST.exec(text);
  if (last !== null) return fromParts([...last.slice(1, 4), last[4]], [...last.slice(5, 8), last[8]]);
  const first = HEMISPHERE_FIRST.exec(text);
  if (first !== null) return fromParts([...first.slice(2, 5), first[1]], [...first.slice(6, 9), first[5]]);
  return null;
}

type Parts = readonly (string | undefined)[];

function fromParts(latParts: Parts, lonParts: Parts): Position | null {
  const [lat, lon] = [signedDeg(latParts), signedDeg(lonParts)];
  return lat === null || lon === null ? null : { lat, lon };
}

/** Degrees, minutes, seconds and hemisphere letter to signed degrees; null when minutes or seconds reach 60. */
function signedDeg([degreeText, minuteText = '0', secondText = '0', hemisphere = '']: Parts): number | null {
  const [degrees, minutes, seconds] = [Number(degreeText), Number(minuteText), Number(secondText)];
  if (minutes >= 60 || seconds >= 60) return null;
  const angleDeg = degrees + minutes / 60 + seconds / 3600;
  return /[SW]/i.test(hemisphere) ? -angleDeg : angleDeg;
}
