/** Conversions and angle arithmetic. Definitions: BIPM SI Brochure (9th ed.) for the nautical mile (1852 m) and knot. */

const KN_PER_MPS = 3600 / 1852;
const DEG_PER_RAD = 180 / Math.PI;

/** Speed [m/s] to [kn]. */
export const knFromMps = (speedMps: number): number => speedMps * KN_PER_MPS;

/** Speed [kn] to [m/s]. */
export const mpsFromKn = (speedKn: number): number => speedKn / KN_PER_MPS;

/** Temperature [K] to [°C]. */
export const cFromK = (temperatureK: number): number => temperatureK - 273.15;

/** International foot [m], exact: NIST SP 811, appendix B.6. */
const M_PER_FT = 0.3048;

/** Length [m] to [ft]. */
export const ftFromM = (lengthM: number): number => lengthM / M_PER_FT;

/** Length [ft] to [m]. */
export const mFromFt = (lengthFt: number): number => lengthFt * M_PER_FT;

const F_PER_C = 1.8;
const ICE_POINT_F = 32;

/** Temperature [°C] to [°F]: NIST SP 811, appendix B.8. */
export const fFromC = (temperatureC: number): number => temperatureC * F_PER_C + ICE_POINT_F;

/** Temperature [°F] to [°C]. */
export const cFromF = (temperatureF: number): number => (temperatureF - ICE_POINT_F) / F_PER_C;

/** Difference of two temperatures [°C] to [°F]; the zeros of the scales do not enter. */
export const fStepFromC = (differenceC: number): number => differenceC * F_PER_C;

/** Pressure [Pa] to [hPa]. */
export const hpaFromPa = (pressurePa: number): number => pressurePa / 100;

/** Angle [degrees] to [radians]. */
export const radFromDeg = (angleDeg: number): number => angleDeg / DEG_PER_RAD;

/** Angle [radians] to [degrees]. */
export const degFromRad = (angleRad: number): number => angleRad * DEG_PER_RAD;

/** Wraps an angle into [0, 360) degrees. */
export function wrap360Deg(angleDeg: number): number {
  const wrappedDeg = ((angleDeg % 360) + 360) % 360;
  return wrappedDeg === 360 ? 0 : wrappedDeg;
}

/** Wraps an angle into [-180, 180) degrees: longitudes, signed differences. */
export function wrap180Deg(angleDeg: number): number {
  return wrap360Deg(angleDeg + 180) - 180;
}

/** Wind from its components [same unit in and out]; u toward east, v toward north; direction is FROM, degrees true. */
export function windFromUv(u: number, v: number): { speed: number; fromDegTrue: number } {
  return { speed: Math.hypot(u, v), fromDegTrue: wrap360Deg(degFromRad(Math.atan2(-u, -v))) };
}

/** Components of a wind blowing FROM a direction: u toward east, v toward north, in the unit of `speed`. */
export function uvFromWind(wind: { speed: number; fromDegTrue: number }): { u: number; v: number } {
  const fromRad = radFromDeg(wind.fromDegTrue);
  return { u: -wind.speed * Math.sin(fromRad), v: -wind.speed * Math.cos(fromRad) };
}

/** An amount of data in words, decimal multiples (SI): `824 octets`, `12 kB`, `3.4 MB`, `1.2 GB`. */
export function sizeText(sizeOctets: number): string {
  if (sizeOctets < 1e3) return `${Math.round(sizeOctets)} octets`;
  if (sizeOctets < 1e6) return `${Math.round(sizeOctets / 1e3)} kB`;
  return sizeOctets < 1e9 ? `${(sizeOctets / 1e6).toFixed(1)} MB` : `${(sizeOctets / 1e9).toFixed(1)} GB`;
}
