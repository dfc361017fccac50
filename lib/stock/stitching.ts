/** Arithmetic of a seam sewn by hand. Figures without another source: common practice, no source. */
import { STITCH_RATES, type StitchRate } from './stitch-rates.table.ts';

/** A seam: a tear or a seam of this length, sewn in this many rows. */
export interface Seam {
  readonly lengthM: number;
  readonly rowCount: number;
  /** Cloth id of the rates table. */
  readonly cloth: string;
}

/** How the stitches are set: herringbone, pitch along the seam, width across it. */
export interface StitchGeometry {
  readonly pitchMm: number;
  readonly widthMm: number;
  /** Thickness of all layers, passed twice per stitch. */
  readonly thicknessMm: number;
}

/** Thread per metre of row with usual stitches (pitch 5 mm, width 15 mm), single. */
const USUAL_THREAD_RATIO = 6;
const ENDS_RATIO = 1.15;
const USUAL_PITCH_MM = 5;
/** An arm's length of doubled twine. */
const NEEDLEFUL_M = 0.9;
const ROW_M_PER_NEEDLE = 0.7;
const LEAST_NEEDLE_COUNT = 4;

/** The rate of a cloth; throws for a cloth that is not in the table (references are checked when a file is read). */
export function stitchRate(cloth: string): StitchRate {
  const found = STITCH_RATES.find((rate) => rate.cloth === cloth);
  if (found === undefined) throw new Error(`no stitch rate for "${cloth}"`);
  return found;
}

/** Minutes with the needle, without setting up and finishing: rows × length × 60 / rate. */
export function needleMinutes(seam: Seam): { leastMin: number; likelyMin: number; mostMin: number } {
  const rate = stitchRate(seam.cloth);
  const minutesAt = (rateMPerH: number): number => (seam.rowCount * seam.lengthM * 60) / rateMPerH;
  return {
    leastMin: minutesAt(rate.fastMPerH),
    likelyMin: minutesAt(rate.likelyMPerH),
    mostMin: minutesAt(rate.slowMPerH),
  };
}

/** Number of stitches in all rows. */
export const stitchCount = (seam: Seam, pitchMm: number = USUAL_PITCH_MM): number =>
  Math.ceil(((seam.lengthM * 1000) / pitchMm) * seam.rowCount - 1e-9);

/**
 * Metres of twine for all rows, doubled in the needle, ends included (+15 %).
 *
 * Per stitch 2 · (hypot(width, pitch) + thickness) of single thread; without a geometry 6 times the seam.
 */
export function twineM(seam: Seam, geometry: StitchGeometry | null = null): number {
  const singleRatio =
    geometry === null
      ? USUAL_THREAD_RATIO
      : (2 * (Math.hypot(geometry.widthMm, geometry.pitchMm) + geometry.thicknessMm)) / geometry.pitchMm;
  return seam.lengthM * seam.rowCount * singleRatio * 2 * ENDS_RATIO;
}

/** Times the needle is threaded: doubled twine in lengths of an arm. */
export const needlefulCount = (seam: Seam): number =>
  Math.ceil((seam.lengthM * seam.rowCount * USUAL_THREAD_RATIO) / NEEDLEFUL_M - 1e-9);

/** Needles to have at hand: one per 0.7 m of row, four at least; needles break. */
export const needleCount = (seam: Seam): number =>
  Math.max(LEAST_NEEDLE_COUNT, Math.ceil((seam.lengthM * seam.rowCount) / ROW_M_PER_NEEDLE));

/**
 * Cloth for a patch [m²]: (length + 2 overlap) × (width + 2 overlap), times sides and layers.
 *
 * Overlap at least 50 mm, 75 … 100 mm where the sail is loaded (common practice, no source).
 */
export const patchAreaM2 = (patch: {
  tearLengthM: number;
  tearWidthM: number;
  overlapM: number;
  sideCount: number;
  layersPerSideCount: number;
}): number =>
  (patch.tearLengthM + 2 * patch.overlapM) *
  (patch.tearWidthM + 2 * patch.overlapM) *
  patch.sideCount *
  patch.layersPerSideCount;
