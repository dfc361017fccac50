/**
 * How load runs through a sail: from head to clew, bowed toward the tack. Approximate: the curves are quadratic Bézier
 * curves between the two loaded corners, and every point between leech and tack lies on one of them. That load bows so is common practice, no source; the curve is
 * our choice.
 */
import type { SailOutline } from './outline.ts';
import { between, cross, minus, plus, times, unitOf, type PointM } from './point.ts';

type Corners = Pick<SailOutline, 'tack' | 'clew' | 'head'>;

/** How far the drawn lines bow: 0 the straight leech, 1 along luff and foot at its ends. */
const DRAWN_BOW_RATIOS = [0.3, 0.65, 1] as const;
const PARTS_COUNT = 20;
/** The corners themselves have no direction: just inside of them. */
const LEAST_SHARE = 0.02;

/** The point that bends the curve. */
const bendOf = ({ tack, clew, head }: Corners, bowRatio: number): PointM =>
  plus(times(between(head, clew, 0.5), 1 - bowRatio), times(tack, bowRatio));

/** The curve itself, head to clew. */
function loadLine(corners: Corners, bowRatio: number): readonly PointM[] {
  const bend = bendOf(corners, bowRatio);
  return Array.from({ length: PARTS_COUNT + 1 }, (_, index) => {
    const share = index / PARTS_COUNT;
    return between(between(corners.head, bend, share), between(bend, corners.clew, share), share);
  });
}

/** Load lines to draw. */
export const loadLines = (corners: Corners): readonly (readonly PointM[])[] =>
  DRAWN_BOW_RATIOS.map((bowRatio) => loadLine(corners, bowRatio));

/** Direction of the load at a point of the sail, length 1. */
export function loadDirectionAt(corners: Corners, point: PointM): PointM {
  const { tack, clew, head } = corners;
  // Weights of the corners that balance at the point (barycentric coordinates).
  const whole = cross(minus(clew, tack), minus(head, tack));
  const headWeight = cross(minus(clew, tack), minus(point, tack)) / whole;
  const clewWeight = cross(minus(point, tack), minus(head, tack)) / whole;
  const share = Math.min(1 - LEAST_SHARE, Math.max(LEAST_SHARE, (1 - headWeight + clewWeight) / 2));
  const bowRatio = Math.min(2, Math.max(-1, (1 - headWeight - clewWeight) / (2 * share * (1 - share))));
  const bend = bendOf(corners, bowRatio);
  return unitOf(plus(times(minus(bend, head), 1 - share), times(minus(clew, bend), share)));
}
