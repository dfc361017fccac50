/** A patch over a tear: area, the size of each cloth, its edge as a seam, glue. */
import type { Seam } from './seam.ts';

/** A rectangular patch over a tear. */
export interface Patch {
  readonly tearLengthM: number;
  /** How far the tear gapes, or how wide the worn cloth is; a clean slit takes 20 mm. */
  readonly tearWidthM: number;
  /** How far the cloth reaches past the tear on every side. */
  readonly overlapM: number;
  /** 1 or 2. */
  readonly sideCount: number;
  /** 1; near the leech 2. */
  readonly layersPerSideCount: number;
}

/** One cloth of a patch as it is cut, corners rounded. */
export interface PatchCloth {
  readonly sideNumber: number;
  /** 1 lies on the sail. */
  readonly layerNumber: number;
  readonly lengthM: number;
  readonly widthM: number;
  readonly cornerRadiusM: number;
}

/**
 * Overlap by load: 50 mm at least, 75 … 100 mm where the sail is loaded (the latter common practice, no source).
 *
 * @see sources.SAIL_PATCH_1999, two inches past the tear
 */
export const PATCH_OVERLAP_MM = {
  light: { leastMm: 50, mostMm: 50 },
  loaded: { leastMm: 75, mostMm: 100 },
} as const;

/**
 * How much further each next cloth reaches, so that edges do not lie on each other and make a hinge; 15 … 25 mm.
 *
 * @see sources.TEMPORARY_REPAIR_NOTE, second side of another size; the amount is common practice, no source
 */
export const PATCH_STEP_M = 0.02;

/** Radius of the corners; our default. */
const CORNER_RADIUS_M = 0.025;

/** Adhesive per bonded face; common practice, no source. */
const GLUE_KG_PER_M2 = 0.35;

/** Adhesive tape as the trade sells it, and rolls of cloth; common practice, no source. */
const TAPE_WIDTHS_MM = [25, 50, 75, 100, 150] as const;
const CLOTH_WIDTHS_MM = { leastMm: 300, mostMm: 1370 } as const;

/** Area of a patch [m²], all cloths of one size: (length + 2 overlap) × (width + 2 overlap), times sides and layers. */
export const patchAreaM2 = (patch: Patch): number =>
  (patch.tearLengthM + 2 * patch.overlapM) *
  (patch.tearWidthM + 2 * patch.overlapM) *
  patch.sideCount *
  patch.layersPerSideCount;

/**
 * The cloths of a patch in the order of their size, each a step larger than the one before, so that no two edges meet
 * and the second layer of a side reaches past the first.
 *
 * @see sources.TEAR_ANSWER_2018, corners rounded, two layers near the leech and the second larger
 */
export function patchCloths(patch: Patch, stepM: number = PATCH_STEP_M): readonly PatchCloth[] {
  const count = patch.sideCount * patch.layersPerSideCount;
  return Array.from({ length: count }, (_, index) => {
    const reachM = patch.overlapM + index * stepM;
    const [lengthM, widthM] = [patch.tearLengthM + 2 * reachM, patch.tearWidthM + 2 * reachM];
    return {
      sideNumber: (index % patch.sideCount) + 1,
      layerNumber: Math.floor(index / patch.sideCount) + 1,
      lengthM,
      widthM,
      cornerRadiusM: Math.min(CORNER_RADIUS_M, lengthM / 2, widthM / 2),
    };
  });
}

/** Cloth it takes [m²], cut as rectangles: what is rounded off is waste. */
export const clothAreaM2 = (cloths: readonly PatchCloth[]): number =>
  cloths.reduce((areaM2, { lengthM, widthM }) => areaM2 + lengthM * widthM, 0);

/** Way round the edge of a cloth with its rounded corners: 2 (length + width) − (8 − 2π) radius. */
export const edgeM = ({ lengthM, widthM, cornerRadiusM }: PatchCloth): number =>
  2 * (lengthM + widthM) - (8 - 2 * Math.PI) * cornerRadiusM;

/** Rows round each cloth: two where it is the only one; of several, one each, as each row holds the smaller ones too. */
export const usualEdgeRowCount = (patch: Patch): number => (patch.sideCount * patch.layersPerSideCount === 1 ? 2 : 1);

/**
 * The edges of all cloths as one seam, `rowCount` rows round each.
 *
 * Two straight rows or a square zigzag round the edge hold a patch; torn cloth is cut away 25 mm inside the stitching.
 *
 * @see sources.SAIL_PATCH_1999, sewing the patch
 */
export const edgeSeam = (cloths: readonly PatchCloth[], rowCount: number, cloth: string): Seam => ({
  lengthM: cloths.reduce((lengthM, piece) => lengthM + edgeM(piece), 0),
  rowCount,
  cloth,
});

/** Adhesive [kg] for a glued patch: 0.35 kg/m² for each cloth's bonded face (common practice, no source). */
export const glueKg = (cloths: readonly PatchCloth[]): number => GLUE_KG_PER_M2 * clothAreaM2(cloths);

/** What one cloth of a patch is cut from. */
export type PatchStuff =
  | { readonly kind: 'tape'; readonly widthMm: number; readonly lengthM: number }
  | { readonly kind: 'cloth'; readonly leastWidthMm: number }
  | { readonly kind: 'joined' };

/**
 * The narrowest tape of the trade that covers a cloth in one length; else cloth from a roll at least so wide; `joined`
 * when even the widest roll is too narrow.
 */
export function patchStuff({ lengthM, widthM }: PatchCloth): PatchStuff {
  const [longM, shortM] = [Math.max(lengthM, widthM), Math.min(lengthM, widthM)];
  const shortMm = shortM * 1000;
  const tapeMm = TAPE_WIDTHS_MM.find((widthMm) => widthMm >= shortMm - 1e-6);
  if (tapeMm !== undefined) return { kind: 'tape', widthMm: tapeMm, lengthM: longM };
  if (shortMm > CLOTH_WIDTHS_MM.mostMm + 1e-6) return { kind: 'joined' };
  return { kind: 'cloth', leastWidthMm: Math.max(CLOTH_WIDTHS_MM.leastMm, Math.ceil(shortMm - 1e-6)) };
}
