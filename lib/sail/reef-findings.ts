/** Whether a tear lies below a reef: out of use with the reef set. */
import type { AnswerFinding, ReefFinding, ReefVerdict } from './finding.ts';
import { heightAboveFootM } from './outline.ts';
import type { Tear } from './place-tear.ts';
import { REEF_LOOSE_SHARE, REEF_ROOM_M } from './sail-defaults.table.ts';
import type { SailShape } from './sail-shape.ts';

/**
 * Lowest and highest point of a tear above the foot, and how far both may be off [m]. On a sail without any side the tear
 * may be twice as large as it looks: the sail may be half the typical one.
 */
export interface TearHeights {
  readonly lowM: number;
  readonly highM: number;
  readonly upM: number;
  readonly downM: number;
}

export function tearHeights({ outline }: SailShape, tear: Tear): TearHeights {
  const ends = [tear.line.from, tear.line.to].map((end) => heightAboveFootM(outline, end));
  const ownM = heightAboveFootM(outline, tear.middle);
  const offsets = tear.mayBeMiddle.map((at) => heightAboveFootM(outline, at) - ownM);
  return {
    lowM: Math.min(...ends),
    highM: Math.max(...ends),
    upM: Math.max(0, ...offsets) + (outline.scale === 'typical' ? Math.max(...ends) - ownM : 0),
    downM: Math.max(0, -Math.min(0, ...offsets)),
  };
}

interface ReefAt {
  readonly reefM: number;
  readonly looseM: number;
  readonly isSeen: boolean;
}

/** How far a reef may be off whose height was not given [m]. */
export const reefLooseM = ({ sail, outline }: SailShape): number =>
  sail.reefs?.luffHeightsM === undefined ? REEF_LOOSE_SHARE * outline.luffM : 0;

/** Of one reef. What is only likely does not count as below; what the sailor has seen does. */
function verdictOf(heights: TearHeights, { reefM, looseM, isSeen }: ReefAt): ReefVerdict {
  const topM = heights.highM + REEF_ROOM_M;
  if (isSeen || topM + heights.upM + looseM <= reefM) return 'below';
  if (topM <= reefM) return 'likely-below';
  return heights.lowM < reefM ? 'partly' : 'above';
}

/** Every reef from the lowest up. A reef that takes the tear out of use has none above it that does not. */
export function reefFindings(shape: SailShape, tear: Tear): readonly ReefFinding[] {
  const heights = tearHeights(shape, tear);
  const looseM = reefLooseM(shape);
  const seenFromNumber = tear.said.belowReef ?? Number.POSITIVE_INFINITY;
  return shape.reefs.map(({ count, heightM }): ReefFinding => {
    const isSeen = count.itsNumber >= seenFromNumber;
    return {
      code: 'tear.reef',
      count,
      verdict: verdictOf(heights, { reefM: heightM, looseM, isSeen }),
      roomM: heightM - heights.highM,
      looseM,
      isSet: shape.sail.reefs?.set === count.itsNumber,
      isSeen,
    };
  });
}

/** The least reef that takes the tear out of use: sailing with it in is the first answer. */
export function firstAnswer(shape: SailShape, reefs: readonly ReefFinding[]): AnswerFinding {
  const sure = reefs.find(({ verdict }) => verdict === 'below');
  const likely = reefs.find(({ verdict }) => verdict === 'likely-below');
  const set = shape.sail.reefs?.set ?? 0;
  const chosen = sure ?? likely ?? null;
  return {
    code: 'tear.first-answer',
    reef: chosen?.count ?? null,
    isSure: sure !== undefined,
    isSetNow: sure !== undefined && set >= sure.count.itsNumber,
    reefCount: reefs.length,
  };
}
