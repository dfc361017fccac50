/** The only user of suncalc 2.x: degrees in and out, azimuth from north, absent events null. */
import { getMoonIllumination, getMoonPosition, getMoonTimes, getPosition, getTimes } from 'suncalc';
import type { Position } from '../geo/index.ts';
import { degFromRad, radFromDeg } from '../units/index.ts';

export type SunEventKind =
  | 'sunrise'
  | 'sunset'
  | 'civil-dawn'
  | 'civil-dusk'
  | 'nautical-dawn'
  | 'nautical-dusk'
  | 'solar-noon';

const SUN_EVENT_NAMES = [
  ['sunrise', 'sunrise'],
  ['sunset', 'sunset'],
  ['civil-dawn', 'dawn'],
  ['civil-dusk', 'dusk'],
  ['nautical-dawn', 'nauticalDawn'],
  ['nautical-dusk', 'nauticalDusk'],
  ['solar-noon', 'solarNoon'],
] as const;

/** Position of the sun as the package gives it: altitude corrected for refraction. */
export function apparentSun(epochMs: number, at: Position): { altitudeDeg: number; azimuthDegTrue: number } {
  const sun = getPosition(dateOf(epochMs, at), at.lat, at.lon);
  return { altitudeDeg: sun.altitude, azimuthDegTrue: sun.azimuth };
}

/** Events of the local solar day that holds the instant; those the day lacks are left out. */
export function sunEventsOfSolarDay(epochMs: number, at: Position): { kind: SunEventKind; epochMs: number }[] {
  // Height 0: the published twilights know no dip of the horizon.
  const times = getTimes(dateOf(epochMs, at), at.lat, at.lon, 0);
  return SUN_EVENT_NAMES.flatMap(([kind, name]) => {
    const instant = times[name];
    return instant === null ? [] : [{ kind, epochMs: instant.getTime() }];
  });
}

/** Apparent altitude of the moon's centre, as the package gives it. */
export function apparentMoonAltitudeDeg(epochMs: number, at: Position): number {
  return getMoonPosition(dateOf(epochMs, at), at.lat, at.lon).altitude;
}

/** Illuminated share of the moon's disc. */
export function moonIllumination(epochMs: number): { illuminatedRatio: number; waxing: boolean } {
  const { fraction, waxing } = getMoonIllumination(new Date(epochMs));
  return { illuminatedRatio: fraction, waxing };
}

/** Rise and set of the moon within the UTC calendar day of the instant. */
export function moonEventsOfUtcDay(epochMs: number, at: Position): { kind: 'moonrise' | 'moonset'; epochMs: number }[] {
  const { rise, set } = getMoonTimes(dateOf(epochMs, at), at.lat, at.lon);
  return [
    ...(rise === undefined ? [] : [{ kind: 'moonrise' as const, epochMs: rise.getTime() }]),
    ...(set === undefined ? [] : [{ kind: 'moonset' as const, epochMs: set.getTime() }]),
  ];
}

/**
 * Geometric altitude [°] from the package's apparent one: undoes its refraction, sources.MEEUS_1998, eq. 16.4.
 *
 * Below the horizon the package adds the refraction of the horizon, a constant 0.48°; above it, R(h).
 */
export function withoutRefractionDeg(apparentDeg: number): number {
  const apparentRad = radFromDeg(apparentDeg);
  const atHorizonRad = refractionRad(0);
  if (apparentRad <= atHorizonRad) return degFromRad(apparentRad - atHorizonRad);
  let geometricRad = apparentRad - refractionRad(apparentRad);
  for (let i = 0; i < 6; i++) geometricRad = apparentRad - refractionRad(geometricRad);
  return degFromRad(geometricRad);
}

function refractionRad(geometricRad: number): number {
  const altitudeRad = Math.max(0, geometricRad);
  return 0.0002967 / Math.tan(altitudeRad + 0.00312536 / (altitudeRad + 0.08901179));
}

/** The package answers nonsense with nulls; we refuse it, it can only be a mistake of ours. */
function dateOf(epochMs: number, at: Position): Date {
  if (!Number.isFinite(epochMs) || !Number.isFinite(at.lat) || !Number.isFinite(at.lon)) {
    throw new Error(`no sky at instant ${epochMs}, latitude ${at.lat}, longitude ${at.lon}`);
  }
  return new Date(epochMs);
}
