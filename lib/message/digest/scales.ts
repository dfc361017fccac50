/** Fixed scales of a digest: every number is a whole count of steps above a least value, in so many bits. */
export interface Scale {
  readonly bitCount: number;
  readonly leastN: number;
  readonly stepN: number;
  /** The highest code stands for "not known". */
  readonly hasUnknown: boolean;
}

const known = (bitCount: number, leastN: number, stepN: number): Scale => ({
  bitCount,
  leastN,
  stepN,
  hasUnknown: false,
});
const maybe = (bitCount: number, leastN: number, stepN: number): Scale => ({
  bitCount,
  leastN,
  stepN,
  hasUnknown: true,
});
/** As many steps below zero as above. */
const signed = (bitCount: number, stepN: number): Scale => maybe(bitCount, -(2 ** (bitCount - 1) - 1) * stepN, stepN);

/** In the order of a digest. Units stand in the names. */
export const SCALES = {
  baseHours: known(20, 0, 1),
  firstStepH: known(9, 0, 1),
  stepCount: known(7, 0, 1),
  memberCount: known(7, 0, 1),
  flag: known(1, 0, 1),
  lat: known(14, -90, 0.0125),
  lon: known(15, -180, 0.0125),
  windKn: maybe(7, 0, 0.5),
  windFromDegTrue: known(6, 0, 5.625),
  gustKn: maybe(7, 0, 1),
  seaHeightM: maybe(7, 0, 0.1),
  wavePeriodS: maybe(5, 2, 0.5),
  pressureHpa: maybe(7, 940, 1),
  rainIndex: maybe(3, 0, 1),
  visibilityIndex: maybe(3, 0, 1),
  airC: maybe(6, -20, 1),
  seaWaterC: maybe(6, -3, 1),
  laneWindKn: signed(5, 1),
  laneTurnDeg: signed(5, 5.625),
  laneSeaM: signed(5, 0.1),
  timingH: signed(6, 0.5),
  modeSize: known(6, 0, 1),
  modeCount: known(4, 0, 1),
  modeValue: signed(5, 1),
  scoreSd: signed(5, 0.2),
} as const;

const mostCode = ({ bitCount, hasUnknown }: Scale): number => 2 ** bitCount - (hasUnknown ? 2 : 1);

/** Code of a value: the nearest step within the scale; NaN is "not known". */
export function codeOf(scale: Scale, value: number): number {
  if (Number.isNaN(value)) {
    if (!scale.hasUnknown) throw new Error('a scale without a code for what is not known');
    return 2 ** scale.bitCount - 1;
  }
  return Math.min(mostCode(scale), Math.max(0, Math.round((value - scale.leastN) / scale.stepN)));
}

/** Value of a code; NaN where it is not known. */
export const valueOf = (scale: Scale, code: number): number =>
  scale.hasUnknown && code === 2 ** scale.bitCount - 1 ? Number.NaN : scale.leastN + code * scale.stepN;

/** A value as it arrives. */
export const onScale = (scale: Scale, value: number): number => valueOf(scale, codeOf(scale, value));

/** Direction as it arrives: the scale goes round. */
export function directionOnScale(fromDegTrue: number): number {
  const { bitCount, stepN } = SCALES.windFromDegTrue;
  return (Math.round(fromDegTrue / stepN) % 2 ** bitCount) * stepN;
}

/** Rain by index: nothing to speak of, drizzle, light, moderate, heavy. Values sent stand in the middle of their step. Ours. */
const RAIN_MM_PER_H = [0, 0.2, 1, 4, 10] as const;
const RAIN_FROM_MM_PER_H = [0, 0.1, 0.5, 2.5, 7.6] as const;
/** Visibility by index, rounded down: what is seen at least. */
const VISIBILITY_NM = [0.1, 0.5, 1, 2, 3, 5, 10] as const;

const lastAtOrBelow = (steps: readonly number[], value: number): number =>
  Math.max(
    0,
    steps.findLastIndex((leastN) => value >= leastN),
  );

/** Index of a value in its list; NaN stays NaN. */
export const rainIndexOf = (rainMmPerH: number): number =>
  Number.isNaN(rainMmPerH) ? Number.NaN : lastAtOrBelow(RAIN_FROM_MM_PER_H, rainMmPerH);
export const visibilityIndexOf = (visibilityNm: number): number =>
  Number.isNaN(visibilityNm) ? Number.NaN : lastAtOrBelow(VISIBILITY_NM, visibilityNm);
export const rainOfIndex = (index: number): number => RAIN_MM_PER_H[index] ?? Number.NaN;
export const visibilityOfIndex = (index: number): number => VISIBILITY_NM[index] ?? Number.NaN;
