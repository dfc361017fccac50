/** The point of a strip at a measured distance from an edge, or at a share of its length. */
import { failed, ok, type Result } from '../result/index.ts';
import { placeOf } from '../shape/index.ts';
import { between, distanceToLineM, lengthOf, minus, plus, times, type PointM, type SegmentM } from './point.ts';
import { stretchInside } from './polygon.ts';
import type { DamageFile } from './sail-file.ts';
import type { SailShape } from './sail-shape.ts';
import type { DamageAt, Strip } from './strip.ts';

interface Measured {
  readonly strip: Strip;
  readonly damage: DamageFile;
  readonly place: DamageAt;
}

/** Steps in which a distance is looked for along a strip, and halvings after. */
const STEPS_COUNT = 200;
const HALVINGS_COUNT = 40;
/** A distance this near to what is possible is the possible one: tapes are read to the centimetre. */
const READING_M = 0.02;

/** The point; null: no distance is said; or `damage.off-sail`. */
export function measuredPoint(shape: SailShape, { strip, damage, place }: Measured): Result<PointM | null> {
  const { middle } = strip;
  if (damage.chordShare !== undefined)
    return ok(insideStrip(strip, between(middle.from, middle.to, damage.chordShare)));
  const measure = measureOf(shape, { strip, damage });
  if (measure === null) return ok(null);
  const found = pointAtDistance(middle, measure);
  if (found.point !== null) return ok(insideStrip(strip, found.point));
  // The metres of a typical sail are not those of this one: the nearest place there is.
  if (shape.outline.scale === 'typical') return ok(insideStrip(strip, found.nearest));
  return failed({
    code: 'damage.off-sail',
    where: placeOf({ where: place.where, path: [...place.path, measure.key] }),
    what: `No place of ${strip.isSeam ? 'that seam' : 'that strip'} lies ${measure.wantedM} m from the ${measure.edgeWord}.`,
    expected: `${shown(found.leastM)} to ${shown(found.mostM)} m`,
    remedy: 'Correct the distance, the panel, or the sides of the sail.',
  });
}

const shown = (lengthM: number): number => Number(lengthM.toFixed(2));

interface Measure {
  readonly key: string;
  readonly edgeWord: string;
  readonly wantedM: number;
  readonly distanceM: (point: PointM) => number;
}

function measureOf({ outline }: SailShape, { strip, damage }: Pick<Measured, 'strip' | 'damage'>): Measure | null {
  const { tack, clew, head, leech } = outline;
  const edge = (wantedM: number | undefined, edgeWord: string, line: readonly PointM[]): readonly Measure[] =>
    wantedM === undefined
      ? []
      : [
          {
            key: `distanceFrom${edgeWord.charAt(0).toUpperCase()}${edgeWord.slice(1)}M`,
            edgeWord,
            wantedM,
            distanceM: (point) => distanceToLineM(point, line),
          },
        ];
  const [measure] = [
    ...edge(damage.distanceFromLeechM, 'leech', leech),
    ...edge(damage.distanceFromLuffM, 'luff', [tack, head]),
    ...edge(damage.distanceFromFootM, 'foot', [tack, clew]),
    ...edge(damage.distanceFromCornerM, 'corner', [strip.middle.from, strip.middle.from]),
  ];
  return measure ?? null;
}

interface Found {
  readonly point: PointM | null;
  readonly nearest: PointM;
  readonly leastM: number;
  readonly mostM: number;
}

/** Looks from the end nearest to the edge on. */
function pointAtDistance({ from, to }: SegmentM, { wantedM, distanceM }: Measure): Found {
  const isForward = distanceM(from) <= distanceM(to);
  const at = (share: number): PointM => between(isForward ? from : to, isForward ? to : from, share);
  const sharesTried = Array.from({ length: STEPS_COUNT + 1 }, (_, index) => index / STEPS_COUNT);
  const tried = sharesTried.map((share) => distanceM(at(share)));
  const [leastM, mostM] = [Math.min(...tried), Math.max(...tried)];
  const nearest = at(sharesTried[tried.indexOf(wantedM < leastM ? leastM : mostM)] ?? 0);
  if (wantedM < leastM - READING_M || wantedM > mostM + READING_M) return { point: null, nearest, leastM, mostM };
  if (wantedM <= leastM || wantedM >= mostM) return { point: nearest, nearest, leastM, mostM };
  const after = tried.findIndex(
    (triedM, index) => index > 0 && ((tried[index - 1] ?? 0) - wantedM) * (triedM - wantedM) <= 0,
  );
  let [low, high] = [sharesTried[after - 1] ?? 0, sharesTried[after] ?? 1];
  const isRising = distanceM(at(low)) <= distanceM(at(high));
  for (let halving = 0; halving < HALVINGS_COUNT; halving++) {
    const half = (low + high) / 2;
    if (distanceM(at(half)) < wantedM === isRising) low = half;
    else high = half;
  }
  return { point: at((low + high) / 2), nearest, leastM, mostM };
}

/** The point, or the nearest across the strip that lies in what is left of it between the battens. */
function insideStrip({ region, across, isSeam, looseM }: Strip, point: PointM): PointM {
  if (isSeam) return point;
  const inside = stretchInside(region, { at: point, toward: across });
  if (inside === null || inside.fromM > looseM || inside.toM < -looseM) return point;
  const acrossM = inside.fromM > 0 || inside.toM < 0 ? (inside.fromM + inside.toM) / 2 : 0;
  return plus(point, times(across, acrossM));
}

/** The middle of what a strip leaves: of a seam its own, else that of the corners of its region. */
export function centreOf({ region, middle, isSeam }: Strip): PointM {
  if (isSeam || lengthOf(minus(middle.to, middle.from)) === 0) return between(middle.from, middle.to, 0.5);
  return times(
    region.reduce((sum, corner) => plus(sum, corner), { xM: 0, yM: 0 }),
    1 / region.length,
  );
}
