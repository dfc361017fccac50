/** Convex outlines, their corners in order against the clock. */
import { between, cross, dot, leftOf, minus, plus, times, type PointM, type SegmentM } from './point.ts';

/** A line without ends: a point on it and its direction (length 1). */
export interface LineM {
  readonly at: PointM;
  readonly toward: PointM;
}

/** What of an outline lies left of a line. */
export function leftPart(outline: readonly PointM[], { at, toward }: LineM): readonly PointM[] {
  const sideM = (point: PointM): number => cross(toward, minus(point, at));
  return outline.flatMap((point, index) => {
    const next = outline[(index + 1) % outline.length] ?? point;
    const [here, there] = [sideM(point), sideM(next)];
    const kept = here >= 0 ? [point] : [];
    const isCrossed = (here > 0 && there < 0) || (here < 0 && there > 0);
    return isCrossed ? [...kept, between(point, next, here / (here - there))] : kept;
  });
}

export const rightPart = (outline: readonly PointM[], { at, toward }: LineM): readonly PointM[] =>
  leftPart(outline, { at, toward: times(toward, -1) });

/** The stretch of a line inside an outline, from its point [m]; null: it passes by. */
export function stretchInside(
  outline: readonly PointM[],
  { at, toward }: LineM,
): { readonly fromM: number; readonly toM: number } | null {
  let [fromM, toM] = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const [index, corner] of outline.entries()) {
    const next = outline[(index + 1) % outline.length] ?? corner;
    const inward = leftOf(minus(next, corner));
    const [startM, change] = [dot(minus(at, corner), inward), dot(toward, inward)];
    if (Math.abs(change) < 1e-12) {
      if (startM < -1e-9) return null;
    } else if (change > 0) fromM = Math.max(fromM, -startM / change);
    else toM = Math.min(toM, -startM / change);
  }
  return toM > fromM && Number.isFinite(fromM) && Number.isFinite(toM) ? { fromM, toM } : null;
}

/** The part of a line inside an outline; null: it passes by. */
export function segmentInside(outline: readonly PointM[], line: LineM): SegmentM | null {
  const stretch = stretchInside(outline, line);
  return stretch === null
    ? null
    : {
        from: plus(line.at, times(line.toward, stretch.fromM)),
        to: plus(line.at, times(line.toward, stretch.toM)),
      };
}

/** How far a point lies outside an outline [m]; 0 inside. */
export const outsideM = (outline: readonly PointM[], point: PointM): number =>
  outline.reduce((worst, corner, index) => {
    const along = minus(outline[(index + 1) % outline.length] ?? corner, corner);
    const sideM = cross(along, minus(point, corner)) / Math.hypot(along.xM, along.yM);
    return Number.isFinite(sideM) ? Math.max(worst, -sideM) : worst;
  }, 0);

/** Area [m²], by the shoelace formula. */
export const areaOf = (outline: readonly PointM[]): number =>
  outline.reduce((sum, corner, index) => sum + cross(corner, outline[(index + 1) % outline.length] ?? corner) / 2, 0);

/** The smallest convex outline around some points (monotone chain). */
export function hullOf(points: readonly PointM[]): readonly PointM[] {
  const sorted = points.toSorted((a, b) => a.xM - b.xM || a.yM - b.yM);
  const half = (inOrder: readonly PointM[]): readonly PointM[] => {
    const kept: PointM[] = [];
    for (const point of inOrder) {
      while (kept.length > 1 && !turnsLeft(kept, point)) kept.pop();
      kept.push(point);
    }
    return kept.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.toReversed())];
}

function turnsLeft(kept: readonly PointM[], next: PointM): boolean {
  const [a, b] = [kept.at(-2), kept.at(-1)];
  return a !== undefined && b !== undefined && cross(minus(b, a), minus(next, b)) > 0;
}

/** What two convex outlines share. */
export const sharedPart = (outline: readonly PointM[], other: readonly PointM[]): readonly PointM[] =>
  other.reduce<readonly PointM[]>(
    (rest, at, index) => leftPart(rest, { at, toward: minus(other[(index + 1) % other.length] ?? at, at) }),
    outline,
  );
