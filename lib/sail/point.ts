/** Points and directions in the plane of the sail [m]: x aft from the tack, y up. */
export interface PointM {
  readonly xM: number;
  readonly yM: number;
}

export interface SegmentM {
  readonly from: PointM;
  readonly to: PointM;
}

export const plus = (a: PointM, b: PointM): PointM => ({ xM: a.xM + b.xM, yM: a.yM + b.yM });
export const minus = (a: PointM, b: PointM): PointM => ({ xM: a.xM - b.xM, yM: a.yM - b.yM });
export const times = (a: PointM, byRatio: number): PointM => ({ xM: a.xM * byRatio, yM: a.yM * byRatio });
export const dot = (a: PointM, b: PointM): number => a.xM * b.xM + a.yM * b.yM;
export const cross = (a: PointM, b: PointM): number => a.xM * b.yM - a.yM * b.xM;
export const lengthOf = (a: PointM): number => Math.hypot(a.xM, a.yM);
export const distanceM = (a: PointM, b: PointM): number => lengthOf(minus(a, b));

/** The point a share of the way from `a` to `b`. */
export const between = (a: PointM, b: PointM, share: number): PointM => plus(times(a, 1 - share), times(b, share));

/** The direction of `a` with length 1. */
export const unitOf = (a: PointM): PointM => times(a, 1 / lengthOf(a));

/** A quarter turn to the left. */
export const leftOf = (a: PointM): PointM => ({ xM: -a.yM, yM: a.xM });

/** The direction at an angle from aft (x), up positive. */
export const directionAtRad = (angleRad: number): PointM => ({ xM: Math.cos(angleRad), yM: Math.sin(angleRad) });

/** Angle between two lines, whichever way they run [deg], 0 … 90. */
export function angleBetweenLinesDeg(a: PointM, b: PointM): number {
  const angleDeg = (Math.atan2(Math.abs(cross(a, b)), Math.abs(dot(a, b))) * 180) / Math.PI;
  return Math.min(90, angleDeg);
}

/** Shortest distance from a point to a segment [m]. */
function distanceToSegmentM(point: PointM, { from, to }: SegmentM): number {
  const along = minus(to, from);
  const squared = dot(along, along);
  const share = squared === 0 ? 0 : Math.min(1, Math.max(0, dot(minus(point, from), along) / squared));
  return distanceM(point, between(from, to, share));
}

/** Shortest distance from a point to a line of several segments [m]. */
export const distanceToLineM = (point: PointM, line: readonly PointM[]): number =>
  Math.min(...line.slice(1).map((to, index) => distanceToSegmentM(point, { from: line[index] ?? to, to })));

/** Whether two segments cross or touch. */
function segmentsMeet(a: SegmentM, b: SegmentM): boolean {
  const [alongA, alongB] = [minus(a.to, a.from), minus(b.to, b.from)];
  const across = cross(alongA, alongB);
  if (Math.abs(across) < 1e-12) return false;
  const gap = minus(b.from, a.from);
  const [shareA, shareB] = [cross(gap, alongB) / across, cross(gap, alongA) / across];
  return shareA >= 0 && shareA <= 1 && shareB >= 0 && shareB <= 1;
}

/** Shortest distance between two segments [m]; 0 where they cross. */
export const distanceBetweenM = (a: SegmentM, b: SegmentM): number =>
  segmentsMeet(a, b)
    ? 0
    : Math.min(
        distanceToSegmentM(a.from, b),
        distanceToSegmentM(a.to, b),
        distanceToSegmentM(b.from, a),
        distanceToSegmentM(b.to, a),
      );
