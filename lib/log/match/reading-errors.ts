/**
 * How far a reading on board may be from the weather it reads: one standard deviation. Common practice, no source: a wind
 * of ten minutes by eye or by an instrument at the masthead of a moving boat, a sea by eye, a barometer read to the half
 * hectopascal.
 */
export const windReadingSdKn = (windKn: number): number => Math.hypot(2, 0.15 * windKn);
export const gustReadingSdKn = (gustKn: number): number => Math.hypot(3, 0.2 * gustKn);
export const seaReadingSdM = (seaHeightM: number): number => Math.max(0.4, 0.2 * seaHeightM);
const PRESSURE_READING_SD_HPA = 0.7;
const DIRECTION_READING_SD_DEG = 12;

/** Part of a light wind that is anybody's: so many knots across it turn what is read. Ours. */
const VARIABLE_WIND_KN = 2;
const LEAST_WIND_KN = 2;
const DEG_PER_RAD = 180 / Math.PI;

/** Direction read in a wind of that speed [°]: 12, and 2 kn of variable wind across. */
export const directionReadingSdDeg = (windKn: number): number =>
  Math.hypot(DIRECTION_READING_SD_DEG, (DEG_PER_RAD * VARIABLE_WIND_KN) / Math.max(LEAST_WIND_KN, windKn));

/**
 * Pressure of a forecast by lead [hPa], the reading included; scenarios carry no pressure error of their own. Growth by
 * 1 hPa a day: ours, no source.
 */
export const pressureSdHpa = (of: { leadH: number; isEnsemble: boolean }): number =>
  of.isEnsemble ? PRESSURE_READING_SD_HPA : Math.hypot(PRESSURE_READING_SD_HPA, of.leadH / 24);
