/**
 * Speeds of an ordinary loaded cruiser of 10 m on the waterline under full sail, each a share of her hull speed, by angle and
 * speed of the true wind. Common practice, no source: a default until the passage has a table of its own.
 */
export const USUAL_SPEEDS: {
  readonly twsKn: readonly number[];
  readonly rows: readonly { readonly twaDeg: number; readonly hullSpeedShare: readonly number[] }[];
} = {
  twsKn: [4, 6, 8, 10, 12, 16, 20, 25, 30],
  rows: [
    { twaDeg: 45, hullSpeedShare: [0.32, 0.45, 0.56, 0.65, 0.72, 0.78, 0.8, 0.78, 0.72] },
    { twaDeg: 60, hullSpeedShare: [0.38, 0.53, 0.66, 0.75, 0.82, 0.88, 0.91, 0.91, 0.87] },
    { twaDeg: 90, hullSpeedShare: [0.41, 0.57, 0.7, 0.8, 0.87, 0.94, 0.98, 1, 1] },
    { twaDeg: 120, hullSpeedShare: [0.36, 0.51, 0.65, 0.76, 0.84, 0.94, 0.99, 1, 1] },
    { twaDeg: 150, hullSpeedShare: [0.27, 0.39, 0.51, 0.62, 0.72, 0.86, 0.95, 1, 1] },
    { twaDeg: 180, hullSpeedShare: [0.22, 0.33, 0.43, 0.53, 0.63, 0.79, 0.9, 0.97, 1] },
  ],
};
