/** Invented trades: 18 to 22 kn for days, a little less on the third. Hours after the base time, knots at 10 m. */
export const TRADES = {
  horizonH: 96,
  windKn: [
    [12, 20],
    [24, 21.5],
    [36, 19.5],
    [48, 21],
    [60, 18],
    [66, 18],
    [72, 20.5],
    [84, 22],
    [96, 21],
  ],
  /** So much more or less at every hour, by scenario. */
  moreKn: [-1.1, -0.6, -0.4, 0, 0, 0.2, 0.4, 0.6, 0.9, 1.2],
  windFromDegTrue: 90,
  seaHeightM: 2.2,
} as const;
