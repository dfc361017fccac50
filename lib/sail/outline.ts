/** Corners and edges of a sail from its sides, or from those of a typical sail. */
import { distanceM, directionAtRad, leftOf, minus, plus, between, times, unitOf, type PointM } from './point.ts';
import { KIND_DEFAULTS, ROACH_RATIO } from './sail-defaults.table.ts';
import type { SailFile } from './sail-file.ts';

/** How far its metres can be trusted: luff and foot measured, one side measured, or those of a typical sail. */
export type Scale = 'measured' | 'one-side' | 'typical';

/** A figure that was not given, and what was taken instead. */
export interface Taken {
  readonly what: string;
  readonly value: string;
}

export interface SailOutline {
  readonly scale: Scale;
  readonly tack: PointM;
  readonly clew: PointM;
  readonly head: PointM;
  /** Straight from head to clew [m]. */
  readonly leechM: number;
  readonly luffM: number;
  readonly footM: number;
  /** From the clew to the head, roach included. */
  readonly leech: readonly PointM[];
  /** Tack, clew, leech, head: against the clock. */
  readonly edge: readonly PointM[];
  readonly taken: readonly Taken[];
}

const LEECH_PARTS_COUNT = 24;
/** A leech is a little longer than its luff; our default for sails of which only the leech is known. */
const LEECH_TO_LUFF_RATIO = 1.05;
/** Angles of the foot above straight aft that are a sail's. */
const FOOT_ANGLE_DEG = { least: -12, most: 45 } as const;

const rad = (angleDeg: number): number => (angleDeg * Math.PI) / 180;
const metres = (lengthM: number): string => `${Number(lengthM.toFixed(2))} m`;

interface Sides {
  readonly scale: Scale;
  readonly luffM: number;
  readonly footM: number;
  readonly taken: readonly Taken[];
}

function sidesOf(sail: SailFile): Sides {
  const { luffM: typicalM, luffToFootRatio } = KIND_DEFAULTS[sail.kind];
  if (sail.luffM !== undefined && sail.footM !== undefined)
    return { scale: 'measured', luffM: sail.luffM, footM: sail.footM, taken: [] };
  const byLeechM = sail.leechM === undefined ? undefined : sail.leechM / LEECH_TO_LUFF_RATIO;
  const byFootM = sail.footM === undefined ? undefined : sail.footM * luffToFootRatio;
  const luffM = sail.luffM ?? byFootM ?? byLeechM ?? typicalM;
  const footM = sail.footM ?? luffM / luffToFootRatio;
  return {
    scale: (byLeechM ?? sail.luffM ?? sail.footM) ? 'one-side' : 'typical',
    luffM,
    footM,
    taken: [
      ...(sail.luffM === undefined ? [{ what: 'luff', value: metres(luffM) }] : []),
      ...(sail.footM === undefined ? [{ what: 'foot', value: metres(footM) }] : []),
    ],
  };
}

/** Angle of the foot above straight aft [deg], by the law of cosines where all three sides are known; null: no triangle. */
export function footAngleDeg(sail: SailFile): number | null {
  const { luffAngleDeg, footAngleDeg: usualDeg } = KIND_DEFAULTS[sail.kind];
  const { luffM, footM, leechM } = sail;
  if (luffM === undefined || footM === undefined || leechM === undefined) return usualDeg;
  const cosine = (luffM ** 2 + footM ** 2 - leechM ** 2) / (2 * luffM * footM);
  if (Math.abs(cosine) >= 1) return null;
  const angleDeg = luffAngleDeg - (Math.acos(cosine) * 180) / Math.PI;
  return angleDeg < FOOT_ANGLE_DEG.least || angleDeg > FOOT_ANGLE_DEG.most ? null : angleDeg;
}

/** Leech lengths that make a sail of this luff and foot [m]: law of cosines at the steepest and the flattest foot. */
export function leechRangeM(sail: SailFile): { readonly leastM: number; readonly mostM: number } {
  const { luffAngleDeg } = KIND_DEFAULTS[sail.kind];
  const { luffM, footM } = sidesOf(sail);
  const leechM = (angleDeg: number): number =>
    Math.sqrt(luffM ** 2 + footM ** 2 - 2 * luffM * footM * Math.cos(rad(luffAngleDeg - angleDeg)));
  return { leastM: leechM(FOOT_ANGLE_DEG.most), mostM: leechM(FOOT_ANGLE_DEG.least) };
}

/** Corners and edges; throws for three sides that make no sail (checked when the file is read). */
export function sailOutline(sail: SailFile): SailOutline {
  const { scale, luffM, footM, taken } = sidesOf(sail);
  const angleDeg = footAngleDeg(sail);
  if (angleDeg === null) throw new Error('these sides make no sail');
  const tack = { xM: 0, yM: 0 };
  const head = times(directionAtRad(rad(KIND_DEFAULTS[sail.kind].luffAngleDeg)), luffM);
  const clew = times(directionAtRad(rad(angleDeg)), footM);
  const roachRatio = sail.roachRatio ?? usualRoachRatio(sail);
  const leech = leechLine({ clew, head, roachRatio });
  return {
    scale,
    tack,
    clew,
    head,
    luffM,
    footM,
    leechM: distanceM(clew, head),
    leech,
    edge: [tack, ...leech],
    taken: [
      ...taken,
      ...(sail.leechM === undefined || scale !== 'measured'
        ? [{ what: 'leech', value: metres(distanceM(clew, head)) }]
        : []),
      ...(sail.roachRatio === undefined
        ? [
            {
              what: 'roach',
              value: roachRatio === 0 ? 'none' : `${metres(roachRatio * distanceM(clew, head))} at most`,
            },
          ]
        : []),
    ],
  };
}

function usualRoachRatio(sail: SailFile): number {
  if (sail.kind !== 'mainsail') return 0;
  return (sail.battens?.count ?? 0) === 0 ? ROACH_RATIO.none : ROACH_RATIO[sail.battens?.kind ?? 'full'];
}

/** A parabola outside the straight leech, highest in its middle. */
function leechLine(of: { clew: PointM; head: PointM; roachRatio: number }): readonly PointM[] {
  const along = minus(of.head, of.clew);
  const outward = times(leftOf(unitOf(along)), -1);
  const parts = of.roachRatio === 0 ? 1 : LEECH_PARTS_COUNT;
  return Array.from({ length: parts + 1 }, (_, index) => {
    const share = index / parts;
    const roachM = 4 * share * (1 - share) * of.roachRatio * Math.hypot(along.xM, along.yM);
    return plus(between(of.clew, of.head, share), times(outward, roachM));
  });
}

/** Height of a point above the foot, square to it [m]. Reefs and battens run parallel to the foot. */
export function heightAboveFootM({ tack, clew }: Pick<SailOutline, 'tack' | 'clew'>, point: PointM): number {
  const along = unitOf(minus(clew, tack));
  const offset = minus(point, tack);
  return along.xM * offset.yM - along.yM * offset.xM;
}
