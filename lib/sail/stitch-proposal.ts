/** The sewing a tear asks for: rows, and the patch; a proposal to edit. */
import type { SeamFinding, TearFinding } from './finding.ts';
import type { Tear } from './place-tear.ts';
import { COMMON_PRACTICE, SLIT_WIDTH_M } from './sail-defaults.table.ts';
import type { SailShape } from './sail-shape.ts';

/** A figure with whose it is and why. */
export interface Reason {
  readonly text: string;
  readonly provenance: string;
}

export interface Patch {
  readonly tearLengthM: number;
  readonly tearWidthM: number;
  readonly overlapM: number;
  readonly sideCount: number;
  readonly layersPerSideCount: number;
}

/** What to sew; `rowCount`, `cloth` and `patch` as the stitch arithmetic takes them. */
export interface StitchProposal {
  readonly damageId: string;
  readonly lengthM: number;
  readonly rowCount: number;
  /** Cloth id of the stitch rates; null: not said. */
  readonly cloth: string | null;
  /** null: a seam came open, the cloth is whole. */
  readonly patch: Patch | null;
  /** The reef that takes the tear out of use, so that the work can wait; null: none surely does. */
  readonly canWaitWithReefNumber: number | null;
  readonly rowsReason: Reason;
  readonly patchReason: Reason;
}

type Place = 'corner' | 'leech' | 'foot' | 'seam' | 'low';

/** Rows of herringbone, overlap and layers by place; common practice, no source. */
const BY_PLACE: Readonly<Record<Place, { rowCount: number; overlapMm: number; layerCount: number; words: string }>> = {
  corner: { rowCount: 3, overlapMm: 100, layerCount: 2, words: 'within a metre of a corner, where load gathers' },
  leech: { rowCount: 2, overlapMm: 100, layerCount: 2, words: 'near the leech, which carries load and flutters' },
  foot: { rowCount: 1, overlapMm: 75, layerCount: 1, words: 'near the foot' },
  seam: { rowCount: 2, overlapMm: 50, layerCount: 1, words: 'across or along a seam' },
  low: { rowCount: 1, overlapMm: 50, layerCount: 1, words: 'in the low-loaded part of the sail' },
};

export function stitchProposal(shape: SailShape, tear: Tear, findings: readonly TearFinding[]): StitchProposal {
  const seams = findings.filter((finding): finding is SeamFinding => finding.code === 'tear.seam');
  const { places, isMaybe } = placesOf(findings, seams.length > 0);
  const mostRows = Math.max(...places.map((place) => BY_PLACE[place].rowCount));
  const rowPlace = places.find((place) => BY_PLACE[place].rowCount === mostRows) ?? 'low';
  const patchPlace = places.find((place) => place !== 'seam') ?? 'low';
  const isOpenSeam =
    tear.isOnSeam && tear.said.direction === 'along-the-seam' && (patchPlace === 'low' || patchPlace === 'foot');
  return {
    damageId: tear.id,
    lengthM: tear.lengthM,
    rowCount: mostRows,
    cloth: isOpenSeam ? 'old-holes' : (shape.sail.cloth ?? null),
    patch: isOpenSeam ? null : patchOf(tear, patchPlace),
    canWaitWithReefNumber: waitingReef(findings),
    rowsReason: {
      text: `${BY_PLACE[rowPlace].words}${isMaybe(rowPlace) ? ' (it may lie there: the worse is taken)' : ''}`,
      provenance: COMMON_PRACTICE,
    },
    patchReason: {
      text: isOpenSeam
        ? 'a seam that came open with its cloth whole needs no patch'
        : `${BY_PLACE[patchPlace].overlapMm} mm all round ${BY_PLACE[patchPlace].words}; both sides, the second larger, so that their edges make no hinge`,
      provenance: COMMON_PRACTICE,
    },
  };
}

function patchOf(tear: Tear, place: Place): Patch {
  const { overlapMm, layerCount } = BY_PLACE[place];
  return {
    tearLengthM: tear.lengthM,
    tearWidthM: tear.said.widthM ?? SLIT_WIDTH_M,
    overlapM: overlapMm / 1000,
    sideCount: 2,
    layersPerSideCount: layerCount,
  };
}

/** Where the tear lies or may lie, the place that asks most first: unknown does not count as safe. */
function placesOf(
  findings: readonly TearFinding[],
  hasSeam: boolean,
): { places: readonly Place[]; isMaybe: (place: Place) => boolean } {
  const found = findings.find((finding) => finding.code === 'tear.zones');
  const [zones, maybe]: readonly (readonly string[])[] = [found?.zones ?? [], found?.maybe ?? []];
  const isIn = (place: Place): boolean =>
    place === 'low' || zones?.includes(place) === true || (place === 'seam' && hasSeam);
  const isMaybe = (place: Place): boolean => !isIn(place) && maybe?.includes(place) === true;
  const order: readonly Place[] = ['corner', 'leech', 'foot', 'seam', 'low'];
  return { places: order.filter((place) => isIn(place) || isMaybe(place)), isMaybe };
}

function waitingReef(findings: readonly TearFinding[]): number | null {
  const answer = findings.find((finding) => finding.code === 'tear.first-answer');
  return answer?.reef !== null && answer?.isSure === true ? answer.reef.itsNumber : null;
}
