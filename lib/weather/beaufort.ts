export interface BeaufortForce {
  readonly forceNumber: number;
  readonly name: string;
  /** Lowest whole knot of the force. */
  readonly leastKn: number;
  /** Probable and probable highest wave of a fully grown open sea; null where the scale gives none. */
  readonly waveM: number;
  readonly waveMostM: number | null;
}

/** Beaufort scale: sources.WMO_558. */
export const BEAUFORT_SCALE: readonly BeaufortForce[] = [
  { forceNumber: 0, name: 'calm', leastKn: 0, waveM: 0, waveMostM: 0 },
  { forceNumber: 1, name: 'light air', leastKn: 1, waveM: 0.1, waveMostM: 0.1 },
  { forceNumber: 2, name: 'light breeze', leastKn: 4, waveM: 0.2, waveMostM: 0.3 },
  { forceNumber: 3, name: 'gentle breeze', leastKn: 7, waveM: 0.6, waveMostM: 1 },
  { forceNumber: 4, name: 'moderate breeze', leastKn: 11, waveM: 1, waveMostM: 1.5 },
  { forceNumber: 5, name: 'fresh breeze', leastKn: 17, waveM: 2, waveMostM: 2.5 },
  { forceNumber: 6, name: 'strong breeze', leastKn: 22, waveM: 3, waveMostM: 4 },
  { forceNumber: 7, name: 'near gale', leastKn: 28, waveM: 4, waveMostM: 5.5 },
  { forceNumber: 8, name: 'gale', leastKn: 34, waveM: 5.5, waveMostM: 7.5 },
  { forceNumber: 9, name: 'strong gale', leastKn: 41, waveM: 7, waveMostM: 10 },
  { forceNumber: 10, name: 'storm', leastKn: 48, waveM: 9, waveMostM: 12.5 },
  { forceNumber: 11, name: 'violent storm', leastKn: 56, waveM: 11.5, waveMostM: 16 },
  { forceNumber: 12, name: 'hurricane', leastKn: 64, waveM: 14, waveMostM: null },
];

/**
 * Beaufort force of a mean wind [kn].
 *
 * The scale is in whole knots: between two forces the nearest knot decides; below 1 kn it is calm.
 */
export function beaufort(windKn: number): BeaufortForce {
  const wholeKn = windKn < 1 ? 0 : Math.round(windKn);
  let found = BEAUFORT_SCALE[0];
  for (const row of BEAUFORT_SCALE) if (row.leastKn <= wholeKn) found = row;
  if (found === undefined) throw new Error('the Beaufort scale is empty');
  return found;
}

/** Wind speed [m/s] of a Beaufort number, v = 0.836 B^1.5 (empirical form, quoted from memory). */
export function beaufortSpeedMps(forceNumber: number): number {
  return 0.836 * forceNumber ** 1.5;
}
