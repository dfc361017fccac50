/** Invented: far north in early summer, fog wherever the air is light. Hours after the base time. */
export const FOG = {
  horizonH: 48,
  /** [from, to) of the fog. */
  fog: [
    [13, 25],
    [35, 60],
  ],
  inFog: { windKn: 6, visibilityNm: 0.3 },
  clear: { windKn: 16, visibilityNm: 12 },
  seaHeightM: 1,
} as const;
