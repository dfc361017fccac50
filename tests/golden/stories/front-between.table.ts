/** Invented weather, no place and no day that was: two lulls with a front between. Hours after the base time, knots at 10 m. */
export const FRONT_BETWEEN = {
  horizonH: 50,
  /** Wind until the front and behind it, the same in every scenario: hour, knots; straight between. */
  windKn: [
    [12, 15],
    [13.5, 15],
    [14, 6],
    [18.5, 6],
    [19.5, 18],
    [22, 28],
    [33, 28],
    [36, 14],
  ],
  /** What the second lull (36 to 44) comes to, by scenario. */
  secondLullKn: [5, 5, 6, 6, 6, 6, 9, 9, 9, 14],
  secondLull: { fromH: 36.5, toH: 44, afterKn: 20 },
  seaHeightM: 1,
} as const;

/** What matters of the plan. Counted from the table; see the story. */
export const FRONT_BETWEEN_GOLDEN = {
  jointProbability: 0.9,
  firstFairProbability: 0.6,
} as const;
