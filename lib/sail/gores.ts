/**
 * Gores of a radial sail: fans from tack, clew and head with equal angles, which meet in the middle of the sail.
 * Where fans meet differs from loft to loft: middle of each edge and centre of the sail are our default.
 */
import type { SailOutline } from './outline.ts';
import type { Panel, Panels, Seam } from './panel.ts';
import { between, cross, dot, leftOf, minus, plus, times, unitOf, type PointM, type SegmentM } from './point.ts';
import { leftPart, rightPart, segmentInside, type LineM } from './polygon.ts';
import type { Corner, SailFile } from './sail-file.ts';

export type GoreCounts = Readonly<Record<Corner, number>>;

/** Corners in the order of the count. */
const CORNERS: readonly Corner[] = ['tack', 'clew', 'head'];

/** How many gores each corner has: as given, else thirds, the odd ones at clew and head. */
export function goreCounts({ panelCount, gores }: Pick<SailFile, 'panelCount' | 'gores'>): GoreCounts {
  if (gores !== undefined) return gores;
  const third = Math.floor(panelCount / 3);
  const odd = panelCount - 3 * third;
  return { tack: third, clew: third + (odd > 0 ? 1 : 0), head: third + (odd > 1 ? 1 : 0) };
}

/** Gores that come before those of a corner in the count from the tack around. */
export function goresBefore(counts: GoreCounts, corner: Corner): number {
  if (corner === 'tack') return 0;
  return corner === 'clew' ? counts.tack : counts.tack + counts.clew;
}

interface Fan {
  readonly corner: Corner;
  readonly at: PointM;
  readonly firstNumber: number;
  readonly goreCount: number;
  /** Directions of the edges where the count of this fan begins and ends. */
  readonly fromRad: number;
  readonly toRad: number;
  readonly region: readonly PointM[];
}

export function radialPanels(outline: SailOutline, counts: GoreCounts): Panels {
  const fans = fansOf(outline, counts);
  const panels = fans.flatMap(goresOf);
  const inFans = panels.flatMap((panel): readonly Seam[] =>
    panel.seamNext === null
      ? []
      : [{ line: panel.seamNext, panelNumbers: [panel.panelNumber, panel.panelNumber + 1], corners: null }],
  );
  return { panels, seams: [...inFans, ...joinsOf(outline)] };
}

const middleOf = ({ tack, clew, head }: SailOutline): PointM => times(plus(plus(tack, clew), head), 1 / 3);

/** Where the fans meet, from the middle of the sail to the middle of each edge. */
function joinsOf(outline: SailOutline): readonly Seam[] {
  const middle = middleOf(outline);
  const { tack, clew, head } = outline;
  const join = (a: PointM, b: PointM, corners: readonly [Corner, Corner]): Seam => {
    const toward = unitOf(minus(between(a, b, 0.5), middle));
    const inside = segmentInside(outline.edge, { at: middle, toward });
    if (inside === null) throw new Error('fans meet outside of the sail');
    return { line: { from: middle, to: inside.to }, panelNumbers: null, corners };
  };
  return [join(tack, clew, ['tack', 'clew']), join(clew, head, ['clew', 'head']), join(head, tack, ['head', 'tack'])];
}

function fansOf(outline: SailOutline, counts: GoreCounts): readonly Fan[] {
  const middle = middleOf(outline);
  const at = { tack: outline.tack, clew: outline.clew, head: outline.head };
  return CORNERS.map((corner, index): Fan => {
    const own = at[corner];
    const before = at[CORNERS[(index + 2) % 3] ?? corner];
    const after = at[CORNERS[(index + 1) % 3] ?? corner];
    // The fan lies between the lines from the middle to the middles of its two edges.
    const cut = (rest: readonly PointM[], other: PointM): readonly PointM[] => {
      const line: LineM = { at: middle, toward: unitOf(minus(between(own, other, 0.5), middle)) };
      const isLeft = cross(line.toward, minus(own, middle)) > 0;
      return isLeft ? leftPart(rest, line) : rightPart(rest, line);
    };
    const angle = (to: PointM): number => Math.atan2(to.yM - own.yM, to.xM - own.xM);
    const fromRad = angle(before);
    return {
      corner,
      at: own,
      firstNumber: goresBefore(counts, corner) + 1,
      goreCount: counts[corner],
      fromRad,
      toRad: fromRad - turnRad(fromRad - angle(after)),
      region: cut(cut(outline.edge, before), after),
    };
  });
}

/** An angle as a turn from 0 to a whole one. */
const turnRad = (angleRad: number): number => ((angleRad % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);

function goresOf(fan: Fan): readonly Panel[] {
  const rayAt = (gapsCount: number): LineM => {
    const angleRad = fan.fromRad + ((fan.toRad - fan.fromRad) * gapsCount) / fan.goreCount;
    return { at: fan.at, toward: { xM: Math.cos(angleRad), yM: Math.sin(angleRad) } };
  };
  const seamAt = (gapsCount: number): SegmentM | null =>
    gapsCount === 0 || gapsCount === fan.goreCount ? null : outward(fan, rayAt(gapsCount));
  return Array.from({ length: fan.goreCount }, (_, index): Panel => {
    // The count turns with the clock. The outer gores keep what lies beyond the straight edge: the roach.
    const begun = index === 0 ? fan.region : rightPart(fan.region, rayAt(index));
    const region = index === fan.goreCount - 1 ? begun : leftPart(begun, rayAt(index + 1));
    const ray = rayAt(index + 0.5);
    return {
      panelNumber: fan.firstNumber + index,
      corner: fan.corner,
      region,
      middle: outward(fan, ray),
      toNext: times(leftOf(ray.toward), -1),
      seamBefore: seamAt(index),
      seamNext: seamAt(index + 1),
    };
  });
}

/** The part of a ray from the corner to the end of its fan. */
function outward(fan: Fan, ray: LineM): SegmentM {
  const inside = segmentInside(fan.region, ray);
  if (inside === null) throw new Error('a gore passes by its fan');
  return dot(minus(inside.to, fan.at), ray.toward) > 0 ? { from: fan.at, to: inside.to } : inside;
}
