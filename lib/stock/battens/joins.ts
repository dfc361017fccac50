/** How long the joins of a batten must be: by its diameter, or the thickness of a flat one. */

export type JoinKind = 'sleeve' | 'splint' | 'scarf';

/** Length of a join. */
export interface JoinLength {
  readonly leastMm: number;
  readonly mostMm: number;
  /** Of a sleeve and a splint on each side of the joint, of a scarf the whole of it. */
  readonly counts: 'each-side' | 'whole';
}

/**
 * Length of a join in diameters. A sleeve 10 … 12 and splints 12 … 15 on each side (common practice, no source); a
 * scarf 12 at least, by default 20 where it is bent.
 *
 * @see sources.LAMINATE_REPAIR_38, least taper 12 to 1
 * @see sources.SCARF_ANGLE_2019, 12 and 20 to 1 equally strong, 6 to 1 weaker; that 20 is the default is our choice
 */
const JOIN_RATIOS = {
  sleeve: { leastRatio: 10, mostRatio: 12, counts: 'each-side' },
  splint: { leastRatio: 12, mostRatio: 15, counts: 'each-side' },
  scarf: { leastRatio: 12, mostRatio: 20, counts: 'whole' },
} as const;

/** How much wider inside than the rod a sleeve is, for the resin; common practice, no source. */
const SLEEVE_PLAY_MM = 0.2;

/** Least and usual length of a join for a rod of this diameter, or a flat batten of this thickness. */
export function joinLengthMm(kind: JoinKind, diameterMm: number): JoinLength {
  const { leastRatio, mostRatio, counts } = JOIN_RATIOS[kind];
  return { leastMm: leastRatio * diameterMm, mostMm: mostRatio * diameterMm, counts };
}

/** Bore [mm] of a tube that sleeves a rod. */
export const sleeveBoreMm = (diameterMm: number): number => diameterMm + SLEEVE_PLAY_MM;
