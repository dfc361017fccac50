/** Stitches, twine and needles of a seam. Figures without another source: common practice, no source. */
import type { Seam } from './seam.ts';

/** How the stitches are set: herringbone, pitch along the seam, width across it. */
export interface StitchGeometry {
  readonly pitchMm: number;
  readonly widthMm: number;
  /** Thickness of all layers, passed twice per stitch. */
  readonly thicknessMm: number;
}

/** Usual stitches; practice is a pitch of 4 … 8 mm and a width of 10 … 20 mm. */
export const USUAL_STITCH: StitchGeometry = { pitchMm: 5, widthMm: 15, thicknessMm: 0 };
export const USUAL_PITCH_MM = { leastMm: 4, mostMm: 8 } as const;
export const USUAL_WIDTH_MM = { leastMm: 10, mostMm: 20 } as const;

/** Thread per metre of row with usual stitches, single; the formula gives 6.3 for cloth without thickness. */
const USUAL_THREAD_RATIO = 6;
const ENDS_RATIO = 1.15;
/** An arm's length of doubled twine; 0.7 … 1.2 m in practice. */
const NEEDLEFUL_M = 0.9;
const ROW_M_PER_NEEDLE = 0.7;
const LEAST_NEEDLE_COUNT = 4;
/** A lock stitch this often keeps one broken stitch from letting go of the row. */
const LOCK_EVERY_M = 0.1;
const INCH_MM = 25.4;

/** Whole number not below the value, forgiving what binary fractions add. */
const roundUpCount = (value: number): number => Math.ceil(value - 1e-9);

/** Number of stitches in all rows: length / pitch × rows. */
export const stitchCount = (seam: Seam, pitchMm: number = USUAL_STITCH.pitchMm): number =>
  roundUpCount(((seam.lengthM * 1000) / pitchMm) * seam.rowCount);

/** Lock stitches in all rows: one each 100 mm and at the end of the row. */
export const lockCount = (seam: Seam): number => roundUpCount(seam.lengthM / LOCK_EVERY_M) * seam.rowCount;

/**
 * Single thread per length of row, without unit.
 *
 * Per stitch 2 · (hypot(width, pitch) + thickness), divided by the pitch; without a geometry 6.
 */
export const threadRatio = (geometry: StitchGeometry | null = null): number =>
  geometry === null
    ? USUAL_THREAD_RATIO
    : (2 * (Math.hypot(geometry.widthMm, geometry.pitchMm) + geometry.thicknessMm)) / geometry.pitchMm;

/**
 * Metres of twine for all rows, ends included (+15 %); doubled in the needle unless said.
 *
 * @see sources.HERRINGBONE_2007, thread doubled
 */
export function twineM(
  seam: Seam,
  geometry: StitchGeometry | null = null,
  strand: 'single' | 'double' = 'double',
): number {
  const strandCount = strand === 'double' ? 2 : 1;
  return seam.lengthM * seam.rowCount * threadRatio(geometry) * strandCount * ENDS_RATIO;
}

/**
 * Times the needle is threaded, each time with an arm's length, ends not counted.
 *
 * @see sources.HERRINGBONE_2007, an arm's length
 */
export const needlefulCount = (seam: Seam, geometry: StitchGeometry | null = null): number =>
  roundUpCount((seam.lengthM * seam.rowCount * threadRatio(geometry)) / NEEDLEFUL_M);

/** Needles to have at hand: one per 0.7 m of row, four at least; needles break. */
export const needleCount = (seam: Seam): number =>
  Math.max(LEAST_NEEDLE_COUNT, roundUpCount((seam.lengthM * seam.rowCount) / ROW_M_PER_NEEDLE));

/**
 * Holes through the cloth per inch of seam: two a stitch, in all rows.
 *
 * A machine seam of three rows has 25 … 35, so three hand rows at 5 mm, or two and a patch, are its equal.
 *
 * @see sources.SEAM_INSTRUCTIONS_2014, points per inch
 */
export const piercesPerInchCount = (rowCount: number, pitchMm: number = USUAL_STITCH.pitchMm): number =>
  (2 * rowCount * INCH_MM) / pitchMm;
