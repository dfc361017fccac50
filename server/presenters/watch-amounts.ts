/** Figures of the watchkeeper; lines that gate work are rounded to the strict side. */

const bare = (text: string): string => text.replace(/\.?0+$/, '');

/** `8.15`: a line one must be above. */
export const leastText = (value: number): string => bare((Math.ceil(value * 100 - 1e-6) / 100).toFixed(2));

/** `10`: a line one must be below. */
export const mostText = (value: number): string => bare((Math.floor(value * 100 + 1e-6) / 100).toFixed(2));

/** `7.6`; `unknown` where there is no figure. */
export const pointsText = (value: number): string =>
  Number.isFinite(value)
    ? value
        .toFixed(1)
        .replace(/^-0\.0$/, '0.0')
        .replace('-', '−')
    : 'unknown';

/** `× 1.32`, to two figures after the point. */
export const timesText = (ratio: number): string => `× ${ratio.toFixed(2).replace(/0$/, '')}`;
