/** Alpha factors of sources.DNV_H101_2011, Sec. 4 B700: figures only. */

export type SeaAlphaTable = '4-1' | '4-2' | '4-3' | '4-4' | '4-5';

export interface AlphaRow {
  /** Planned operation period up to and including. */
  readonly periodH: number;
  readonly alphaRatios: readonly number[];
}

/** Columns of the sea tables: significant height [m]; the last holds for all higher seas. */
export const ALPHA_SEA_HEIGHTS_M: readonly number[] = [1, 2, 4, 6];

export const SEA_ALPHA: Readonly<Record<SeaAlphaTable, readonly AlphaRow[]>> = {
  // One forecast (level C).
  '4-1': [
    { periodH: 12, alphaRatios: [0.65, 0.76, 0.79, 0.8] },
    { periodH: 24, alphaRatios: [0.63, 0.73, 0.76, 0.78] },
    { periodH: 36, alphaRatios: [0.62, 0.71, 0.73, 0.76] },
    { periodH: 48, alphaRatios: [0.6, 0.68, 0.71, 0.74] },
    { periodH: 72, alphaRatios: [0.55, 0.63, 0.68, 0.72] },
  ],
  // Two sources, the higher used (level B).
  '4-2': [
    { periodH: 12, alphaRatios: [0.68, 0.8, 0.83, 0.84] },
    { periodH: 24, alphaRatios: [0.66, 0.77, 0.8, 0.82] },
    { periodH: 36, alphaRatios: [0.65, 0.75, 0.77, 0.8] },
    { periodH: 48, alphaRatios: [0.63, 0.71, 0.75, 0.78] },
    { periodH: 72, alphaRatios: [0.58, 0.66, 0.71, 0.76] },
  ],
  // Meteorologist on site (level A).
  '4-3': [
    { periodH: 12, alphaRatios: [0.72, 0.84, 0.87, 0.88] },
    { periodH: 24, alphaRatios: [0.69, 0.8, 0.84, 0.86] },
    { periodH: 36, alphaRatios: [0.68, 0.78, 0.8, 0.84] },
    { periodH: 48, alphaRatios: [0.66, 0.75, 0.78, 0.81] },
    { periodH: 72, alphaRatios: [0.61, 0.69, 0.75, 0.79] },
  ],
  // Monitoring, calibrated forecast.
  '4-4': [
    { periodH: 4, alphaRatios: [0.9, 0.95, 1, 1] },
    { periodH: 12, alphaRatios: [0.72, 0.84, 0.87, 0.88] },
    { periodH: 24, alphaRatios: [0.66, 0.77, 0.8, 0.82] },
  ],
  // Monitoring and level A.
  '4-5': [
    { periodH: 4, alphaRatios: [0.9, 0.95, 1, 1] },
    { periodH: 12, alphaRatios: [0.78, 0.91, 0.95, 0.96] },
    { periodH: 24, alphaRatios: [0.72, 0.84, 0.87, 0.9] },
  ],
};

/** Table 4-6, wind: below half the ten-year wind, and above. */
export const WIND_ALPHA: readonly AlphaRow[] = [
  { periodH: 24, alphaRatios: [0.8, 0.85] },
  { periodH: 48, alphaRatios: [0.75, 0.8] },
  { periodH: 72, alphaRatios: [0.7, 0.75] },
];
