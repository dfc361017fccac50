/**
 * Shape of the default error model; its standard deviations by lead time are those of `lib/weather`.
 *
 * All figures here are ours unless a source is named: no published value was found for a single boat's track.
 */

/** What is left to a member of an ensemble, whose growth with lead the spread already shows: timing and direction. */
export const residualTimingErrorSdH = 1;
export const residualDirectionErrorSdDeg = 12;

/** Correlation of the errors of sea and wind. */
export const windSeaErrorRatio = 0.6;

/**
 * How far ahead of its forecast hour rising wind is drawn, in standard deviations of the timing error. That storms
 * are forecast too slow on average: Froude, Bengtsson & Hodges (2007), Monthly Weather Review 135. The size is ours.
 */
export const earlyBadWeatherSd = 0.3;

/** Part of a level error that lasts through the forecast; the rest drifts and forgets itself in `driftingErrorH`. */
export const lastingErrorRatio = 0.7;
export const driftingErrorH = 24;
/** Distance between the nodes of the drifting part. */
export const driftNodeH = 6;

/** A drawn wind or sea never falls below these: a forecast calm is seldom a flat one. */
export const leastDrawnWindKn = 1;
export const leastDrawnSeaHeightM = 0.2;

/** A drawn gust exceeds its mean at least by this. */
export const leastGustExcessKn = 2;
/** Below this mean a gust's excess stays as it is instead of scaling: in near-calm the ratio means nothing. */
export const gustRatioFromKn = 8;
