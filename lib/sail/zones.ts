/** Which parts of a sail a tear reaches: near the corners, leech, luff and foot. */
import type { Zone } from './finding.ts';
import { heightAboveFootM, type SailOutline } from './outline.ts';
import { between, distanceM, lengthOf, minus, unitOf, type PointM, type SegmentM } from './point.ts';
import { segmentInside } from './polygon.ts';
import { CORNER_ZONE_M, EDGE_ZONE_SHARE, FOOT_ZONE_M } from './sail-defaults.table.ts';

/** In the order of what they ask of a repair. */
const ORDER: readonly Zone[] = ['corner', 'leech', 'foot', 'luff'];
const PARTS_COUNT = 20;
/** The sail at its very top has no chord to speak of. */
const LEAST_CHORD_M = 1e-6;

/** Zones that some point of a line lies in. */
export function zonesAlong(outline: SailOutline, { from, to }: SegmentM): readonly Zone[] {
  const points = Array.from({ length: PARTS_COUNT + 1 }, (_, index) => between(from, to, index / PARTS_COUNT));
  const found = new Set(points.flatMap((point) => zonesAt(outline, point)));
  return ORDER.filter((zone) => found.has(zone));
}

function zonesAt(outline: SailOutline, point: PointM): readonly Zone[] {
  const { tack, clew, head } = outline;
  const share = chordShareAt(outline, point);
  const isIn: Readonly<Record<Zone, boolean>> = {
    corner: [tack, clew, head].some((corner) => distanceM(corner, point) <= CORNER_ZONE_M),
    leech: share >= 1 - EDGE_ZONE_SHARE,
    luff: share <= EDGE_ZONE_SHARE,
    foot: heightAboveFootM(outline, point) <= FOOT_ZONE_M,
  };
  return ORDER.filter((zone) => isIn[zone]);
}

/** Along the chord (parallel to the foot), 0 at the luff, 1 at the leech; without a chord: the leech. */
function chordShareAt({ tack, clew, edge }: SailOutline, point: PointM): number {
  const chord = segmentInside(edge, { at: point, toward: unitOf(minus(clew, tack)) });
  if (chord === null) return 1;
  const chordM = lengthOf(minus(chord.to, chord.from));
  return chordM < LEAST_CHORD_M ? 1 : distanceM(point, chord.from) / chordM;
}
