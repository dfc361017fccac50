import type { Position } from '../../geo/index.ts';

/** Tenths of a minute of arc in a degree. */
const STEPS_PER_DEG_COUNT = 600;

/** The position to a tenth of a minute, rounded once. */
export const sendablePosition = ({ lat, lon }: Position): Position => ({
  lat: toTenths(lat),
  lon: toTenths(lon),
});

// Adding nought makes 0 of -0: at the equator there is no south.
const toTenths = (angleDeg: number): number => Math.round(angleDeg * STEPS_PER_DEG_COUNT) / STEPS_PER_DEG_COUNT + 0;

/** `35584S175451W`: degrees, minutes and tenths, hemisphere; latitude first. */
export const formatReportPosition = ({ lat, lon }: Position): string =>
  `${angle(lat, 2)}${lat < 0 ? 'S' : 'N'}${angle(lon, 3)}${lon < 0 ? 'W' : 'E'}`;

function angle(angleDeg: number, degreeDigitCount: number): string {
  const steps = Math.round(Math.abs(angleDeg) * STEPS_PER_DEG_COUNT);
  const degrees = String(Math.floor(steps / STEPS_PER_DEG_COUNT)).padStart(degreeDigitCount, '0');
  return `${degrees}${String(steps % STEPS_PER_DEG_COUNT).padStart(3, '0')}`;
}

/** The position of a text by `formatReportPosition`; null: it is none. */
export function parseReportPosition(text: string): Position | null {
  const match = /^(\d{2})(\d{3})([NS])(\d{3})(\d{3})([EW])$/.exec(text);
  if (match === null) return null;
  const [, latDeg, latTenths, northSouth, lonDeg, lonTenths, eastWest] = match;
  const lat = signed([latDeg, latTenths], northSouth === 'S');
  const lon = signed([lonDeg, lonTenths], eastWest === 'W');
  return lat === null || lon === null || Math.abs(lat) > 90 || Math.abs(lon) > 180 ? null : { lat, lon };
}

function signed([degrees, tenths]: readonly (string | undefined)[], isNegative: boolean): number | null {
  if (Number(tenths) >= STEPS_PER_DEG_COUNT) return null;
  const steps = Number(degrees) * STEPS_PER_DEG_COUNT + Number(tenths);
  return (isNegative ? -steps : steps) / STEPS_PER_DEG_COUNT + 0;
}
